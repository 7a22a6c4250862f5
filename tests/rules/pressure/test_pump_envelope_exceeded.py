"""Pressure at the pumps against what each reaches at its own flow."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "pressure.pump-envelope-exceeded"


def pump(key: str, *points: tuple[float, float]) -> str:
    lines = "\n".join(f"    - {{flow: {f} mL/min, pressure: {p} bar}}" for f, p in points)
    return f"kind: instrument\n{key}:\n  envelope:\n{lines}\n"


def test_silent_for_the_sound_lab() -> None:
    assert findings("", RULE) == []


def test_silent_where_the_other_flow_of_the_envelope_is_weak() -> None:
    """The modifier pump never delivers more than 0.6 mL/min here: its own flow counts, not the total."""
    assert findings(pump("modifier_pump", (0.7, 550), (1.6, 100)), RULE) == []


def test_silent_for_a_modifier_pump_that_is_not_used() -> None:
    yaml = pump("modifier_pump", (5, 120)) + "---\nkind: method\n"
    yaml += "mobile_phase: {modifier: null, modifier_share: 0 % v/v}\nprogramme: []\n"
    assert findings(yaml, RULE) == []


def test_the_end_of_the_gradient_counts_and_not_the_start() -> None:
    start = judged("", RULE).runs[0].run
    [found] = findings(pump("co2_pump", (5, 250)), RULE)
    assert float(start.pump_pressure[0]) < 250e5
    assert found.grade == "fault"
    assert "40 % modifier" in found.message
    assert "first at" in found.message
    assert found.when is not None
    assert found.when.start is not None
    assert found.when.start > 120.0


def test_without_any_high_limit_it_is_a_stop() -> None:
    yaml = pump("co2_pump", (5, 230)) + "trips: {high_pressure: null}\n"
    yaml += "---\nkind: method\npressure_limits: {high: null, low: 155 bar}"
    [found] = findings(yaml, RULE)
    assert found.grade == "stop"
    assert "no high limit stops the pumps" in found.message


def test_both_pumps_beyond_give_one_finding() -> None:
    yaml = (
        pump("co2_pump", (5, 250))
        + "modifier_pump: {envelope: [{flow: 5 mL/min, pressure: 240 bar}]}"
    )
    [found] = findings(yaml, RULE)
    assert "the modifier pump reaches" in found.message
    assert "the CO2 pump as well" in found.message


def test_the_remedy_was_tried() -> None:
    [found] = findings(pump("co2_pump", (5, 250)), RULE)
    assert found.remedy.startswith("set the flow to")


def test_a_rating_stands_in_for_an_envelope() -> None:
    yaml = "kind: instrument\nco2_pump: {envelope: null, pressure_rating: 240 bar}"
    [found] = findings(yaml, RULE)
    assert found.at.path == ("co2_pump", "pressure_rating")


@pytest.mark.parametrize(
    "yaml",
    [
        "kind: instrument\nco2_pump: {envelope: null, pressure_rating: null}",
        pump("co2_pump", (3, 380), (1, 550)),
        pump("co2_pump", (1, 380), (3, 550)),
    ],
    ids=["nothing given", "flows fall", "pressure rises with flow"],
)
def test_what_cannot_be_used_is_not_checked(yaml: str) -> None:
    report = judged(yaml, RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("instrument.co2_pump.envelope",)]
    assert report.not_checked[0].can_stop


def test_a_flow_beyond_the_end_of_the_envelope_is_no_pass() -> None:
    """The envelope ends at 1 mL/min, the CO2 pump delivers up to 1.43 mL/min (arithmetic)."""
    envelope = "kind: instrument\nco2_pump: {envelope: [{flow: 1 mL/min, pressure: 600 bar}]}"
    (found,) = findings(envelope, RULE)
    assert found.grade in ("stop", "fault")
    assert "its envelope ends below its flow of" in found.message
    assert findings(envelope.replace("1 mL/min", "5 mL/min"), RULE) == []


def test_an_envelope_above_the_rating_of_its_pump_is_capped_by_it() -> None:
    """The sound run needs more than 150 bar, the setting of its regulator."""
    card = "kind: instrument\nco2_pump: {{pressure_rating: {} bar}}"
    assert findings(card.format(550), RULE) == []
    (found,) = findings(card.format(100), RULE)
    assert "CO2 pump" in found.message and "reaches 100 bar" in found.message
