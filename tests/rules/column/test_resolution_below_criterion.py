"""Rs = 2 (t2 - t1) / (w1 + w2) with base widths (IUPAC 1993, unverified); w = 4 t / sqrt(N)."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings

RULE = "column.resolution-below-criterion"


def method(
    second: str, limit: str = "1.5", first: str = "plates: 10000", purpose: str = "research"
) -> str:
    return (
        f"kind: method\npurpose: {purpose}\nsuitability: {{resolution: {limit}, tailing: 1.8}}\n"
        f"expected_peaks:\n  - {{name: a, retention_time: 2 min, {first}}}\n  - {{name: b, {second}}}\n"
        f"---\nkind: sequence\npurpose: {purpose}\n"
    )


def test_silent_for_peaks_far_enough_apart() -> None:
    """2.00 and 2.14 min, 10,000 plates: 2 x 0.14 / (0.080 + 0.0856) = 1.69."""
    assert findings(method("retention_time: 2.14 min, plates: 10000"), RULE) == []


def test_silent_without_a_limit() -> None:
    assert findings(method("retention_time: 2.01 min, plates: 10000", "null"), RULE) == []


def test_silent_for_ions_of_different_mass() -> None:
    two = method(
        "retention_time: 2.01 min, plates: 10000, ion: 300", first="plates: 10000, ion: 290"
    )
    assert findings(two, RULE) == []


def test_peaks_too_close_for_the_limit() -> None:
    """2.00 and 2.08 min: 2 x 0.08 / (0.080 + 0.0832) = 0.98."""
    (found,) = findings(method("retention_time: 2.08 min, plates: 10000"), RULE)
    assert found.grade == "caution"
    assert found.found is not None and found.found.value == pytest.approx(0.98, abs=0.005)


def test_a_width_guessed_from_the_column_has_a_band() -> None:
    """The card's 12,000 plates guess the widths: 25 % of 1.35 either way (common practice)."""
    (found,) = findings(method("retention_time: 2.1 min", first="x-a: 1"), RULE)
    assert found.band is not None and found.band.value == pytest.approx(0.25 * 1.34, abs=0.02)
