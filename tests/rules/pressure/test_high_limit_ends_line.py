"""pressure.high-limit-ends-line: the limit of the method or the trip; common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings

RULE = "pressure.high-limit-ends-line"
SAMPLE = "  - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}\n"


def _flush(settings: str, limits: str = "{high: 340 bar, low: 155 bar}") -> str:
    step = f"  - {{kind: flush, liquid: 2-propanol, duration: 10 min, {settings}}}\n"
    method = f"---\nkind: method\npressure_limits: {limits}\n"
    return f"kind: sequence\nlines:\n{SAMPLE}{step}{method}"


def test_silent_for_the_sound_lab() -> None:
    assert findings("", RULE) == []


def test_silent_for_a_slow_flush() -> None:
    assert findings(_flush('co2: "off", flow: 0.1 mL/min'), RULE) == []


def test_silent_for_the_method_itself_whose_limit_is_judged_where_it_stands() -> None:
    assert findings("kind: method\npressure_limits: {high: 180 bar, low: 155 bar}", RULE) == []


def test_silent_past_the_column() -> None:
    assert findings(_flush('co2: "off", flow: 1.2 mL/min, column_bypassed: true'), RULE) == []


def test_a_flush_that_the_pumps_do_not_finish() -> None:
    (found,) = findings(_flush('co2: "off", flow: 1.2 mL/min'), RULE)
    assert found.grade == "caution"
    assert found.at.path == ("lines", 1, "flow")
    assert "stop at 340 bar" in found.message
    assert found.limit is not None
    assert found.limit.value == 340.0


def test_the_trip_of_the_instrument_counts_where_it_is_lower() -> None:
    trip = "---\nkind: instrument\ntrips: {high_pressure: 300 bar}\n"
    (found,) = findings(_flush('co2: "off", flow: 1.2 mL/min') + trip, RULE)
    assert "stop at 300 bar" in found.message
    assert found.remedy.startswith("set the flow of line 2 to")
