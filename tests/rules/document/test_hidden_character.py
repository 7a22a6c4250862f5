"""Characters without a width or that turn the direction of writing: Unicode Standard, chapter 23
(from memory). Letters of any script, marks that combine, and spaces of any width are seen.
"""

from __future__ import annotations

import pytest

from tests.rules.document.pages import found_in

RULE = "document.hidden-character"


@pytest.mark.parametrize(
    "title",
    [
        "5 µm and 5 μm",
        "n\u0303 with a combining tilde",
        "purity\u00a0of batch 7",
        "עברית",
        "日本語",
    ],
    ids=[
        "both micro signs",
        "a combining mark",
        "a space that does not break",
        "right to left",
        "wide",
    ],
)
def test_silent_for_characters_that_are_seen(title: str) -> None:
    assert found_in(f"kind: method\ntitle: {title}\n", RULE) == []


def test_silent_for_the_mark_that_some_editors_put_in_front_of_a_file() -> None:
    assert found_in("\ufeffkind: method\ntitle: a\n", RULE) == []


def test_silent_for_one_that_is_written_out() -> None:
    assert found_in('kind: method\ntitle: "a\\u200bb"\n', RULE) == []


@pytest.mark.parametrize("character", ["\u200b", "\u202e", "\u2066"])
@pytest.mark.parametrize(
    ("text", "place"),
    [("title: a{}b", (2, 9)), ("flow: 1{} mL/min", (2, 8)), ("# note{}", (2, 7))],
)
def test_one_that_is_not_seen_is_named_by_its_number_at_its_place(
    character: str, text: str, place: tuple[int, int]
) -> None:
    (found,) = found_in(f"kind: method\n{text.format(character)}\n", RULE)
    assert found.grade == "caution"
    assert (found.at.place.line, found.at.place.column) == place
    assert f"\\u{ord(character):04x}" in found.message
    assert character not in found.message


def test_in_the_name_of_a_key_it_is_a_fault() -> None:
    """The key is another one than it looks like, so its value would not be used."""
    grades = {one.grade for one in found_in("kind: method\nfl\u200bow: 1 mL/min\n", RULE)}
    assert "fault" in grades
