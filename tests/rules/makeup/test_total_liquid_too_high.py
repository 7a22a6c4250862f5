"""1.0 mL/min as an electrospray's upper limit: common practice, no source; in the sound lab 40 % of
1.5 mL/min is 0.6 mL/min. Methanol evaporates with 37.4 kJ/mol at 25 degC (CRC Handbook of Chemistry
and Physics) and has 786 to 792 kg/m3: 0.6 mL/min take about 9 W."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "makeup.total-liquid-too-high"
MS = "kind: method\ndetectors: [{type: MS, source: ESI, polarity: positive}]\n"
SPLIT = """---
kind: instrument
train:
  - {part: mixer, name: mixer, volume: 0.2 mL}
  - {part: column}
  - {part: splitter, name: splitter, split_ratio: RATIO, active: true}
  - {part: regulator, name: regulator, pressure_rating: 380 bar}
  - {part: source, name: source, detector: MS}
"""


def _makeup(flow: str) -> str:
    return f"{MS}makeup: {{liquid: methanol, flow: {flow}, tee: before the regulator}}\n"


def test_silent_below_nine_tenths() -> None:
    assert findings(_makeup("0.25 mL/min"), RULE) == []


def test_silent_when_only_a_split_goes_to_the_source() -> None:
    assert findings(_makeup("0.45 mL/min") + SPLIT.replace("RATIO", "10 %"), RULE) == []


def test_silent_when_a_makeup_programme_goes_down_with_the_gradient() -> None:
    rows = "[{time: 0 min, flow: 0.3 mL/min}, {time: 4 min, flow: 0.1 mL/min}]"
    text = f"{MS}makeup: {{liquid: methanol, programme: {rows}, tee: before the regulator}}\n"
    assert findings(text, RULE) == []


def test_close_to_the_limit_is_a_caution() -> None:
    (found,) = findings(_makeup("0.35 mL/min"), RULE)
    assert found.grade == "caution"


def test_beyond_the_limit_is_a_stop() -> None:
    (found,) = findings(_makeup("0.5 mL/min"), RULE)
    assert found.grade == "stop"
    assert found.found is not None
    assert found.found.value == pytest.approx(1.1, rel=0.01)
    assert found.limit is not None
    assert found.limit.value == pytest.approx(1.0)
    assert found.remedy == "lower the makeup flow to 0.3 mL/min"


def test_gas_beyond_the_limit_is_a_caution() -> None:
    text = f"{MS}---\nkind: instrument\nms: {{highest_gas_flow: 500 mL/min}}\n"
    (found,) = findings(text, RULE)
    assert found.grade == "caution"
    # about 1.4 g/min over 1.839 kg/m3 (Span and Wagner 1996)
    assert found.found is not None
    assert found.found.value == pytest.approx(0.8, abs=0.05)


def test_heat_of_evaporation_beyond_the_limit_is_a_caution() -> None:
    (found,) = findings(f"{MS}---\nkind: instrument\nms: {{source_power: 5 W}}\n", RULE)
    assert found.found is not None
    assert found.found.value == pytest.approx(9.2, abs=0.3)


def test_a_splitter_without_ratio_is_not_checked() -> None:
    report = judged(_makeup("0.1 mL/min") + SPLIT.replace("split_ratio: RATIO, ", ""), RULE)
    assert report.not_checked[0].missing == ("instrument.train.split_ratio",)


LINES = """---
kind: sequence
lines:
  - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
  - {kind: flush, liquid: methanol, duration: 30 min, co2: "off", flow: FLOW, makeup: MAKEUP}
"""


@pytest.mark.parametrize(
    ("flow", "makeup", "grades"),
    [("0.9 mL/min", "on", ["stop"]), ("0.85 mL/min", "off", []), ("0.6 mL/min", "on", [])],
)
def test_neat_liquid_of_a_flush_reaches_the_source(
    flow: str, makeup: str, grades: list[str]
) -> None:
    """0.2 mL/min of makeup beside it, into a source for 1 mL/min (arithmetic)."""
    lines = LINES.replace("FLOW", flow).replace("MAKEUP", f'"{makeup}"')
    assert [one.grade for one in findings(_makeup("0.2 mL/min") + lines, RULE)] == grades
