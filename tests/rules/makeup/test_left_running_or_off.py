"""Makeup and source go together: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "makeup.left-running-or-off"
METHOD = """kind: method
detectors: [{type: MS, source: ESI, polarity: positive}]
makeup: {liquid: methanol, line: makeup, flow: 0.2 mL/min, tee: after the regulator}
---
kind: sequence
"""
SAMPLE = "  - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}\n"


def _lines(*lines: str, rest: str = "") -> str:
    return METHOD + rest + "lines:\n" + SAMPLE + "".join(f"  - {{{line}}}\n" for line in lines)


def test_silent_without_a_mass_spectrometer() -> None:
    assert judged("", RULE).checked == 0


def test_silent_when_all_goes_off_together() -> None:
    assert findings(_lines('kind: shutdown, co2: "off", makeup: "off", source: "off"'), RULE) == []


def test_silent_with_an_idle_method() -> None:
    line = 'kind: idle, co2: "off", makeup: "on", source: "off"'
    assert findings(_lines(line, rest="after: idle method\n"), RULE) == []


def test_silent_about_what_a_later_line_puts_right() -> None:
    text = _lines(
        'kind: flush, duration: 5 min, makeup: "off"',
        'kind: shutdown, co2: "off", makeup: "off", source: "off"',
    )
    assert findings(text, RULE) == []


def test_makeup_into_a_cold_source_is_a_stop() -> None:
    (found,) = findings(_lines('kind: shutdown, co2: "off", makeup: "on", source: "off"'), RULE)
    assert found.grade == "stop"
    assert found.at.path == ("lines", 1, "makeup")
    assert found.remedy == "switch the makeup off on this line"


def test_makeup_that_nobody_switches_off_is_a_stop() -> None:
    (found,) = findings(_lines('kind: shutdown, co2: "off", source: "off"'), RULE)
    assert "runs on into a source that is off" in found.message


def test_co2_into_a_hot_source_without_makeup_is_a_stop() -> None:
    (found,) = findings(_lines('kind: flush, duration: 5 min, makeup: "off"'), RULE)
    assert "CO2 goes into the hot source" in found.message
    assert found.remedy == "switch the makeup on on this line"


@pytest.mark.parametrize("kind", ["shutdown", "idle"])
def test_a_closing_line_that_says_nothing_leaves_all_as_it_was(kind: str) -> None:
    """Its method is not run, so the method's makeup does not come back."""
    text = _lines('kind: flush, duration: 5 min, makeup: "off"', f"kind: {kind}")
    (found,) = findings(text, RULE)
    assert "CO2 goes into the hot source while the makeup is off" in found.message
    assert found.at.path == ("lines", 2)
