"""The same substituent identity (USP <621> harmonised with Ph. Eur. 2.2.46, secondary quotations)."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged
from tests.rules.transfer.pairs import FROM, FROM_GRADIENT, GRADIENT, ISOCRATIC, REGULATED, WIDE

RULE = "transfer.chemistry-differs"
CYANO = "\n---\nkind: column\nx-name: cyano\nselector: cyanopropyl\n"


def test_silent_without_a_source():
    report = judged("kind: method\n---\nkind: instrument\nextra_column_sigma: 40 uL\n", RULE)
    assert report.findings == []
    assert report.not_checked == []


def test_silent_on_a_transfer_to_the_same():
    assert findings(GRADIENT + FROM_GRADIENT + REGULATED, RULE) == []


@pytest.mark.parametrize(
    "record",
    [
        "transfer: {equivalence: QM-EQ-3}" + FROM + "column: cyano",
        FROM + "column: cyano\nequivalent_columns: [column]",
    ],
    ids=["data on record", "named as equivalent by the source"],
)
def test_an_equivalence_on_record_is_silent(record):
    assert findings(ISOCRATIC + record + CYANO, RULE) == []


def test_another_size_of_the_same_phase_is_silent():
    assert findings(ISOCRATIC + FROM + "column: wide" + WIDE, RULE) == []


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ("selector: cyanopropyl", "cyanopropyl -> propanediol"),
        ("phase: bare silica", "bare silica -> bonded silica"),
        ("particle_type: superficially porous", "superficially porous -> porous"),
    ],
)
def test_another_chemistry_is_found(change, words):
    card = f"\n---\nkind: column\nx-name: other-phase\n{change}\n"
    (found,) = findings(ISOCRATIC + FROM + "column: other-phase" + card, RULE)
    assert found.grade == "fault"
    assert words in found.message


def test_an_unknown_selector_is_not_checked():
    card = "\n---\nkind: column\nx-name: other-phase\nselector: null\n"
    report = judged(ISOCRATIC + FROM + "column: other-phase" + card, RULE)
    assert report.findings == []
    assert report.not_checked[0].missing == ("column.selector",)
