"""Keys of a kind, and trade words for them: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.document.pages import found_in

RULE = "document.unknown-key"


def test_silent_for_keys_of_the_kind() -> None:
    assert found_in("kind: method\noutlet_pressure: 120 bar\ncolumn: column\n", RULE) == []


def test_silent_for_keys_of_the_lab_at_any_depth() -> None:
    text = "x-approved-in: our register\nmobile_phase: {x-note: degassed}\n"
    assert found_in(f"kind: method\n{text}", RULE) == []


def test_silent_beneath_a_key_that_is_unknown_itself() -> None:
    """One slip, one finding: what stands below cannot be known either."""
    (found,) = found_in("kind: method\nmobilephase: {modifer: methanol}\n", RULE)
    assert found.at.path == ("mobilephase",)


@pytest.mark.parametrize(
    ("key", "instead"),
    [
        ("outlet_presure", "outlet_pressure"),
        ("Flow", "flow"),
        ("out-let_pressure", "outlet_pressure"),
        ("bpr", "outlet_pressure"),
        ("backpressure", "outlet_pressure"),
        ("backpresure", "outlet_pressure"),
    ],
    ids=["a letter short", "a capital", "a hyphen", "a trade word", "another", "a misspelt one"],
)
def test_the_key_that_is_meant_is_offered(key: str, instead: str) -> None:
    (found,) = found_in(f"kind: method\n{key}: 120 bar\n", RULE)
    assert (found.grade, found.at.path) == ("fault", (key,))
    assert f"did you mean '{instead}'?" in found.remedy
    assert "'x-'" in found.remedy


def test_a_key_that_is_near_to_none_gets_the_list() -> None:
    (found,) = found_in("kind: method\nzzzz: 1\n", RULE)
    assert "did you mean" not in found.remedy
    for key in ("column", "flow", "outlet_pressure"):
        assert f" {key}," in found.remedy


def test_the_key_of_a_row_is_named_with_its_row() -> None:
    (found,) = found_in("kind: method\ndetectors: [{type: UV}, {type: UV, lambda: 254 nm}]\n", RULE)
    assert found.at.path == ("detectors", 1, "lambda")
    assert "detectors[1]" in found.message
