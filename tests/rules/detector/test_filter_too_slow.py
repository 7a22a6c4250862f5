"""detector.filter-too-slow: w/10 and w/5: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "detector.filter-too-slow"


def method(constant: str, peak: str = "width: 3.2 s", more: str = "") -> str:
    return (
        f"kind: method\nexpected_peaks: [{{name: first, {peak}}}]\ndetectors:\n"
        "  - {type: UV, cell: UV cell, wavelength: 254 nm, rate: 20 Hz, "
        f"filter: {constant}{more}}}\n"
    )


def test_silent_for_the_triazole_scenario() -> None:
    """0.05 s against w = 3.2 s (scenario arithmetic, common practice)."""
    assert findings(method("0.05 s"), RULE) == []


def test_silent_at_a_tenth() -> None:
    assert findings(method("0.32 s"), RULE) == []


def test_silent_for_a_trace_that_only_triggers() -> None:
    assert findings(method("2 s", more=", purpose: trigger"), RULE) == []


@pytest.mark.parametrize(("constant", "grade"), [("0.5 s", "caution"), ("0.7 s", "fault")])
def test_classes(constant: str, grade: str) -> None:
    """A tenth is 0.32 s, a fifth 0.64 s (arithmetic)."""
    (found,) = findings(method(constant), RULE)
    assert found.grade == grade
    assert found.limit is not None and found.limit.value == pytest.approx(0.32)
    assert found.remedy == "set the filter to 0.2 s"


def test_plates_lost() -> None:
    """tau = 0.4 s, sigma = 0.8 s: 0.16 / (0.16 + 0.64) = 20 % (arithmetic)."""
    (found,) = findings(method("0.4 s"), RULE)
    assert "20 % of the plates" in found.message


def test_a_guess_softens_a_fault_within_its_band() -> None:
    """4 x 60 / sqrt(14400) = 2 s: a fifth is 0.4 s, with the band 0.5 s (arithmetic)."""
    column = "---\nkind: column\nplates: 14400\n"
    (soft,) = findings(method("0.45 s", "retention_time: 1 min") + column, RULE)
    assert soft.grade == "caution" and soft.possible
    (hard,) = findings(method("0.55 s", "retention_time: 1 min") + column, RULE)
    assert hard.grade == "fault"


def test_a_filter_that_is_not_given_is_not_checked() -> None:
    report = judged(
        "kind: method\ndetectors: [{type: UV, cell: UV cell, wavelength: 254 nm, rate: 20 Hz}]",
        RULE,
    )
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("method.detectors[0].filter",)]
