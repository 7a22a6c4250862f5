"""detector.cell-volume-too-large: V2/12 (arithmetic) against a tenth: common practice, no source."""

from __future__ import annotations

import re

import pytest

from tests.rules.harness import findings, judged

RULE = "detector.cell-volume-too-large"

DETECTOR = "detectors: [{type: UV, cell: UV cell, wavelength: 254 nm, rate: 40 Hz}]\n"

# 3.0 x 100 mm, k = 1, N 18000: sigma_v 6.8 uL, 47 uL2; hold-up volume 0.459 mL at 2 mL/min.
NARROW = (
    "kind: column\nlength: 100 mm\ninner_diameter: 3.0 mm\ntotal_porosity: 0.65\n---\n"
    "kind: method\nflow: 2.0 mL/min\nprogramme: []\nmobile_phase: {modifier_share: 18 % v/v}\n"
    "oven_temperature: 35 degC\noutlet_pressure: 130 bar\n"
)
EARLY = "expected_peaks: [{name: first, retention_time: 0.42 min, plates: 18000}]\n"
WIDE = (
    "kind: column\nlength: 250 mm\ninner_diameter: 4.6 mm\nparticle_size: 5 um\n---\n"
    "kind: method\nflow: 3.0 mL/min\n"
    "expected_peaks: [{name: first, retention_time: 2.6 min, plates: 12000}]\n"
)
MS = "detectors: [{type: UV, cell: UV cell, purpose: trigger}, {type: MS, purpose: quantify}]\n"


def test_silent_for_a_wide_column() -> None:
    """10 uL2 against some thousand (scenario arithmetic)."""
    assert findings(WIDE + DETECTOR, RULE) == []


def test_silent_if_the_mass_spectrometer_is_evaluated() -> None:
    assert findings(NARROW + EARLY + MS, RULE) == []


def test_silent_if_the_cell_is_bypassed() -> None:
    train = (
        "---\nkind: instrument\ntrain:\n  - {part: column}\n"
        "  - {part: cell, name: UV cell, volume: 11 uL, detector: UV, bypassed: true}\n"
        "  - {part: regulator}\n"
    )
    assert findings(NARROW + EARLY + DETECTOR + train, RULE) == []


def test_the_case_of_the_catalogue() -> None:
    """11 uL: 121/12 = 10.1 uL2 against 47 uL2, 21 % of it; 7.5 uL would be a tenth (scenario arithmetic)."""
    (found,) = findings(NARROW + EARLY + DETECTOR, RULE)
    assert found.grade == "caution"
    figures = re.search(r"adds ([\d.]+) uL2 to the ([\d.]+) uL2", found.message)
    assert figures is not None
    assert float(figures[1]) == pytest.approx(10.1)
    assert float(figures[2]) == pytest.approx(47.0, rel=0.15)
    assert found.limit is not None and found.limit.value == pytest.approx(7.5, rel=0.08)
    assert found.remedy.startswith("fit a cell of ")


def test_a_cell_without_a_volume_is_not_checked() -> None:
    train = (
        "---\nkind: instrument\ntrain:\n  - {part: column}\n"
        "  - {part: cell, name: UV cell, detector: UV}\n  - {part: regulator}\n"
    )
    report = judged(NARROW + EARLY + DETECTOR + train, RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("instrument.train[1].volume",)]
