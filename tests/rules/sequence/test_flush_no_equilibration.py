"""sequence.flush-no-equilibration; common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings

RULE = "sequence.flush-no-equilibration"
ALONE = 'liquid: methanol, duration: 10 min, flow: 0.5 mL/min, co2: "off"'


def lab(flush: str, between: str = "") -> str:
    return f"""kind: sequence
lines:
  - {{kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}}
  - {{kind: flush, {flush}}}
{between}  - {{kind: sample, sample: extract 2, plate: 1, well: D2, fill: 1 mL}}
  - {{kind: shutdown, duration: 5 min, co2: "off", makeup: "off", source: "off"}}
"""


@pytest.mark.parametrize(
    "flush", ['liquid: methanol, duration: 10 min, co2: "on"', f"{ALONE}, column_bypassed: true"]
)
def test_silent_where_no_liquid_fills_the_column(flush: str) -> None:
    assert findings(lab(flush), RULE) == []


def test_silent_after_an_equilibration() -> None:
    assert findings(lab(ALONE, "  - {kind: equilibration, duration: 20 min}\n"), RULE) == []


def test_a_sample_straight_after_a_flush_is_a_caution() -> None:
    [found] = findings(lab(ALONE), RULE)
    assert found.grade == "caution"
    assert "after the flush of line 2" in found.message
    assert found.remedy.startswith("put an equilibration of")
