"""sequence.setting-not-for-injection; common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings

RULE = "sequence.setting-not-for-injection"
VIAL = "sample: extract 1, plate: 1, well: D1, fill: 1 mL"


def lab(line: str) -> str:
    shutdown = '{kind: shutdown, duration: 5 min, co2: "off", makeup: "off", source: "off"}'
    return f"kind: sequence\nlines:\n  - {line}\n  - {shutdown}\n"


def test_silent_at_a_flow_of_its_own_which_is_rehearsed() -> None:
    assert findings(lab(f"{{kind: sample, {VIAL}, flow: 1 mL/min}}"), RULE) == []


def test_silent_where_nothing_is_set() -> None:
    line = f"{{kind: sample, {VIAL}, column_bypassed: false, regulator_released: false}}"
    assert findings(lab(line), RULE) == []


@pytest.mark.parametrize(
    "setting",
    [
        "modifier_share: 60 % v/v",
        "outlet_pressure: 300 bar",
        "column_bypassed: true",
        "liquid: ethanol",
        "regulator_released: true",
    ],
)
@pytest.mark.parametrize("kind", ["sample", "conditioning"])
def test_a_setting_of_a_step_in_an_injection_is_a_fault(kind: str, setting: str) -> None:
    [found] = findings(lab(f"{{kind: {kind}, {VIAL}, {setting}}}"), RULE)
    assert found.grade == "fault"
    assert setting.partition(":")[0] in found.message
