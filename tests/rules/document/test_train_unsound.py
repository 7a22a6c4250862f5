"""A train has what a run needs, once, in an order that works; common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.document.pages import found_in
from tests.rules.harness import judged

RULE = "document.train-unsound"
PARTS = {
    "mixer": "{part: mixer, name: mixer, volume: 0.2 mL, pressure_rating: 550 bar}",
    "injector": "{part: injector, name: valve, volume: 10 uL, pressure_rating: 550 bar}",
    "column": "{part: column}",
    "cell": "{part: cell, name: UV cell, volume: 11 uL, pressure_rating: 350 bar, detector: UV}",
    "regulator": "{part: regulator, name: regulator, pressure_rating: 380 bar}",
    "source": "{part: source, name: electrospray, detector: MS}",
}
SOUND = ("mixer", "injector", "column", "cell", "regulator", "source")


def card(*names: str, **changed: str) -> str:
    lines = [f"  - {changed.get(name, PARTS[name.rstrip('2')])}\n" for name in names]
    return "kind: instrument\ntrain:\n" + "".join(lines)


def bypassed(name: str) -> str:
    return PARTS[name].replace("}", ", bypassed: true}")


@pytest.mark.parametrize(
    "names",
    [
        SOUND,
        ("injector", "column", "regulator"),
        ("mixer", "injector", "cell", "column", "regulator"),
        ("mixer", "injector", "column", "regulator", "cell"),
    ],
)
def test_silent_for_trains_of_real_benches(names: tuple[str, ...]) -> None:
    assert found_in(card(*names), RULE) == []


def test_silent_for_a_card_without_a_train_and_for_other_kinds() -> None:
    assert found_in("kind: instrument\n", RULE) == []
    assert found_in("kind: room\nvolume: 30 m3\n", RULE) == []


@pytest.mark.parametrize("name", ["mixer", "cell", "source"])
def test_silent_where_what_not_every_run_passes_is_bypassed(name: str) -> None:
    assert found_in(card(*SOUND, **{name: bypassed(name)}), RULE) == []


@pytest.mark.parametrize("name", ["injector", "column", "regulator"])
def test_what_every_run_passes_is_there_and_in_the_flow(name: str) -> None:
    (lacks,) = found_in(card(*(one for one in SOUND if one != name)), RULE)
    assert lacks.grade == "fault"
    assert f"no {name}" in lacks.message
    (off,) = found_in(card(*SOUND, **{name: bypassed(name)}), RULE)
    assert "bypassed" in off.message
    assert off.at.path == ("train", SOUND.index(name), "bypassed")


@pytest.mark.parametrize("name", ["injector", "column", "regulator"])
def test_nothing_of_it_is_there_twice(name: str) -> None:
    at = SOUND.index(name)
    twice = (*SOUND[: at + 1], f"{name}2", *SOUND[at + 1 :])
    (found,) = found_in(card(*twice), RULE)
    assert f"second {name}" in found.message
    assert found_in(card(*twice, **{f"{name}2": bypassed(name)}), RULE) == []


@pytest.mark.parametrize(
    ("names", "words"),
    [
        (("mixer", "column", "injector", "regulator"), "downstream of the column"),
        (("injector", "column", "mixer", "regulator"), "downstream of the column"),
        (("injector", "regulator", "column"), "downstream of the regulator"),
        (("injector", "column", "source", "regulator"), "upstream of the regulator"),
    ],
)
def test_every_part_is_on_its_side(names: tuple[str, ...], words: str) -> None:
    (found,) = found_in(card(*names), RULE)
    assert words in found.message


def test_a_sequence_on_such_a_bench_does_not_run() -> None:
    assert judged(card(*SOUND, regulator=bypassed("regulator"))).verdict == "do not run"
