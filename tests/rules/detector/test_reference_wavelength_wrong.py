"""detector.reference-wavelength-wrong: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "detector.reference-wavelength-wrong"


def method(reference: str, wavelength: str = "254 nm", more: str = "") -> str:
    given = f", reference_wavelength: {reference}" if reference else ""
    return (
        f"kind: method\n{more}detectors:\n"
        f"  - {{type: PDA, cell: UV cell, rate: 20 Hz, wavelength: {wavelength}{given}}}\n"
    )


# Pure CO2 changes its density by 1.2 %/bar at 40 degC and 100 bar, 0.2 at 150 (Span & Wagner).
SOFT = (
    "oven_temperature: 45 degC\noutlet_pressure: 100 bar\nprogramme: []\nflow: 0.5 mL/min\n"
    "mobile_phase: {modifier_share: 2 % v/v}\n"
)
POSSIBLE = "---\nkind: instrument\nreference_detector: reference possible\n"
SINGLE = "---\nkind: instrument\nreference_detector: single wavelength\n"


def test_silent_for_a_reference_far_away() -> None:
    assert findings(method("360 nm"), RULE) == []


@pytest.mark.parametrize("reference", ["260 nm", ""])
def test_silent_for_a_detector_of_a_single_wavelength(reference: str) -> None:
    assert findings(method(reference, more=SOFT) + SINGLE, RULE) == []


def test_silent_without_a_reference_in_a_stiff_mobile_phase() -> None:
    assert findings(method("") + POSSIBLE, RULE) == []


def test_silent_without_a_reference_below_31_degc() -> None:
    cool = (
        SOFT.replace("45 degC", "30 degC")
        .replace("100 bar", "75 bar")
        .replace("share: 2 %", "share: 0 %")
    )
    assert findings(method("", more=cool) + POSSIBLE, RULE) == []


@pytest.mark.parametrize("reference", ["260 nm", "240 nm", "254 nm"])
def test_a_reference_within_the_band_that_is_measured(reference: str) -> None:
    (found,) = findings(method(reference), RULE)
    assert found.grade == "caution"
    assert "subtracts the peak from itself" in found.message
    assert found.remedy == "set the reference to 334 nm"


def test_a_reference_below_the_cutoff() -> None:
    """40 % methanol, 205 nm (solvent tables, from memory)."""
    (found,) = findings(method("195 nm"), RULE)
    assert "below the cutoff" in found.message


def test_no_reference_in_a_compressible_mobile_phase() -> None:
    (found,) = findings(method("", more=SOFT) + POSSIBLE, RULE)
    assert found.grade == "note"  # the softness itself is phase.near-critical-compressible
    assert found.found is not None and found.found.value > 1.0
    assert found.remedy == "set the reference to 334 nm"


def test_whether_a_reference_is_possible_has_to_be_known() -> None:
    report = judged(method("", more=SOFT), RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("instrument.reference_detector",)]
