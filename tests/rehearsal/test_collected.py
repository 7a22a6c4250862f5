"""Fractions and delays against arithmetic."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from methodlint.documents.kinds.instrument import Collector
from methodlint.rehearsal.batch.collected import (
    StackWindow,
    bed_mass,
    collected,
    delay_to_valve,
    stack_overlaps,
)
from methodlint.rehearsal.open_run import rehearse
from methodlint.rehearsal.run.detector_delay import delay_to_source
from tests.command import ROOT

METHOD = ROOT / "example_methods" / "methods" / "resin-enantiomers-collected.yaml"
UV_TO_MS = ROOT / "example_methods" / "methods" / "triazole-enantiomers.yaml"


def test_liquid_of_a_fraction_is_flow_times_share_times_time() -> None:
    run = rehearse(METHOD)
    first, second = collected(run, run.plan.method.model, 10)
    # 25 % of 60 mL/min and 4 mL/min added, for 0.5 and 0.65 min
    assert first.liquid == pytest.approx(19e-6 * 0.5, rel=1e-3)
    assert second.total == pytest.approx(10 * 19e-6 * 0.65, rel=1e-3)


def test_nothing_is_collected_of_a_run_that_was_not_rehearsed() -> None:
    run = rehearse(METHOD)
    none = np.empty(0)
    still = replace(run, time=none, set_flow=none, share=np.empty((0, 0)), pumped_share=none)
    assert collected(still, run.plan.method.model, 10) == ()


def test_the_delay_is_the_mass_in_the_tube_over_the_mass_flow() -> None:
    run = rehearse(METHOD)
    collector = Collector.model_validate({"delay_volume": "3 mL"})
    expected = 3e-6 * run.density[0, -1] / run.mass_flow[0, -1]
    assert delay_to_valve(run, collector, 0.0) == pytest.approx(float(expected))
    # 3 mL at 60 mL/min are 3 s; the warm mobile phase is thinner than in the pumps
    assert 2.0 < delay_to_valve(run, collector, 0.0) < 3.0
    assert delay_to_valve(run, None, 0.0) == 0.0


def test_the_delay_from_cell_to_source_is_that_of_the_tube_between() -> None:
    run = rehearse(UV_TO_MS)
    cell = next(n for n, part in enumerate(run.plan.instrument.model.train) if part.part == "cell")
    tube = math.pi / 4.0 * (0.25e-3) ** 2 * 0.3  # 0.3 m of 0.25 mm, on bench A's card
    expected = tube * float(run.density[0, -2]) / float(run.mass_flow[0, -2])
    assert delay_to_source(run, cell, 0.0) == pytest.approx(expected, rel=0.02)
    with pytest.raises(ValueError, match="not in the rehearsed one"):
        delay_to_source(run, 99, 0.0)


def test_windows_overlap_modulo_the_interval() -> None:
    kept = StackWindow("A", 170.0, 190.0, True)
    waste = StackWindow("B", 230.0, 260.0, False)
    assert list(stack_overlaps([kept, waste], 100.0)) == []
    (found,) = stack_overlaps([kept, waste], 60.0)  # B less 60 s: 170 to 200 s
    assert found.time == pytest.approx(20.0)
    both = [StackWindow("A", 170.0, 190.0, False), waste]
    assert list(stack_overlaps(both, 60.0)) == []


def test_a_window_that_ends_before_it_begins_meets_nothing() -> None:
    turned = StackWindow("A", 4620.0, 192.0, True)
    assert list(stack_overlaps([turned, StackWindow("B", 0.0, 300.0, True)], 144.0)) != []
    assert list(stack_overlaps([turned, StackWindow("B", 0.0, 100.0, False)], 144.0)) == []


def test_packing_of_a_column() -> None:
    # 250 x 21 mm hold 86.6 mL, at 0.6 g/mL 52 g (arithmetic)
    assert bed_mass(0.25, 0.021) == pytest.approx(0.05195, rel=1e-3)
