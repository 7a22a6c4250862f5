"""Planted faults are found and sound documents stay silent; `python -m tests.fault_injection`
prints both figures.
"""

from __future__ import annotations

import pytest

from tests.fault_injection.fault import labs
from tests.fault_injection.trial import WANTED, Outcome, false_alarms, faults, outcome
from tests.fault_injection.twins import TWINS, twins
from tests.text_labs import loud

LABS = labs()
EDITED = twins()


@pytest.fixture(scope="module")
def planted() -> list[Outcome]:
    return [outcome(fault) for fault in faults()]


def test_there_are_enough_faults_of_many_kinds(planted: list[Outcome]) -> None:
    assert len(planted) >= 200
    assert len({one.fault.rule for one in planted}) >= 120
    texts = {tuple(sorted(one.fault.lab.texts.items())) for one in planted}
    assert len(texts) > 0.95 * len(planted), "hardly two faults are the same text"


def test_the_same_seed_plants_the_same_faults() -> None:
    assert [fault.words for fault in faults()] == [fault.words for fault in faults()]


def test_planted_faults_are_found(planted: list[Outcome]) -> None:
    missed = [one.fault.words for one in planted if not one.found]
    assert len(missed) <= (1 - WANTED) * len(planted), "\n".join(missed)


def test_a_fault_is_not_drowned_in_others(planted: list[Outcome]) -> None:
    """One cause, one finding: most faults stand alone, hardly one brings more than three."""
    counts = [sum(not said.startswith("note") for said in one.said) for one in planted]
    assert sum(count <= 1 for count in counts) >= 0.7 * len(counts)
    assert sum(count > 3 for count in counts) <= 0.02 * len(counts)


@pytest.mark.parametrize("name", LABS)
def test_an_unmutated_document_raises_nothing(name: str) -> None:
    assert loud(LABS[name].judged()) == []


@pytest.mark.parametrize(("name", "lab"), EDITED, ids=[name for name, _ in EDITED])
def test_a_harmlessly_edited_document_raises_nothing(name: str, lab) -> None:  # type: ignore[no-untyped-def]
    unmutated = LABS[name.partition(",")[0]].judged()
    assert false_alarms(name, lab.judged(), unmutated) == []


def test_every_kind_of_edit_changes_some_document() -> None:
    made = {name.partition(", ")[2] for name, _ in EDITED}
    assert made == {twin.__name__.replace("_", " ") for twin in TWINS}
