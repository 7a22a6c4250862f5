"""Names lead to cards that are there: common practice, no source. Beside the page lie the cards
`column`, `instrument`, `method`, `supply`, ... of the sound lab. Letters apart: counted by hand.
"""

from __future__ import annotations

import pytest

from tests.rules.document.pages import found_in

RULE = "document.reference-unresolved"


def test_silent_for_cards_that_are_there() -> None:
    assert found_in("kind: method\ncolumn: column\nruns_on: [instrument]\n", RULE) == []


def test_silent_for_a_reference_that_is_not_made() -> None:
    assert found_in("kind: method\ntitle: no column yet\n", RULE) == []


def test_silent_for_a_name_that_is_left_to_be_filled_in_which_is_said_elsewhere() -> None:
    assert found_in("kind: method\ncolumn: TBD\n", RULE) == []


@pytest.mark.parametrize(
    ("name", "apart"), [("colum", "1 letter"), ("clolumn", "1 letter"), ("Column", "1 letter")]
)
def test_a_name_that_is_nearly_right_is_offered(name: str, apart: str) -> None:
    (found,) = found_in(f"kind: method\ncolumn: {name}\n", RULE)
    assert (found.grade, found.at.path) == ("fault", ("column",))
    assert f"column ({apart} apart)" in found.remedy


def test_without_a_near_name_those_that_are_there_are_named() -> None:
    (found,) = found_in("kind: method\nruns_on: [instrument, far-away]\n", RULE)
    assert found.at.path == ("runs_on", 1)
    assert found.remedy.endswith("instrument")


@pytest.mark.parametrize("name", ["../column", "columns/column", "column.yaml"])
def test_a_name_is_no_path(name: str) -> None:
    assert len(found_in(f"kind: method\ncolumn: {name}\n", RULE)) == 1


def test_a_name_on_many_lines_is_reported_once_at_the_first() -> None:
    lines = "  - {kind: blank, method: methd}\n" * 3
    (found,) = found_in(f"kind: sequence\nlines:\n{lines}", RULE)
    assert found.at.path == ("lines", 0, "method")
