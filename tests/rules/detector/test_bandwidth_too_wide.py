"""detector.bandwidth-too-wide: 16 nm: common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings

RULE = "detector.bandwidth-too-wide"


def method(more: str) -> str:
    return f"kind: method\ndetectors: [{{type: UV, cell: UV cell, wavelength: 230 nm{more}}}]\n"


def test_silent_for_a_usual_bandwidth_and_where_none_is_given() -> None:
    assert findings(method(", bandwidth: 8 nm"), RULE) == []
    assert findings(method(""), RULE) == []


def test_silent_for_a_trigger() -> None:
    assert findings(method(", bandwidth: 40 nm, purpose: trigger"), RULE) == []


def test_a_wide_band_is_a_caution() -> None:
    (found,) = findings(method(", bandwidth: 40 nm"), RULE)
    assert (found.grade, found.remedy) == ("caution", "set a bandwidth of 8 nm")
    assert found.message.startswith("a bandwidth of 40 nm averages over the band")
