"""Headroom, plates outside the column, chemistry, metering, allowances, verification."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

from .pairs import FROM, FROM_GRADIENT, GRADIENT, ISOCRATIC, REGULATED, WIDE

HEADROOM = "transfer.pressure-no-headroom"
VARIANCE = "transfer.extra-column-variance"
CHEMISTRY = "transfer.chemistry-differs"
BASIS = "transfer.composition-basis-differs"
ALLOWED = "transfer.allowed-change-exceeded"
VERIFY = "transfer.no-verification-run"

OTHER = "\n---\nkind: instrument\nx-name: other\n"


@pytest.mark.parametrize("rule", [HEADROOM, VARIANCE, CHEMISTRY, BASIS, ALLOWED, VERIFY])
def test_silent_without_a_source(rule):
    report = judged("kind: method\n---\nkind: instrument\nextra_column_sigma: 40 uL\n", rule)
    assert report.findings == []
    assert report.not_checked == []


@pytest.mark.parametrize("rule", [HEADROOM, VARIANCE, CHEMISTRY, BASIS, ALLOWED])
def test_silent_on_a_transfer_to_the_same(rule):
    assert findings(GRADIENT + FROM_GRADIENT + REGULATED, rule) == []


# Headroom ------------------------------------------------------------------------------------

# The base gradient needs about 293 bar at the pump.
WEAK = "\n---\nkind: instrument\nco2_pump: {pressure_rating: 310 bar, envelope: [{flow: 5 mL/min, pressure: 310 bar}]}\n"


def test_headroom_is_silent_where_the_source_ran_there():
    weak = WEAK.replace("kind: instrument\n", "kind: instrument\nx-name: other\n")
    text = GRADIENT + FROM_GRADIENT + "runs_on: [other]\n" + weak + WEAK.replace("310", "320")
    assert findings(text, HEADROOM) == []


def test_no_headroom_is_found_and_its_remedy_tried():
    text = GRADIENT + FROM_GRADIENT + "runs_on: [other]\n" + OTHER + WEAK
    report = judged(text, HEADROOM)
    (found,) = report.findings
    assert found.grade == "fault"
    assert found.found.value > 0.9 * 310
    assert "multiply all flows by" in found.remedy
    assert "pressure" in found.cautions
    assert report.not_checked == []


# Plates outside the column -----------------------------------------------------------------------


def sigma(value: str) -> str:
    return f"\n---\nkind: instrument\nextra_column_sigma: {value}\n"


def test_well_retained_peaks_are_silent():
    """k of 5 and more: hold-up time about 0.45 min, so 2.5 min is k = 4.5 and 4 min k = 8."""
    late = "expected_peaks:\n  - {name: late, retention_time: 4.0 min, plates: 9000}\n"
    assert findings(GRADIENT + late + FROM_GRADIENT + sigma("60 uL"), VARIANCE) == []


@pytest.mark.parametrize(
    ("uL", "grade"), [("4 uL", None), ("13 uL", "caution"), ("20 uL", "fault")]
)
def test_plates_lost_outside(uL, grade):
    early = "expected_peaks:\n  - {name: early, retention_time: 1.5 min, plates: 9000}\n"
    found = findings(GRADIENT + early + FROM_GRADIENT + sigma(uL), VARIANCE)
    assert [finding.grade for finding in found] == ([grade] if grade else [])


def test_no_peak_is_not_checked():
    report = judged(GRADIENT + "expected_peaks: []" + FROM_GRADIENT, VARIANCE)
    assert report.not_checked[0].missing == ("method.expected_peaks",)


# Chemistry -----------------------------------------------------------------------------------

CYANO = "\n---\nkind: column\nx-name: cyano\nselector: cyanopropyl\n"


@pytest.mark.parametrize(
    "record",
    [
        "transfer: {equivalence: QM-EQ-3}" + FROM + "column: cyano",
        FROM + "column: cyano\nequivalent_columns: [column]",
    ],
    ids=["data on record", "named as equivalent by the source"],
)
def test_an_equivalence_on_record_is_silent(record):
    assert findings(ISOCRATIC + record + CYANO, CHEMISTRY) == []


def test_another_size_of_the_same_phase_is_silent():
    assert findings(ISOCRATIC + FROM + "column: wide" + WIDE, CHEMISTRY) == []


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
    (found,) = findings(ISOCRATIC + FROM + "column: other-phase" + card, CHEMISTRY)
    assert found.grade == "fault"
    assert words in found.message


def test_an_unknown_selector_is_not_checked():
    card = "\n---\nkind: column\nx-name: other-phase\nselector: null\n"
    report = judged(ISOCRATIC + FROM + "column: other-phase" + card, CHEMISTRY)
    assert report.findings == []
    assert report.not_checked[0].missing == ("column.selector",)


# Metering ------------------------------------------------------------------------------------

WARM = "\n---\nkind: instrument\nx-name: warm\nco2_pump: {head_temperature: 20 degC}\n"


def test_the_same_heads_are_silent_at_other_pressures():
    assert (
        findings(ISOCRATIC + FROM + "runs_on: [other]\noutlet_pressure: 110 bar" + OTHER, BASIS)
        == []
    )


def test_another_head_is_found():
    """954 -> 904 kg/m3 from 10 to 20 degC at 150 bar (Span and Wagner 1996); here from 8 degC."""
    report = judged(ISOCRATIC + FROM + "runs_on: [warm]" + WARM, BASIS)
    (found,) = report.findings
    assert found.grade == "caution"
    assert found.found.value < found.limit.value
    assert report.not_checked == []
    share = float(found.remedy.split("to ")[-1].split()[0])
    assert 10.0 < share < 11.0
    fixed = ISOCRATIC.replace("10 % v/v", f"{share} % v/v")
    assert findings(fixed + FROM + "runs_on: [warm]" + WARM, BASIS) == []


def test_mass_against_volume_is_found():
    mass = "\n---\nkind: instrument\nx-name: massive\nco2_pump: {metering: mass}\n"
    (found,) = findings(ISOCRATIC + FROM + "runs_on: [massive]" + mass, BASIS)
    # The words give the figures that are compared, by mass.
    assert f"is {found.found.value:.1f} % by mass here" in found.message
    assert f"{found.limit.value:.1f} % on the source" in found.message
    assert "set millilitre" in found.message


# Allowances ----------------------------------------------------------------------------------


def test_silent_without_the_tag():
    assert findings(ISOCRATIC + "oven_temperature: 55 degC" + FROM, ALLOWED) == []


def test_silent_under_the_set_none():
    text = ISOCRATIC + "oven_temperature: 55 degC\ntransfer: {allowances: none}" + FROM + REGULATED
    assert findings(text, ALLOWED) == []


@pytest.mark.parametrize(
    ("head", "change", "grade"),
    [
        (ISOCRATIC, "oven_temperature: 50 degC", None),
        (ISOCRATIC, "oven_temperature: 51 degC", "fault"),
        (GRADIENT, "oven_temperature: 45 degC", None),
        (GRADIENT, "oven_temperature: 46 degC", "fault"),
        (ISOCRATIC, "flow: 2.2 mL/min", None),
        (ISOCRATIC, "flow: 2.3 mL/min", "fault"),
        (
            ISOCRATIC,
            "detectors: [{type: UV, cell: UV cell, wavelength: 254 nm, rate: 20 Hz}]",
            None,
        ),
        (
            ISOCRATIC,
            "detectors: [{type: UV, cell: UV cell, wavelength: 250 nm, rate: 20 Hz}]",
            "fault",
        ),
    ],
)
def test_spans_of_the_chapter(head, change, grade):
    """USP <621>, secondary quotations; 5 K in gradients and the wavelength from memory."""
    source = FROM if head == ISOCRATIC else FROM_GRADIENT
    found = findings(head + change + source + REGULATED, ALLOWED)
    assert [finding.grade for finding in found] == ([grade] if grade else [])


def test_minor_component_of_an_isocratic_method():
    """30 % of itself (USP <621>, secondary quotations): 10 -> 13 % passes, 13.2 % does not."""
    fine = ISOCRATIC.replace("10 % v/v", "13 % v/v")
    far = ISOCRATIC.replace("10 % v/v", "13.2 % v/v")
    assert findings(fine + FROM + REGULATED, ALLOWED) == []
    (found,) = findings(far + FROM + REGULATED, ALLOWED)
    assert "+32 %" in found.message


def test_outlet_pressure_has_no_allowance():
    (found,) = findings(ISOCRATIC + "outlet_pressure: 140 bar" + FROM + REGULATED, ALLOWED)
    assert found.grade == "note"
    assert "no allowance found, treat as a change" in found.message


def test_the_labs_own_spans():
    lab = "\n---\nkind: lab\npolicy: {transfer_allowances: {temperature: 2 K}}\n"
    text = ISOCRATIC + "oven_temperature: 43 degC\ntransfer: {allowances: lab}" + FROM + REGULATED
    (found,) = findings(text + lab, ALLOWED)
    assert "lab's policy" in found.message
    assert findings(text.replace("43", "41") + lab, ALLOWED) == []


# Verification ----------------------------------------------------------------------------------


def test_both_sequences_are_enough():
    text = (
        GRADIENT + "transfer: {verification: [there, again]}" + FROM_GRADIENT + "runs_on: [other]\n"
    )
    sequences = (
        "\n---\nkind: sequence\nx-name: there\ninstrument: other\nmethod: source\n"
        "---\nkind: sequence\nx-name: again\n"
    )
    assert findings(text + OTHER + sequences, VERIFY) == []


def test_the_own_sequence_counts_for_the_target():
    text = GRADIENT + FROM_GRADIENT + "runs_on: [other]\n" + OTHER
    (found,) = findings(text, VERIFY)
    assert found.grade == "caution"
    assert "source, other" in found.message
    assert "target" not in found.message


def test_limits_are_asked_for():
    text = GRADIENT + "suitability: null" + FROM_GRADIENT
    (found,) = findings(text, VERIFY)
    assert "limits of the suitability test" in found.message
