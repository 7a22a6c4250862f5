"""What a line with a flow or a share of its own takes: flow, share and time by hand."""

from __future__ import annotations

from typing import Any

import pytest

from methodlint.rehearsal.batch.lines import LineRun
from tests.scenarios.show import HERE, sound_lab

SAMPLE = {"kind": "sample", "sample": "batch 4", "plate": 1, "well": "B4", "fill": "1 mL"}
FLUSH = {"kind": "flush", "liquid": "ethanol", "co2": "on", "duration": "10 min"}


def taken(line: dict[str, Any]) -> LineRun:
    """The line put in before the shutdown of a sequence at 2.5 mL/min and 20 %."""
    lab = sound_lab(HERE / "lines")
    lines = lab.plain(lab.meant["sequence"])["lines"]
    lines[-1:-1] = [line]
    report = lab.changed("sequence.lines", lines).judged()
    return report.batches[0].batch.lines[-2]


def test_an_injection_at_another_flow_takes_that_much() -> None:
    own, fast = taken(SAMPLE), taken({**SAMPLE, "flow": "3 mL/min"})
    assert own.modifier == pytest.approx(2.5e-6 * 0.20 * 6.8)  # run and overhead, 6.8 min
    assert fast.modifier == pytest.approx(1.2 * own.modifier)
    assert fast.co2 == pytest.approx(1.2 * own.co2)


def test_a_flush_at_another_share_takes_that_much() -> None:
    own, rich = taken(FLUSH), taken({**FLUSH, "modifier_share": "60 % v/v"})
    assert own.modifier == pytest.approx(2.5e-6 * 0.20 * 10)
    assert rich.modifier == pytest.approx(2.5e-6 * 0.60 * 10)
    assert rich.co2 == pytest.approx(own.co2 * 0.4 / 0.8)


def test_a_flush_with_co2_alone_takes_no_liquid() -> None:
    alone = taken({**FLUSH, "liquid": "carbon dioxide"})
    assert alone.modifier == 0.0
    assert alone.co2 == pytest.approx(taken(FLUSH).co2 / 0.8)


def test_a_flush_by_volume_takes_as_long_as_its_flow_needs() -> None:
    flush = {"kind": "flush", "liquid": "ethanol", "co2": "off", "flush_volume": "5 mL"}
    line = taken({**flush, "flow": "0.5 mL/min"})
    assert line.ends - line.begins == pytest.approx(600.0)
    assert line.modifier == pytest.approx(5e-6)
    line = taken({**flush, "duration": "20 min"})
    assert line.ends - line.begins == pytest.approx(1200.0)
    assert line.modifier == pytest.approx(5e-6)
