"""Washes that follow each other, wash against seal wash, and diluents through the needle.

Water and heptane part at every temperature of a laboratory; 2-propanol mixes with both. Ammonium acetate
dissolves in water and hardly in 2-propanol.
"""

from __future__ import annotations

from typing import Any

import pytest

from methodlint.checking.report import Report
from tests.text_labs import REMOVED, TextLab, base_lab, everything, reported

RULE = "solvent.pair-not-miscible"
FRESH = {"fill": "500 mL", "dead_volume": "50 mL", "opened": "2026-11-20", "expires": "2027-10-31",
         "grade": "MS"}  # fmt: skip


def bottle(line: str, liquid: str, **more: Any) -> dict[str, Any]:
    return {"line": line, "liquid": liquid, **FRESH, **more}


def lab(*washes: dict[str, Any], enters: bool = True) -> TextLab:
    """The sound lab with these washes in the place of its own."""
    own = base_lab().plain("solvents/solvents")["bottles"][:3]
    found = base_lab().changed("solvents.bottles", [*own, *washes])
    return found.changed("instrument.autosampler.wash_enters_loop", enters)


def found(report: Report, rule: str = RULE) -> list[str]:
    return [f.message for f in everything(report.findings) if f.rule == rule]


STRONG, WEAK = bottle("strong-wash", "heptane"), bottle("weak-wash", "water")
MIDDLE = bottle("wash", "2-propanol")


def test_weak_after_strong_that_do_not_mix() -> None:
    report = lab(STRONG, WEAK).judged()
    [message] = [m for m in found(report) if "from one wash to the next" in m]
    assert "heptane (needle wash) and water (needle wash)" in message


def test_twin_a_wash_in_between_that_mixes_with_both() -> None:
    """2-propanol between heptane and water: their turns, not their places in the list, decide."""
    report = lab(WEAK, STRONG, MIDDLE).judged()
    assert found(report) == []


def test_twin_washes_that_only_rinse_the_outside() -> None:
    assert found(lab(STRONG, WEAK, enters=False).judged()) == []


def test_twin_two_washes_that_mix_are_clear() -> None:
    report = lab(bottle("W1", "methanol"), bottle("W2", "2-propanol")).judged()
    assert found(report) == []
    assert report.verdict == "clear to run", reported(report)


@pytest.mark.parametrize("names", [("W1", "W2"), ("rinse a", "rinse b"), ("4", "5")])
def test_roles_serve_as_well_as_names(names: tuple[str, str]) -> None:
    washes = [
        bottle(name, liquid, role="wash")
        for name, liquid in zip(names, ("heptane", "water"), strict=True)
    ]
    assert any("from one wash to the next" in message for message in found(lab(*washes).judged()))


def test_wash_against_seal_wash() -> None:
    seal = bottle("seal-wash", "water", uses="0.01 mL/min")
    report = lab(bottle("needle-wash", "heptane"), seal).judged()
    assert any("behind the seal of the wash pump" in message for message in found(report))


def test_twin_a_seal_wash_that_mixes() -> None:
    seal = bottle("seal-wash", "2-propanol", uses="0.01 mL/min")
    report = lab(bottle("needle-wash", "2-propanol"), seal).judged()
    assert found(report) == []
    assert report.verdict == "clear to run", reported(report)


def with_diluents(first: str, second: str, *washes: dict[str, Any]) -> TextLab:
    """Extracts 1 and 3 in one diluent, extract 2 in the other."""
    changed = lab(*washes).changed("sequence.diluent", first)
    changed = changed.changed("method.injection.diluent", first)
    return changed.changed("sequence.lines[13].diluent", second)


def test_diluents_meet_in_the_needle_without_a_wash() -> None:
    report = with_diluents("heptane", "water").judged()
    messages = [m for m in found(report) if "at the change of diluent before line 14" in m]
    assert len(messages) == 1
    [finding] = [f for f in everything(report.findings) if f.message == messages[0]]
    assert finding.grade == "fault"
    assert finding.remedy.startswith("wash the needle with")


def test_twin_diluents_that_mix() -> None:
    assert found(with_diluents("2-propanol", "methanol").judged()) == []


def test_twin_a_wash_in_between_parts_the_diluents() -> None:
    report = with_diluents("heptane", "water", bottle("needle-wash", "2-propanol")).judged()
    assert not [m for m in found(report) if "at the change of diluent" in m]


def test_a_salt_of_one_wash_falls_out_in_the_next() -> None:
    salted = bottle("W1", "water", additives=[{"additive": "ammonium acetate", "level": "2 mol/L"}])
    report = lab(salted, bottle("W2", "2-propanol")).judged()
    [message] = [m for m in found(report, "injection.wash-missing-or-unfit") if "falls out" in m]
    assert "of the wash water falls out in the wash 2-propanol" in message


def test_twin_the_same_wash_without_the_salt() -> None:
    report = lab(bottle("W1", "water"), bottle("W2", "2-propanol")).judged()
    assert not [m for m in found(report, "injection.wash-missing-or-unfit") if "falls out" in m]


def test_a_diluent_of_the_methods_own_meets_that_of_another_method() -> None:
    """A switch of methods: no diluent on the lines, each method has its own."""
    changed = lab().changed("sequence.diluent", REMOVED)
    text = changed.texts["method/method"].replace("diluent: 2-propanol", "diluent: heptane")
    changed = changed.with_text("method/greasy", text)
    changed = changed.changed("method.injection.diluent", "water")
    changed = changed.changed("sequence.lines[14].method", "greasy")
    assert any("before line 15" in message for message in found(changed.judged()))
