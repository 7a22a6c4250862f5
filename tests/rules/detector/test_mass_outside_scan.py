"""detector.mass-outside-scan: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "detector.mass-outside-scan"


def method(ion: str, polarity: str = "positive", detector: str = "positive") -> str:
    return (
        "kind: method\nexpected_peaks:\n"
        f"  - {{name: A, retention_time: 2 min, ion: {ion}, polarity: {polarity}}}\n"
        "  - {name: B, retention_time: 3 min, ion: 300.2, polarity: positive}\n"
        f"detectors: [{{type: MS, source: ESI, polarity: {detector}, scan: [100, 600]}}]\n"
    )


@pytest.mark.parametrize("ion", ["100", "600", "250.5"])
def test_silent_within_the_range(ion: str) -> None:
    assert findings(method(ion), RULE) == []


def test_silent_for_a_doubly_charged_ion_given_by_its_m_over_z() -> None:
    """A compound of 900.6 Da as [M+2H]2+ is at m/z 451.3 (arithmetic)."""
    assert findings(method("451.3"), RULE) == []


def test_silent_if_both_polarities_are_recorded() -> None:
    assert findings(method("250.5", "negative", "both"), RULE) == []


def test_silent_if_the_transitions_switch() -> None:
    changes = (
        "kind: method\nexpected_peaks: [{name: A, polarity: negative}]\n"
        "detectors: [{type: MS, source: ESI, polarity: positive, "
        "transitions: [{dwell: 20 ms, polarity: negative}]}]\n"
    )
    assert findings(changes, RULE) == []


@pytest.mark.parametrize(
    ("ion", "remedy"), [("650.4", "scan from 100 to 656"), ("80.1", "scan from 75 to 600")]
)
def test_an_ion_outside_the_range(ion: str, remedy: str) -> None:
    (found,) = findings(method(ion), RULE)
    assert found.grade == "fault"
    assert f"'A' at {ion}" in found.message and "100 to 600" in found.message
    assert found.at.path == ("detectors", 0, "scan")
    assert found.remedy == remedy


def test_an_ion_of_the_other_polarity() -> None:
    (found,) = findings(method("250.5", "negative"), RULE)
    assert "polarity is positive" in found.message and "negative ions" in found.message
    assert found.remedy == "set the polarity to both"


def test_ions_that_nobody_names_are_not_checked() -> None:
    changes = (
        "kind: method\nexpected_peaks: [{name: A, retention_time: 2 min}]\n"
        "detectors: [{type: MS, source: ESI, scan: [100, 600]}]\n"
    )
    report = judged(changes, RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("method.expected_peaks[0].ion",)]
