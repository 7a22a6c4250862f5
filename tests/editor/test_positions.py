"""Positions in the units of the Language Server Protocol 3.17."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lsprotocol.types import Position

from methodlint.documents.text.places import LineTable, Place
from methodlint.editor.positions import TextLines
from tests.editor.session import index_of, units

ENCODINGS = ("utf-8", "utf-16", "utf-32")
TEXTS = st.text(st.sampled_from("ab \r\n\tä€😀𐐀\u0301\u2028\x0b\x85"), max_size=40)


@pytest.mark.parametrize(
    ("encoding", "offset"),
    # Language Server Protocol 3.17, "Position": in a𐐀b, b stands at 3 in UTF-16 code units;
    # 5 and 2 follow from the four bytes and the one code point of U+10400.
    [("utf-16", 3), ("utf-8", 5), ("utf-32", 2)],
)
def test_the_specifications_own_example(encoding: str, offset: int) -> None:
    lines = TextLines("a𐐀b", encoding)
    assert lines.position(1, 3) == Position(0, offset)
    assert lines.column(Position(0, offset)) == (1, 3)


@pytest.mark.parametrize("encoding", ENCODINGS)
@given(text=TEXTS, data=st.data())
def test_places_of_the_reader_become_the_positions_of_editors(
    encoding: str, text: str, data: st.DataObject
) -> None:
    # Between the two characters of a line end no position can stand.
    places = [i for i in range(len(text) + 1) if text[max(i - 1, 0) : i + 1] != "\r\n"]
    index = data.draw(st.sampled_from(places))
    line, column = LineTable(text).position(index)
    lines = TextLines(text, encoding)
    found = lines.position(line, column)
    assert lines.column(found) == (line, column)
    assert index_of(text, found, encoding) == index


@pytest.mark.parametrize("encoding", ENCODINGS)
@given(text=TEXTS, line=st.integers(1, 60), column=st.integers(1, 60))
def test_what_lies_behind_the_text_is_cut_to_it(
    encoding: str, text: str, line: int, column: int
) -> None:
    lines = TextLines(text, encoding)
    at = lines.position(line, column)
    assert at.line < len(lines.lines)
    assert at.character <= units(lines.lines[at.line], encoding)
    end = lines.column(Position(line, column))
    assert end[0] <= len(lines.lines)
    assert end[1] <= len(lines.lines[end[0] - 1]) + 1


def test_a_byte_order_mark_counts_for_editors_only() -> None:
    lines = TextLines("\ufeffkind: x\nb: c", "utf-16")
    assert lines.position(1, 1) == Position(0, 1)
    assert lines.column(Position(0, 0)) == (1, 1)
    assert lines.column(Position(0, 1)) == (1, 1)
    assert lines.position(2, 1) == Position(1, 0)


def test_a_place_without_an_extent_can_be_seen() -> None:
    lines = TextLines("length: [", "utf-16")
    found = lines.range_of(Place(1, 10, 1, 10))
    assert (found.start, found.end) == (Position(0, 8), Position(0, 9))


def test_half_a_pair_of_surrogates_is_one_unit() -> None:
    assert TextLines("a\ud83db", "utf-16").position(1, 3) == Position(0, 2)
