"""Names of data files as the disk keeps them."""

from __future__ import annotations

from typing import cast

import pytest

from methodlint.rehearsal.batch.data_files import (
    PatternWrong,
    data_files,
    duplicates,
    expanded,
    on_disk,
)
from methodlint.rehearsal.batch.lines import Batch, rehearse_batch
from methodlint.rulebook.examples import lab_with
from tests.rules.sequence.lines import line, sequence


def batch(*lines: str, **keys: object) -> Batch:
    documents = lab_with(sequence(*lines, **keys))
    return rehearse_batch(documents["sequence"], {}, {}, None)


def names(made: Batch) -> list[str]:
    return [file.name for file in data_files(made, None)]


def test_every_field_is_filled_in() -> None:
    pattern = "{date}_{line:03}_{sample}_{plate}_{well}_{kind}_{seq}"
    made = batch(line("sample", "s 1", plate=2, well="C4"), data_file=pattern)
    assert names(made) == ["20261124_001_s 1_2_C4_sample_sequence"]


def test_the_date_is_that_of_the_injection() -> None:
    # Each run is given 30 h, so the second begins on the next day but one at the latest.
    lines = [line("sample", f"s{n}", run_length="30 h") for n in range(3)]
    made = batch(*lines, data_file="{date}", begins="2026-11-24T09:00", equilibration=None)
    assert names(made) == ["20261124", "20261125", "20261126"]


def test_a_step_without_injection_has_no_file() -> None:
    assert names(batch(line("flush"), line("sample", "s"), data_file="{line}")) == ["2"]


@pytest.mark.parametrize(
    ("name", "kept"),
    [("A:B*c", "a_b_c"), ("run. ", "run"), ("tab\there", "tab_here"), ("Straße", "strasse")],
)
def test_what_a_disk_makes_of_a_name(name: str, kept: str) -> None:
    assert on_disk(name) == kept


@pytest.mark.parametrize(
    "pattern",
    ["{sample.__class__}", "{0}", "{}", "{line:999999999}", "{line", "{sample:d}", "{line[0]}"],
)
def test_a_pattern_reaches_no_further_than_its_fields(pattern: str) -> None:
    made = batch(line("sample", "s"), data_file="x")
    with pytest.raises(PatternWrong):
        expanded(pattern, made, made.lines[0])


def test_duplicates_are_grouped_in_order() -> None:
    made = batch(
        line("sample", "a", data_file="one"),
        line("sample", "b", data_file="two"),
        line("sample", "c", data_file="ONE"),
    )
    groups = duplicates(data_files(made, None))
    assert [[cast(int, file.line.index) for file in group] for group in groups] == [[0, 2]]
