"""Length over particle size, flow, injection: silent cases first."""

from __future__ import annotations

import re

import pytest

from tests.rules.harness import findings, judged

from .pairs import FROM, ISOCRATIC, REGULATED, WIDE

RATIO = "transfer.length-to-particle-ratio"
FLOW = "transfer.flow-not-scaled"
INJECTION = "transfer.injection-not-scaled"

# The base column is 3.0 x 150 mm, 3 um: L/dp 50000, as that of 250 mm and 5 um.
LONG = "\n---\nkind: column\nx-name: long\nlength: 250 mm\n"


@pytest.mark.parametrize("rule", [RATIO, FLOW, INJECTION])
def test_silent_without_a_source(rule):
    assert findings("kind: method\nflow: 0.5 mL/min\n", rule) == []


@pytest.mark.parametrize("rule", [RATIO, FLOW, INJECTION])
def test_silent_on_a_transfer_to_the_same(rule):
    assert findings(ISOCRATIC + FROM, rule) == []


def test_a_note_only_without_the_tag():
    (found,) = findings(ISOCRATIC + FROM + "column: long" + LONG, RATIO)
    assert found.grade == "note"


def test_a_note_only_on_a_chiral_phase():
    chiral = "\n---\nkind: column\nphase: immobilised polysaccharide\n"
    (found,) = findings(ISOCRATIC + FROM + "column: long" + LONG + chiral + REGULATED, RATIO)
    assert found.grade == "note"


def test_plates_count_where_particles_are_superficially_porous():
    """The chapter lets the plate number stand for L/dp there (USP <621>, secondary quotations)."""
    shells = "\n---\nkind: column\nparticle_type: superficially porous\nplates: 11000\n"
    long = LONG + "particle_type: porous\nplates: 12000\n"
    assert findings(ISOCRATIC + FROM + "column: long" + long + shells + REGULATED, RATIO) == []


def test_ratio_outside_is_a_fault_when_regulated():
    (found,) = findings(ISOCRATIC + FROM + "column: long" + LONG + REGULATED, RATIO)
    assert found.grade == "fault"
    # 83333 x 0.75 and x 1.5 times 3 um (USP <621>, secondary quotations; arithmetic).
    assert "187" in found.remedy or "188" in found.remedy
    assert "375 mm" in found.remedy
    # 50000 over 83333 is 0.6, below the lower end of the span.
    assert found.found.value == pytest.approx(0.6)
    assert found.limit.value == 0.75
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
    assert bool(findings(text + REGULATED, RATIO)) is fires


# Flow ----------------------------------------------------------------------------------------


def test_the_flow_by_geometry_is_silent():
    """3.0 -> 2.13 mL/min (common practice, no source)."""
    text = ISOCRATIC + "flow: 2.13 mL/min" + FROM + "flow: 3.0 mL/min\ncolumn: wide" + WIDE
    assert findings(text, FLOW) == []


def test_a_change_on_record_is_silent():
    text = ISOCRATIC + "flow: 1.2 mL/min\ntransfer: {flow_reason: shortened on purpose}" + FROM
    assert findings(text + "flow: 3.0 mL/min\ncolumn: wide" + WIDE, FLOW) == []


@pytest.mark.parametrize(("flow", "grade"), [("1.6 mL/min", "caution"), ("0.9 mL/min", "fault")])
def test_another_flow_is_found(flow, grade):
    text = ISOCRATIC + f"flow: {flow}" + FROM + "flow: 3.0 mL/min\ncolumn: wide" + WIDE
    (found,) = findings(text, FLOW)
    assert found.grade == grade
    assert "2.13 mL/min" in found.message
    assert found.limit.value == pytest.approx(2.127, abs=0.001)


def test_the_flow_inside_the_column_is_off_by_nearly_as_much():
    """3.0 mL/min by geometry are 2.127, so 1.6 are 25 % less (arithmetic); densities differ little."""
    text = ISOCRATIC + "flow: 1.6 mL/min" + FROM + "flow: 3.0 mL/min\ncolumn: wide" + WIDE
    (found,) = findings(text, FLOW)
    assert "flow 1.6 mL/min is -25 % off" in found.message
    inside = re.search(r"inside the column it is ([-+]\d+) % off", found.message)
    assert inside is not None
    assert float(inside[1]) == pytest.approx(-25, abs=4)


def test_the_remedy_of_the_flow_was_tried():
    text = ISOCRATIC + "flow: 1.6 mL/min" + FROM + "flow: 3.0 mL/min\ncolumn: wide" + WIDE
    (found,) = findings(text, FLOW)
    assert found.remedy == "set the flow to 2.13 mL/min"


# Injection -----------------------------------------------------------------------------------


def test_scaled_volume_is_silent():
    """10 -> 2.6 uL (common practice, no source)."""
    text = (
        ISOCRATIC
        + "injection: {volume: 2.6 uL}"
        + FROM
        + "injection: {volume: 10 uL}\ncolumn: wide"
    )
    assert findings(text + WIDE, INJECTION) == []


def test_rescaled_concentration_is_silent():
    text = ISOCRATIC + "injection: {volume: 5 uL}\ntransfer: {concentration_rescaled: true}" + FROM
    assert findings(text + "injection: {volume: 5 uL}\ncolumn: wide" + WIDE, INJECTION) == []


def test_held_by_the_autosampler_is_silent():
    card = "\n---\nkind: instrument\nautosampler: {lowest_volume: 4 uL}\n"
    text = (
        ISOCRATIC + "injection: {volume: 4 uL}" + FROM + "injection: {volume: 10 uL}\ncolumn: wide"
    )
    assert findings(text + WIDE + card, INJECTION) == []


def test_held_by_the_part_of_the_loop_that_the_mode_fills_is_silent():
    """Ten microlitres of the source in a loop that is filled by half (arithmetic)."""
    card = "\n---\nkind: instrument\nautosampler: {highest_volume: 10 uL, loop: 10 uL}\n"
    text = ISOCRATIC + "injection: {volume: 5 uL}" + FROM + "injection: {volume: 10 uL}\n"
    assert findings(text + card, INJECTION) == []


def test_a_kept_volume_is_found_and_its_remedy_tried():
    text = (
        ISOCRATIC + "injection: {volume: 5 uL}" + FROM + "injection: {volume: 5 uL}\ncolumn: wide"
    )
    report = judged(text + WIDE, INJECTION)
    (found,) = report.findings
    assert found.grade == "caution"
    assert found.limit.value == pytest.approx(5 * 0.2552, abs=0.01)
    assert found.remedy == "inject 1.28 uL"
    assert report.not_checked == []


def test_a_missing_volume_is_not_checked():
    report = judged(ISOCRATIC + "injection: null" + FROM, INJECTION)
    assert [item.missing for item in report.not_checked] == [("method.injection.volume",)]
