"""Stacked injections by hand: 0.5 mL/min of modifier, cycles of 10 min, one every 3 min."""

from __future__ import annotations

import itertools

import pytest

from methodlint.checking.assemble import Assembly, rehearse_cases
from methodlint.judging.case import BatchCase
from methodlint.rehearsal.batch.bottles import bottle_uses
from methodlint.rehearsal.batch.lines import Batch
from methodlint.rulebook.examples import _library, lab_with

METHOD = """kind: method
flow: 2 mL/min
programme: []
mobile_phase: {modifier: {liquid: methanol, line: modifier-1}, modifier_share: 25 % v/v}
run_length: 8 min
settling_time: 2 min
"""
INJECTION = "injection: {volume: 5 uL, mode: part-filled loop, diluent: methanol"
REST = """---
kind: instrument
cycle_overhead: 0 min
---
kind: sequence
equilibration: 10 min
lines:
  - {kind: sample, sample: racemate, plate: 1, well: D1, count: 10}
"""


def _case(stacked: str, rest: str = REST) -> BatchCase:
    documents = lab_with(f"{METHOD}{INJECTION}{stacked}}}\n{rest}")
    assembly = Assembly(_library(documents))
    assembly.add_sequence(documents["sequence"])
    rehearse_cases(assembly.batches)
    assert not assembly.batches[0].batch.missing
    return assembly.batches[0]


def _batch(stacked: str, rest: str = REST) -> Batch:
    return _case(stacked, rest).batch


def test_ten_stacked_runs_take_nine_intervals_and_one_cycle() -> None:
    """9 x 3 min + 10 min = 37 min behind 10 min of equilibration; 100 min one by one."""
    assert _batch(", stacked_every: 3 min").duration == pytest.approx(47 * 60)
    assert _batch("").duration == pytest.approx(110 * 60)


def test_they_take_the_liquid_and_gas_of_37_minutes() -> None:
    [line] = _batch(", stacked_every: 3 min").lines
    [alone] = _batch("").lines
    assert line.modifier == pytest.approx(37 * 0.5e-6)
    assert line.co2 == pytest.approx(alone.co2 * 37 / 100)


def test_an_injection_starts_every_three_minutes() -> None:
    starts = _batch(", stacked_every: 3 min").injection_starts
    assert [clock / 60 for _, clock, _ in starts] == pytest.approx([10 + 3 * n for n in range(10)])
    used = [mass for _, _, mass in starts]
    steps = [b - a for a, b in itertools.pairwise(used)]
    assert steps == pytest.approx([steps[0]] * 9)
    assert used[0] == pytest.approx(steps[0] * 10 / 3), "equilibration takes 10 min at that rate"


def test_a_line_of_one_injection_has_a_whole_run() -> None:
    one = REST.replace("count: 10", "count: 1")
    assert _batch(", stacked_every: 3 min", one).duration == pytest.approx(20 * 60)


def test_the_level_of_the_bottle_is_followed() -> None:
    """5 mL behind the equilibration, 55 mL in all; a refill in a pause starts from 0 again."""
    lines = """---
kind: instrument
cycle_overhead: 0 min
---
kind: sequence
equilibration: 10 min
lines:
  - {kind: sample, sample: one, plate: 1, well: D1, count: 10}
  - {kind: idle, duration: 5 min, refills: [modifier-1]}
  - {kind: sample, sample: two, plate: 1, well: D2, count: 2}
---
kind: solvents
purge_volume: null
bottles:
  - {line: modifier-1, liquid: methanol, fill: 300 mL, dead_volume: 100 mL}
"""
    case = _case("", lines)
    (use,), _ = bottle_uses(case.batch, case.documents["solvents"], case.documents["instrument"])
    minutes = [clock / 60 for clock, _ in use.history]
    taken = [volume * 1e6 for _, volume in use.history]
    assert minutes == pytest.approx([0, 10, 110, 110, 115, 135])
    assert taken == pytest.approx([0, 5, 55, 0, 0, 10], abs=1e-6)
