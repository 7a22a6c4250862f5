"""Planted faults are found and sound documents stay silent; `python -m tests.fault_injection`
prints both figures.
"""

from __future__ import annotations

from functools import cache

import pytest

from methodlint.checking.report import Report
from tests.fault_injection.fault import labs
from tests.fault_injection.trial import WANTED, false_alarms, faults, outcome
from tests.fault_injection.twins import TWINS, twins
from tests.text_labs import TextLab, reported
from tests.untried import untried_rules

LABS = labs()
EDITED = twins()


@pytest.mark.long
def test_planted_faults_are_found_and_most_stand_alone() -> None:
    """Drawn and judged once; one cause makes one finding and is not drowned in others."""
    planted = [outcome(fault) for fault in faults()]
    assert len(planted) >= 200
    assert len({one.fault.rule for one in planted}) >= 120
    texts = {tuple(sorted(one.fault.lab.texts.items())) for one in planted}
    assert len(texts) > 0.95 * len(planted), "hardly two faults are the same text"
    words = [one.fault.words for one in planted]
    assert words == [fault.words for fault in faults()], "the same seed plants the same faults"
    missed = [one.fault.words for one in planted if not one.found]
    assert len(missed) <= (1 - WANTED) * len(planted), "\n".join(missed)
    counts = [sum(not said.startswith("note") for said in one.said) for one in planted]
    assert sum(count <= 1 for count in counts) >= 0.7 * len(counts)
    assert sum(count > 3 for count in counts) <= 0.02 * len(counts)


@cache
def unmutated(name: str) -> Report:
    return LABS[name].judged(untried_rules())


@pytest.mark.parametrize("name", LABS)
def test_an_unmutated_document_raises_nothing(name: str) -> None:
    assert reported(unmutated(name)) == []


@pytest.mark.parametrize(("name", "lab"), EDITED, ids=[name for name, _ in EDITED])
def test_a_harmlessly_edited_document_raises_nothing(name: str, lab: TextLab) -> None:
    report = lab.judged(untried_rules())
    assert false_alarms(name, report, unmutated(name.partition(",")[0])) == []


def test_every_kind_of_edit_changes_some_document() -> None:
    made = {name.partition(", ")[2] for name, _ in EDITED}
    assert made == {twin.__name__.replace("_", " ") for twin in TWINS}
