"""Bottles and waste of a sequence, by hand: 0.5 mL/min of modifier, cycles of 10 min."""

from __future__ import annotations

import pytest

from methodlint.checking.assemble import Assembly, rehearse_cases
from methodlint.judging.case import BatchCase
from methodlint.rehearsal.batch.bottles import BottleUse, bottle_uses
from methodlint.rehearsal.batch.waste import WasteFill, waste_fills
from methodlint.rulebook.examples import _library, lab_with
from tests.work_done import calls_of

BASE = """kind: method
flow: 2 mL/min
programme: []
mobile_phase: {modifier: {liquid: methanol, line: modifier-1}, modifier_share: 25 % v/v}
run_length: 8 min
settling_time: 2 min
---
kind: instrument
cycle_overhead: 0 min
autosampler: {wash_volume: 0.5 mL}
---
"""
BOTTLES = """kind: solvents
purge_volume: 50 mL
bottles:
  - {line: modifier-1, liquid: methanol, fill: 300 mL, dead_volume: 100 mL}
  - {line: needle-wash, liquid: 2-propanol, fill: 100 mL, dead_volume: 0 mL}
"""
LINE = "  - {kind: sample, sample: extract, plate: 1, well: D1, count: 10}\n"


def _case(lines: str, rest: str = BOTTLES) -> BatchCase:
    documents = lab_with(f"{BASE}kind: sequence\nequilibration: 10 min\nlines:\n{lines}---\n{rest}")
    assembly = Assembly(_library(documents))
    assembly.add_sequence(documents["sequence"])
    rehearse_cases(assembly.batches)
    return assembly.batches[0]


def _uses(case: BatchCase) -> tuple[BottleUse, ...]:
    uses, missing = bottle_uses(
        case.batch, case.documents["solvents"], case.documents["instrument"]
    )
    assert missing == ()
    return uses


def _fills(case: BatchCase, part: float = 0.8) -> tuple[WasteFill, ...]:
    documents = case.documents
    fills, missing = waste_fills(
        case.batch, documents["room"], documents["solvents"], documents["instrument"], part
    )
    assert missing == ()
    return fills


def test_parts_of_a_modifier_bottle() -> None:
    modifier, wash = _uses(_case(LINE))
    assert modifier.parts["purge"] == pytest.approx(50e-6)
    assert modifier.parts["equilibration"] == pytest.approx(5e-6, rel=1e-3)
    assert modifier.parts["injections"] == pytest.approx(50e-6, rel=1e-3)
    assert modifier.usable == pytest.approx(200e-6)
    assert modifier.runs_dry is None
    assert wash.need == pytest.approx(5e-6)


def test_the_injection_is_found_inside_a_line_and_across_lines() -> None:
    one, _ = _uses(_case(LINE.replace("count: 10", "count: 60")))
    many, _ = _uses(_case(LINE * 6))
    # 200 - 55 = 145 mL: 29 injections of 5 mL, less what rounding takes
    assert one.runs_dry in (29, 30)
    assert many.runs_dry == one.runs_dry
    assert many.dry_line == (many.runs_dry - 1) // 10


def test_filling_up_starts_again() -> None:
    pause = '  - {kind: idle, duration: 5 min, refills: [modifier-1], co2: "off"}\n'
    modifier, _ = _uses(_case(LINE * 2 + pause + LINE * 3))
    assert modifier.runs_dry is None
    # 55 mL and 20 injections before the pause, 30 injections behind it
    assert modifier.most_between_refills == pytest.approx(155e-6, rel=1e-3)


def test_a_flush_draws_from_the_bottle_that_holds_it() -> None:
    bottles = BOTTLES + "  - {line: modifier-2, liquid: IPA, fill: 300 mL, dead_volume: 0 mL}\n"
    flush = "  - {kind: flush, liquid: 2-propanol, flush_volume: 20 mL, duration: 10 min}\n"
    uses = _uses(_case(LINE + flush, bottles))
    assert uses[2].parts["flush"] == pytest.approx(20e-6, rel=1e-3)
    assert uses[2].parts["purge"] == pytest.approx(50e-6)
    assert "flush" not in uses[0].parts


def test_a_flush_without_the_additive_draws_from_the_bottle_without_it() -> None:
    amine = "liquid: methanol, additives: [{additive: DEA, level: 0.1 % v/v}]"
    with_amine = BOTTLES.replace("liquid: methanol", amine)
    flush = "  - {kind: flush, liquid: MeOH, flush_volume: 20 mL, duration: 10 min}\n"
    uses = _uses(_case(LINE + flush, with_amine))
    assert uses[0].parts["flush"] == pytest.approx(20e-6, rel=1e-3)
    pure = "  - {line: modifier-2, liquid: methanol, fill: 300 mL, dead_volume: 0 mL}\n"
    uses = _uses(_case(LINE + flush, with_amine + pure))
    assert uses[2].parts["flush"] == pytest.approx(20e-6, rel=1e-3)
    assert "flush" not in uses[0].parts


def test_modifier_of_no_bottle_is_reported() -> None:
    bottles = "kind: solvents\nbottles: [{line: modifier-9, liquid: toluene}]\n"
    case = _case(LINE, bottles)
    _, missing = bottle_uses(case.batch, case.documents["solvents"], None)
    assert missing[0].where == "method.mobile_phase.modifier.line"


def test_waste_is_what_the_bottles_give() -> None:
    case = _case(LINE * 4)
    (fill,) = _fills(case)
    assert fill.volume == pytest.approx(sum(use.need for use in _uses(case)), rel=1e-6)


def test_streams_go_where_they_are_received() -> None:
    vessels = (
        "---\nkind: room\nwaste:\n"
        "  - {name: one, capacity: 1 L, level: 0 L, receives: [mobile phase, purge]}\n"
        "  - {name: two, capacity: 1 L, level: 0 L, receives: [needle wash]}\n"
    )
    one, two = _fills(_case(LINE, BOTTLES + vessels))
    assert one.volume == pytest.approx(105e-6, rel=1e-3)
    assert two.volume == pytest.approx(5e-6)


def test_full_before_the_first_injection() -> None:
    vessel = "---\nkind: room\nwaste: [{name: one, capacity: 100 mL, level: 60 mL}]\n"
    (fill,) = _fills(_case(LINE, BOTTLES + vessel))
    assert fill.full == 0


def test_two_thousand_lines_take_ten_times_what_two_hundred_take() -> None:
    work = []
    for count in (200, 2_000):
        case = _case(LINE * count)
        assert _uses(case)
        work.append(calls_of(lambda case=case: (_uses(case), _fills(case))))
    assert work[1] <= 12 * work[0]
