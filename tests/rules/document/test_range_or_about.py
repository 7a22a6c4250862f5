"""One value with its tolerance: common practice, no source. Middle and half width by hand."""

from __future__ import annotations

import pytest

from tests.rules.document.pages import found_in, report_on

RULE = "document.range-or-about"


@pytest.mark.parametrize(
    "value", ["40 degC", "-10 degC", "4e1 degC", "{value: 37 degC, tolerance: 2 degC}"]
)
def test_silent_for_one_value(value: str) -> None:
    assert found_in(f"kind: method\noven_temperature: {value}\n", RULE) == []


def test_silent_where_a_span_is_what_is_asked_for() -> None:
    span = "store_temperature: {lowest: 10 degC, highest: 45 degC}"
    assert found_in(f"kind: supply\n{span}\n", RULE) == []


def test_silent_for_words_in_a_title() -> None:
    assert found_in("kind: method\ntitle: about 35-40 degC, ambient\n", RULE) == []


@pytest.mark.parametrize(
    ("value", "instead"),
    [
        ("35-40 degC", "{value: 37.5 degC, tolerance: 2.5 degC}"),
        ("35 to 40 degC", "{value: 37.5 degC, tolerance: 2.5 degC}"),
        ("35\u201340 degC", "{value: 37.5 degC, tolerance: 2.5 degC}"),
        ("40 +/- 2 degC", "{value: 40 degC, tolerance: 2 degC}"),
        ("about 40 degC", "{value: 40 degC, tolerance: ...}"),
        ("~40 degC", "{value: 40 degC, tolerance: ...}"),
        ("<40 degC", "{value: 40 degC, tolerance: ...}"),
    ],
)
def test_the_value_with_its_tolerance_is_offered_and_not_taken(value: str, instead: str) -> None:
    report = report_on(f"kind: method\noven_temperature: {value}\n", RULE)
    (found,) = report.findings
    assert (found.grade, found.at.path) == ("fault", ("oven_temperature",))
    assert instead in found.remedy
    assert report.documents["page.yaml"].model.oven_temperature is None  # type: ignore[attr-defined]


@pytest.mark.parametrize("word", ["ambient", "RT", "room temperature"])
def test_a_word_is_no_value(word: str) -> None:
    (found,) = found_in(f"kind: method\noven_temperature: {word}\n", RULE)
    assert f'"{word}"' in found.message
