"""A value, a list or a mapping, as the kind wants it: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.document.pages import found_in

RULE = "document.shape-wrong"


@pytest.mark.parametrize("text", ["programme: []", "programme: null", "programme: [{time: 0 min}]"])
def test_silent_for_a_list_without_rows_or_with_all_that_a_row_must_have(text: str) -> None:
    assert found_in(f"kind: method\n{text}\n", RULE) == []


def test_silent_for_the_two_shapes_that_a_key_takes() -> None:
    for text in ("column: column", "column: [guard, column]"):
        assert found_in(f"kind: method\n{text}\n", RULE) == []
    for text in ("modifier: methanol", "modifier: {liquid: methanol}"):
        assert found_in(f"kind: method\nmobile_phase: {{{text}}}\n", RULE) == []


def test_silent_for_any_shape_under_a_key_of_the_lab() -> None:
    assert found_in("kind: method\nx-shelf: [{a: [1]}]\n", RULE) == []


def test_a_row_without_its_time_says_what_is_missing() -> None:
    (found,) = found_in("kind: method\nprogramme: [{time: 0 min}, {flow: 1 mL/min}]\n", RULE)
    assert (found.grade, found.at.path) == ("fault", ("programme", 1))
    assert "'time'" in found.message
    assert found.remedy == "add 'time:'"


@pytest.mark.parametrize(
    ("text", "path", "wanted"),
    [
        ("programme: {time: 0 min}", ("programme",), "a list"),
        ("runs_on: instrument", ("runs_on",), "a list"),
        ("title: [a]", ("title",), "one value"),
        ("column: {name: column}", ("column",), "one value"),
        ("expected_peaks: [a]", ("expected_peaks", 0), "a mapping"),
    ],
)
def test_the_shape_that_is_wanted_is_named(
    text: str, path: tuple[str | int, ...], wanted: str
) -> None:
    (found,) = found_in(f"kind: method\n{text}\n", RULE)
    assert (found.grade, found.at.path) == ("fault", path)
    assert wanted in found.message


def test_a_single_word_is_offered_as_a_list_of_one() -> None:
    (found,) = found_in("kind: method\nruns_on: instrument\n", RULE)
    assert found.remedy == "write [instrument]"
