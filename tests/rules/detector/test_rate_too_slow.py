"""detector.rate-too-slow: 20 points (agreeing guidance, no single source); 10: common practice."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "detector.rate-too-slow"


def method(rate: str, peak: str, more: str = "", column: str = "12000") -> str:
    return (
        f"kind: column\nplates: {column}\n---\n"
        f"kind: method\nexpected_peaks: [{{name: first, {peak}}}]\ndetectors:\n"
        f"  - {{type: UV, cell: UV cell, wavelength: 254 nm, rate: {rate}{more}}}\n"
    )


TRIAZOLE = "retention_time: 1.1 min, plates: 7000"


def test_silent_for_the_triazole_scenario() -> None:
    """w = 4 x 66 / sqrt(7000) = 3.2 s, 63 points at 20 Hz (scenario arithmetic, common practice)."""
    assert findings(method("20 Hz", TRIAZOLE), RULE) == []


def test_the_triazole_scenario_has_63_points_at_20_hz() -> None:
    """Seen through a rate a tenth as high: 6.3 points."""
    (found,) = findings(method("2 Hz", TRIAZOLE), RULE)
    assert found.found is not None and found.found.value == pytest.approx(6.3, abs=0.05)
    assert found.grade == "fault"


def test_silent_for_a_trace_that_only_triggers() -> None:
    assert findings(method("1 Hz", TRIAZOLE, ", purpose: trigger"), RULE) == []


def test_silent_for_preparative_work() -> None:
    changes = method("1 Hz", TRIAZOLE) + "purpose: preparative\n---\nkind: sequence\npurpose: null"
    assert findings(changes, RULE) == []


def test_silent_for_a_mass_spectrometer() -> None:
    """Its cycle is another rule's."""
    changes = "kind: method\ndetectors: [{type: MS, source: ESI, rate: 0.5 Hz}]"
    assert findings(changes, RULE) == []


@pytest.mark.parametrize(
    ("rate", "grade"), [("3 Hz", "fault"), ("4 Hz", "caution"), ("6 Hz", "caution")]
)
def test_classes(rate: str, grade: str) -> None:
    """A base width of 3.2 s: 9.6, 12.8 and 19.2 points (arithmetic)."""
    (found,) = findings(method(rate, "retention_time: 1.1 min, width: 3.2 s"), RULE)
    assert found.grade == grade
    assert "the width given" in found.message


def test_needed_rates_of_the_catalogue() -> None:
    """k = 1, N 18000, w 0.82 s: 24 Hz; k = 2, N 12000, w 5.1 s: 4 Hz (scenario arithmetic)."""
    (narrow,) = findings(method("10 Hz", "width: 0.82 s"), RULE)
    assert "24 Hz" in narrow.message
    assert narrow.remedy == "set the rate to 40 Hz"
    (wide,) = findings(method("1 Hz", "width: 5.1 s"), RULE)
    assert "3.9 Hz" in wide.message
    assert wide.remedy == "set the rate to 5 Hz"


def test_the_narrowest_peak_decides() -> None:
    changes = (
        "kind: method\nexpected_peaks:\n  - {name: late, width: 9 s}\n"
        "  - {name: early, width: 1 s}\n"
        "detectors: [{type: UV, cell: UV cell, wavelength: 254 nm, rate: 10 Hz}]\n"
    )
    (found,) = findings(changes, RULE)
    assert "'early'" in found.message


def test_a_guess_is_said_and_softens_a_fault_within_its_band() -> None:
    """4 x 60 / sqrt(14400) = 2 s: 9 points at 4.5 Hz, 6 at 3 Hz (arithmetic)."""
    (soft,) = findings(method("4.5 Hz", "retention_time: 1 min", column="14400"), RULE)
    assert soft.grade == "caution" and soft.possible
    assert "a guess from the plates on the column card" in soft.message
    (hard,) = findings(method("3 Hz", "retention_time: 1 min", column="14400"), RULE)
    assert hard.grade == "fault"


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        ("kind: method\nexpected_peaks: []", "method.expected_peaks"),
        (
            (
                "kind: column\nplates: null\n---\nkind: method\n"
                "expected_peaks: [{name: A, retention_time: 1 min}]"
            ),
            "method.expected_peaks[0].width",
        ),
        (
            "kind: method\ndetectors: [{type: UV, cell: UV cell, wavelength: 254 nm}]",
            "method.detectors[0].rate",
        ),
        ("kind: method\ndetectors: []", "method.detectors"),
    ],
)
def test_a_missing_figure_is_not_a_pass(changes: str, missing: str) -> None:
    report = judged(changes, RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [(missing,)]


@pytest.mark.parametrize("rate", [5, 10, 20, 40, 50, 80, 100, 160, 200])
def test_the_lowest_usual_rate_that_is_enough_is_proposed(rate: int) -> None:
    """Twenty points over a width of 20 / rate need just that rate; rates are common practice."""
    (found,) = findings(method("0.5 Hz", f"width: {20.0 / rate * 1.001:.6f} s"), RULE)
    assert found.remedy == f"set the rate to {rate} Hz"


def test_beyond_every_usual_rate_the_figure_alone_is_said() -> None:
    (found,) = findings(method("20 Hz", "width: 0.08 s"), RULE)
    assert found.remedy == "raise the rate to 250 Hz or more"
