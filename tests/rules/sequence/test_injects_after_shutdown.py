"""sequence.injects-after-shutdown; common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings

RULE = "sequence.injects-after-shutdown"
SAMPLE = "kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL"
SHUTDOWN = 'kind: shutdown, duration: 10 min, co2: "off", regulator_released: true'


def lines(*texts: str) -> str:
    return "kind: sequence\nlines:\n" + "".join(f"  - {{{text}}}\n" for text in texts)


def test_silent_for_the_sound_lab_which_ends_with_a_shutdown() -> None:
    assert findings("", RULE) == []


@pytest.mark.parametrize(
    "between",
    [
        'kind: equilibration, duration: 15 min, co2: "on"',
        "kind: equilibration, duration: 15 min",
        "kind: flush, liquid: methanol, duration: 5 min",
    ],
)
def test_silent_where_the_flow_is_started_again(between: str) -> None:
    assert findings(lines(SAMPLE, SHUTDOWN, between, SAMPLE, SHUTDOWN), RULE) == []


def test_silent_for_a_pause_at_the_method_s_state() -> None:
    assert findings(lines(SAMPLE, "kind: idle, duration: 30 min", SAMPLE, SHUTDOWN), RULE) == []


@pytest.mark.parametrize(
    ("stop", "words"),
    [
        (SHUTDOWN, "releases the regulator"),
        ('kind: shutdown, duration: 10 min, co2: "off"', "stops the flow"),
        ("kind: idle, duration: 10 min, regulator_released: true", "releases the regulator"),
        (f'{SHUTDOWN}}}\n  - {{kind: flush, duration: 5 min, co2: "off"', "releases the regulator"),
    ],
)
def test_an_injection_that_follows_a_shutdown(stop: str, words: str) -> None:
    (found,) = findings(lines(SAMPLE, stop, SAMPLE, SAMPLE, SHUTDOWN), RULE)
    assert found.grade == "fault"
    assert words in found.message


def test_each_shutdown_is_told_once() -> None:
    found = findings(lines(SAMPLE, SHUTDOWN, SAMPLE, SAMPLE, SHUTDOWN, SAMPLE), RULE)
    assert [f.at.path for f in found] == [("lines", 2), ("lines", 5)]


@pytest.mark.parametrize(
    ("more", "words"), [('co2: "off"', "with the CO2 off"), ("flow: 0 mL/min", "without any flow")]
)
def test_an_injection_into_nothing_that_flows(more: str, words: str) -> None:
    (found,) = findings(lines(f"{SAMPLE}, {more}", SAMPLE, SHUTDOWN), RULE)
    assert found.grade == "fault"
    assert words in found.message
    assert findings(lines(f'{SAMPLE}, co2: "on", flow: 1 mL/min', SHUTDOWN), RULE) == []
