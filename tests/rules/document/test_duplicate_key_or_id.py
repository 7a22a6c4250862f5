"""Keys of a mapping are unique: YAML Ain't Markup Language 1.2.2, section 3.2.1.1."""

from __future__ import annotations

import pytest

from tests.rules.document.pages import found_in

RULE = "document.duplicate-key-or-id"


def test_silent_for_the_same_key_in_two_rows() -> None:
    rows = "  - {time: 0 min, flow: 1 mL/min}\n  - {time: 1 min, flow: 2 mL/min}\n"
    assert found_in(f"kind: method\nprogramme:\n{rows}", RULE) == []


def test_silent_for_a_value_that_is_written_twice() -> None:
    assert found_in("kind: method\ntitle: flow\ncomment: flow\n", RULE) == []


def test_silent_for_a_merged_key_that_is_written_again() -> None:
    """A key of its own goes before a merged one: the merge key of YAML 1.1 (from memory)."""
    assert found_in("kind: method\nx-a: &a {b: 1}\nx-b: {<<: *a, b: 2}\n", RULE) == []


@pytest.mark.parametrize(
    ("text", "place", "path"),
    [
        ("flow: 1 mL/min\nrun_length: 8 min\nflow: 2 mL/min\n", (4, 1), ("flow",)),
        ('flow: 1 mL/min\n"flow": 1 mL/min\n', (3, 1), ("flow",)),
        ("injection: {mode: a, mode: b}\n", (2, 22), ("injection", "mode")),
        ("x-shelf: 1\nx-shelf: 2\n", (3, 1), ("x-shelf",)),
    ],
    ids=["apart", "quoted and equal", "inside a mapping", "of the lab's own"],
)
def test_the_second_one_is_found_and_the_line_of_the_first_named(
    text: str, place: tuple[int, int], path: tuple[str, ...]
) -> None:
    (found,) = found_in(f"kind: method\n{text}", RULE)
    assert (found.grade, found.at.path) == ("fault", path)
    assert (found.at.place.line, found.at.place.column) == place
    assert "line 2" in found.message
