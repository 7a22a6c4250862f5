"""Allowed changes of USP <621> (second-hand), LC tables by analogy; the earlier SFC table (unverified)."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged
from tests.rules.transfer.pairs import FROM, FROM_GRADIENT, GRADIENT, ISOCRATIC, REGULATED

RULE = "transfer.allowed-change-exceeded"


def test_silent_without_a_source():
    report = judged("kind: method\n---\nkind: instrument\nextra_column_sigma: 40 uL\n", RULE)
    assert report.findings == []
    assert report.not_checked == []


def test_silent_on_a_transfer_to_the_same():
    assert findings(GRADIENT + FROM_GRADIENT + REGULATED, RULE) == []


def test_silent_without_the_tag():
    assert findings(ISOCRATIC + "oven_temperature: 55 degC" + FROM, RULE) == []


def test_silent_under_the_set_none():
    text = ISOCRATIC + "oven_temperature: 55 degC\ntransfer: {allowances: none}" + FROM + REGULATED
    assert findings(text, RULE) == []


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
    found = findings(head + change + source + REGULATED, RULE)
    assert [finding.grade for finding in found] == ([grade] if grade else [])


def test_minor_component_of_an_isocratic_method():
    """30 % of itself (USP <621>, secondary quotations): 10 -> 13 % passes, 13.2 % does not."""
    fine = ISOCRATIC.replace("10 % v/v", "13 % v/v")
    far = ISOCRATIC.replace("10 % v/v", "13.2 % v/v")
    assert findings(fine + FROM + REGULATED, RULE) == []
    (found,) = findings(far + FROM + REGULATED, RULE)
    assert "+32 %" in found.message


def test_outlet_pressure_has_no_allowance():
    (found,) = findings(ISOCRATIC + "outlet_pressure: 140 bar" + FROM + REGULATED, RULE)
    assert found.grade == "note"
    assert "no allowance found, treat as a change" in found.message


def test_the_labs_own_spans():
    lab = "\n---\nkind: lab\npolicy: {transfer_allowances: {temperature: 2 K}}\n"
    text = ISOCRATIC + "oven_temperature: 43 degC\ntransfer: {allowances: lab}" + FROM + REGULATED
    (found,) = findings(text + lab, RULE)
    assert "lab's policy" in found.message
    assert findings(text.replace("43", "41") + lab, RULE) == []


@pytest.mark.parametrize(
    ("change", "grade"),
    [
        # Ph. Eur. 2.2.46 before 1 January 2023, section on SFC (unverified).
        ("oven_temperature: 45 degC", None),
        ("oven_temperature: 46 degC", "fault"),
        ("flow: 2.2 mL/min", None),
        ("flow: 2.3 mL/min", "fault"),
        ("mobile_phase: {modifier_share: 13 % v/v}", None),
        ("mobile_phase: {modifier_share: 14 % v/v}", "fault"),
        ("column: long", None),
    ],
)
def test_the_earlier_table_for_supercritical_fluids(change, grade):
    text = ISOCRATIC.replace("mobile_phase: {modifier_share: 10 % v/v}\n", "")
    mobile = "" if "mobile" in change else "mobile_phase: {modifier_share: 10 % v/v}\n"
    long = "\n---\nkind: column\nx-name: long\nlength: 250 mm\n"
    asked = f"transfer: {{allowances: earlier-sfc}}\n{change}"
    found = findings(text + mobile + asked + FROM + long + REGULATED, RULE)
    assert [finding.grade for finding in found] == ([grade] if grade else [])
    assert all("(unverified)" in finding.message for finding in found)


def test_the_larger_of_both_spans_of_the_earlier_table_counts():
    """4 to 6 % v/v is +50 % relative and +2 % absolute, which the earlier table permits."""
    lean = ISOCRATIC.replace("10 % v/v", "6 % v/v") + "transfer: {allowances: earlier-sfc}"
    source = FROM.replace("10 % v/v", "4 % v/v")
    assert findings(lean + source + REGULATED, RULE) == []
    assert findings(lean.replace("earlier-sfc", "pharmacopoeial") + source + REGULATED, RULE)
