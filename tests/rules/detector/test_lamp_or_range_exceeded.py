"""detector.lamp-or-range-exceeded: the instrument card; common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings

RULE = "detector.lamp-or-range-exceeded"


def lab(cell: str, uses: str = "") -> str:
    return (
        f"kind: method\ndetectors: [{{type: UV, cell: UV cell, wavelength: 254 nm{uses}}}]\n---\n"
        "kind: instrument\ntrain:\n  - {part: mixer, volume: 0.2 mL}\n  - {part: column}\n"
        f"  - {{part: cell, name: UV cell, volume: 11 uL, detector: UV{cell}}}\n"
        "  - {part: regulator}\n"
    )


def test_silent_for_a_fresh_lamp_and_a_small_peak() -> None:
    assert findings(lab(", lamp_used: 300 h, lamp_life: 2000 h"), RULE) == []
    assert findings(lab(", highest_absorbance: 2.0", ", highest_absorbance: 1.4"), RULE) == []


def test_silent_where_the_card_says_nothing() -> None:
    assert findings(lab("", ", highest_absorbance: 3"), RULE) == []


def test_silent_for_a_trace_that_triggers() -> None:
    trigger = ", highest_absorbance: 3, purpose: trigger"
    assert findings(lab(", highest_absorbance: 2.0", trigger), RULE) == []


def test_an_old_lamp_is_a_caution() -> None:
    (found,) = findings(lab(", lamp_used: 2400 h, lamp_life: 2000 h"), RULE)
    assert (found.grade, found.at.path) == ("caution", ("train", 2, "lamp_used"))
    assert "2400 h" in found.message


def test_a_peak_above_the_linear_range_is_a_caution() -> None:
    (found,) = findings(lab(", highest_absorbance: 2.0", ", highest_absorbance: 2.6"), RULE)
    assert found.grade == "caution"
    assert "absorbs 2.6, the detector is linear up to 2" in found.message
