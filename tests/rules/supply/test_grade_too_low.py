"""`supply.grade-too-low`: 99.99 % for sensitive detectors; common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "supply.grade-too-low"
TECHNICAL = "kind: supply\ngrade: 99.5 %\n---\n"


def _uv(wave: int, kind: str = "method", **other: str) -> str:
    extra = "".join(f"{key}: {value}\n" for key, value in other.items())
    return (
        f"kind: {kind}\n{extra}detectors:\n"
        f"  - {{type: UV, cell: UV cell, wavelength: {wave} nm, rate: 20 Hz, filter: 0.1 s}}\n"
    )


MS = "kind: method\ndetectors:\n  - {type: MS, source: ESI, polarity: positive}\n"


def test_silent_for_preparative_work_above_250_nm() -> None:
    assert findings(TECHNICAL + _uv(254, purpose="preparative"), RULE) == []


def test_silent_at_220_nm_itself() -> None:
    assert findings(TECHNICAL + _uv(220), RULE) == []


def test_silent_for_a_good_grade_with_its_statement() -> None:
    assert findings(MS, RULE) == []
    assert findings(f"kind: supply\ngrade: 99.99 %\n---\n{MS}", RULE) == []


@pytest.mark.parametrize(
    ("method", "seen"), [(_uv(210), "UV at 210 nm"), (MS, "a mass spectrometer")]
)
def test_technical_grade_fires_where_it_is_seen(method: str, seen: str) -> None:
    [finding] = findings(TECHNICAL + method, RULE)
    assert finding.grade == "caution"
    assert "CO2 of 99.5 %" in finding.message
    assert seen in finding.message
    assert "99.99 % or better" in finding.remedy
    assert "no single change" not in finding.remedy


def test_no_statement_on_oil_fires() -> None:
    [finding] = findings(f"kind: supply\noil_statement: false\n---\n{MS}", RULE)
    assert "oil and hydrocarbons" in finding.message


def test_statement_not_known_is_not_checked() -> None:
    report = judged(f"kind: supply\noil_statement: null\n---\n{MS}", RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("supply.oil_statement",)]


def test_silent_for_dry_co2_and_a_purifier_in_date() -> None:
    dry = "kind: supply\nmoisture: 5 ppm\npurifier_changed: 2026-06-01\npurifier_interval: 365 d\n"
    assert findings(dry, RULE) == []


def test_silent_for_an_old_purifier_behind_a_certificate_that_holds() -> None:
    text = "kind: supply\npurifier_changed: 2024-06-01\npurifier_interval: 365 d\n"
    assert findings(text + "certificate_until: 2027-01-01\n", RULE) == []


def test_wet_co2_and_an_overdue_purifier_are_cautions() -> None:
    (wet,) = findings("kind: supply\nmoisture: 60 ppm\n", RULE)
    assert wet.grade == "caution"
    (old,) = findings(
        "kind: supply\npurifier_changed: 2024-06-01\npurifier_interval: 365 d\n", RULE
    )
    assert "the purifier was changed 906 d ago" in old.message
