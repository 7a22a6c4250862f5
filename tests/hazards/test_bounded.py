"""The bounded part of what `python -m tests.hazards --long` does, with the figures to reach."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.all_at_once import all_at_once
from tests.hazards.costs import costs_of, workbook_costs_of, worst_inputs
from tests.hazards.reading import Seen, look_at, made
from tests.hazards.workbooks import NAMES, hostile_workbooks

CORPUS = Path(__file__).resolve().parent / "corpus"
# Seconds are for `python -m tests.hazards`, on a quiet machine; memory is the same on a busy one.
_MEBIBYTES = 160.0
_WORKBOOK_MEBIBYTES = 300.0


@pytest.mark.parametrize(
    ("first", "last"), [(0, 600), pytest.param(600, 6_000, marks=pytest.mark.long)]
)
def test_mutants_random_bytes_and_grown_documents_are_read(first: int, last: int) -> None:
    seen = Seen()
    seen.read(first, last)
    assert not seen.faults, next(iter(seen.faults.values()))
    assert seen.tried == last - first


def test_the_inputs_are_of_many_kinds() -> None:
    names = {made(seed)[0] for seed in range(300)}
    assert {"bytes.yaml", "tokens.yaml", "grown.yaml", "changed.yaml", "torn.yaml"} < names
    assert len(names) > 40
    assert made(7) == made(7)


@pytest.mark.long
@pytest.mark.parametrize("name", worst_inputs())
def test_the_dearest_inputs_cost_little(name: str) -> None:
    _, memory, _ = costs_of(name)
    assert memory < _MEBIBYTES


@pytest.mark.long
@pytest.mark.parametrize("name", NAMES)
def test_the_dearest_workbooks_cost_little(name: str) -> None:
    _, memory, _ = workbook_costs_of(name)
    assert memory < _WORKBOOK_MEBIBYTES


@pytest.mark.long
def test_the_dearest_workbooks_are_all_tried() -> None:
    assert set(NAMES) == set(hostile_workbooks())


@all_at_once("file", sorted(CORPUS.glob("*")))
def test_what_the_fuzzer_kept_is_read(file: Path) -> None:
    look_at(file.read_bytes())
