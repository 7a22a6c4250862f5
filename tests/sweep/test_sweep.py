"""Edit by edit: what is absent, zero, negative, far off, misspelt or turned is never clear unseen."""

from __future__ import annotations

from functools import cache

import pytest

from tests.sweep.edits import HARD
from tests.sweep.field_use import Field
from tests.sweep.reviewed import row_of, rows
from tests.sweep.sweep import Swept, fields_of, read_by_stops, sweep

ZERO_SAYS_SOMETHING: dict[Field, str] = {
    ("CO2Pump", "head_temperature"): "0 degC and below are temperatures of a chilled head",
    ("Supply", "line_temperature"): "0 degC and below are temperatures of a winter's day",
    ("Solvents", "coldest_place"): "0 degC is the temperature of a cold store",
    ("EnvelopePoint", "flow"): "an envelope begins at 0 mL/min",
    ("MobilePhase", "modifier_share"): "0 % is pure CO2",
    ("ProgrammeRow", "modifier_share"): "0 % is pure CO2",
    ("Makeup", "flow"): "a makeup pump that is off",
    ("Method", "settling_time"): "a method that settles within its run",
    ("Sequence", "equilibration"): "a bench that runs already",
    ("Line", "duration"): "a shutdown at once; a flush or an equilibration of no time is a finding",
    ("Autosampler", "extra_drawn"): "a sampler that draws no more than it injects",
    ("Instrument", "cycle_overhead"): "a sampler that prepares the next injection during the run",
}
"""Fields that a stop reads and whose zero, or negative figure in degC, is an ordinary value."""


@cache
def whole() -> Swept:
    return sweep()


def test_a_part_of_the_sweep_raises_nothing_unseen() -> None:
    part = sweep(step=61)
    assert part.tried > 30
    assert part.raised == {}
    assert [str(edit) for edit in part.unexcused] == []


def test_every_row_of_the_table_has_a_reason() -> None:
    assert len(rows()) > 100
    assert all(row.reason and row.variants for row in rows())


@pytest.mark.long
def test_every_clear_variant_was_reviewed() -> None:
    assert whole().tried > 2000
    assert whole().raised == {}
    assert [str(edit) for edit in whole().unexcused] == []


@pytest.mark.long
def test_every_row_excuses_something() -> None:
    used = {row_of(edit) for edit in whole().clear}
    assert [row for row in rows() if row not in used] == []


@pytest.mark.long
def test_nothing_senseless_that_a_stop_reads_is_excused() -> None:
    reads = read_by_stops()
    assert len(reads) > 150
    excused = [edit for edit in whole().clear if edit.variant in HARD and fields_of(edit) & reads]
    assert [str(e) for e in excused if not fields_of(e) & set(ZERO_SAYS_SOMETHING)] == []
    assert all(edit.variant != "x1000" for edit in excused)
    used = {field for edit in excused for field in fields_of(edit)}
    assert set(ZERO_SAYS_SOMETHING) - used == set()
