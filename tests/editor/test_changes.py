"""Edits turn one text into another, whatever its line ends."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from methodlint.editor.changes import edits_between
from methodlint.editor.positions import TextLines
from tests.editor.session import Editor

LINES = st.lists(st.sampled_from(["a: 1", "b: 😀", "c:", ""]), max_size=12)
ENDS = st.sampled_from(["\n", "\r\n", "\r"])


def applied(old: str, new: str, encoding: str) -> str:
    editor = Editor(None, encoding)  # type: ignore[arg-type]
    editor.texts[Path("a")] = old
    return editor.applied(Path("a"), edits_between(TextLines(old, encoding), new))


@pytest.mark.parametrize("encoding", ["utf-8", "utf-16", "utf-32"])
@given(old=LINES, new=LINES, end=ENDS, last=st.booleans(), new_last=st.booleans())
def test_the_edits_give_the_new_text(
    encoding: str, old: list[str], new: list[str], end: str, last: bool, new_last: bool
) -> None:
    before = end.join(old) + (end if last else "")
    after = end.join(new) + (end if new_last else "")
    assert applied(before, after, encoding) == after


def test_a_byte_order_mark_stays() -> None:
    assert applied("\ufeffa: 1\nb: 2\n", "a: 3\nb: 2\n", "utf-16") == "\ufeffa: 3\nb: 2\n"


def test_lines_that_stay_are_not_touched() -> None:
    old = TextLines("a: 1\nb: 2\nc: 3\nd: 4\n", "utf-16")
    edits = edits_between(old, "a: 9\nb: 2\nc: 3\nd: 8\n")
    assert [edit.range.start.line for edit in edits] == [0, 3]
    assert [edit.new_text for edit in edits] == ["a: 9\n", "d: 8\n"]
