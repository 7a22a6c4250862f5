"""makeup.source-settings-too-low: the table on the card; the run is 1.5 mL/min of 5 to 40 %."""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "makeup.source-settings-too-low"
ROWS = (
    "[{highest_liquid_flow: 0.2 mL/min, temperature: 150 degC, gas_flow: 4 L/min}, "
    "{highest_liquid_flow: 1.0 mL/min, temperature: 350 degC, gas_flow: 10 L/min}]"
)


def lab(settings: str, rows: str = ROWS) -> str:
    return (
        f"kind: method\ndetectors: [{{type: MS, source: ESI, polarity: positive{settings}}}]\n---\n"
        f"kind: instrument\nms: {{source: ESI, highest_liquid_flow: 1.0 mL/min, settings: {rows}}}\n"
    )


def test_silent_for_a_hot_source() -> None:
    assert findings(lab(", source_temperature: 360 degC, gas_flow: 10 L/min"), RULE) == []


def test_silent_without_a_table() -> None:
    report = judged("kind: method\ndetectors: [{type: MS, source: ESI}]\n", RULE)
    assert (report.findings, report.not_checked) == ([], [])


def test_a_cold_source_is_a_caution() -> None:
    """40 % of 1.5 mL/min are 0.6 mL/min (arithmetic); what is in the table dries 0.2."""
    (found,) = findings(lab(", source_temperature: 200 degC, gas_flow: 10 L/min"), RULE)
    assert found.grade == "caution"
    assert "0.6 mL/min of liquid reaches the source; its settings dry 0.2 mL/min" in found.message
    assert found.remedy == "set 350 degC and 10 L/min of gas"


def test_settings_that_are_not_given_are_asked_for() -> None:
    report = judged(lab(", gas_flow: 10 L/min"), RULE)
    assert [item.missing for item in report.not_checked] == [
        ("method.detectors[0].source_temperature",)
    ]
