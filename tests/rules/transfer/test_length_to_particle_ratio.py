"""L/dp within -25 to +50 % of the source's (USP <621>, secondary quotations)."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings
from tests.rules.transfer.pairs import FROM, ISOCRATIC, REGULATED

RULE = "transfer.length-to-particle-ratio"
LONG = "\n---\nkind: column\nx-name: long\nlength: 250 mm\n"


def test_silent_without_a_source():
    assert findings("kind: method\nflow: 0.5 mL/min\n", RULE) == []


def test_silent_on_a_transfer_to_the_same():
    assert findings(ISOCRATIC + FROM, RULE) == []


def test_a_note_only_without_the_tag():
    (found,) = findings(ISOCRATIC + FROM + "column: long" + LONG, RULE)
    assert found.grade == "note"


def test_a_note_only_on_a_chiral_phase():
    chiral = "\n---\nkind: column\nphase: immobilised polysaccharide\n"
    (found,) = findings(ISOCRATIC + FROM + "column: long" + LONG + chiral + REGULATED, RULE)
    assert found.grade == "note"


def test_plates_count_where_particles_are_superficially_porous():
    """The chapter lets the plate number stand for L/dp there (USP <621>, secondary quotations)."""
    shells = "\n---\nkind: column\nparticle_type: superficially porous\nplates: 11000\n"
    long = LONG + "particle_type: porous\nplates: 12000\n"
    assert findings(ISOCRATIC + FROM + "column: long" + long + shells + REGULATED, RULE) == []


def test_ratio_outside_is_a_fault_when_regulated():
    (found,) = findings(ISOCRATIC + FROM + "column: long" + LONG + REGULATED, RULE)
    assert found.grade == "fault"
    # 83333 x 0.75 and x 1.5 times 3 um (USP <621>, secondary quotations; arithmetic).
    assert "187" in found.remedy or "188" in found.remedy
    assert "375 mm" in found.remedy
    # 50000 over 83333 is 0.6, below the lower end of the span.
    assert found.found.value == pytest.approx(0.6)
    assert found.limit.value == 0.75
    assert "permits the change provided that suitability is met" in found.message
    assert "analogy" in found.message


@pytest.mark.parametrize(
    ("length", "fires"), [("200 mm", True), ("199 mm", False), ("100 mm", False)]
)
def test_the_span_of_the_ratio(length, fires):
    """-25 to +50 %: 150 mm against 200.1 mm and against 100 mm; all with 3 um."""
    text = (
        ISOCRATIC + FROM + "column: long" + f"\n---\nkind: column\nx-name: long\nlength: {length}\n"
    )
    text = text.replace("length: 200 mm", "length: 201 mm")
    assert bool(findings(text + REGULATED, RULE)) is fires


def test_a_ratio_above_the_span_is_held_against_its_upper_end():
    """150 mm over 98 mm is 1.53 (arithmetic), against 1.50."""
    short = "\n---\nkind: column\nx-name: short\nlength: 98 mm\n"
    (found,) = findings(ISOCRATIC + FROM + "column: short" + short + REGULATED, RULE)
    assert (found.grade, found.limit.value) == ("fault", 1.5)
    assert found.found.value == pytest.approx(1.53, abs=0.005)
