"""Put the parser's complaint about a text that is no YAML into a chemist's words."""

from __future__ import annotations

import re
from typing import Any

from methodlint.documents.text.assembly import UNREADABLE
from methodlint.documents.text.places import LineTable
from methodlint.documents.text.problems import Problem
from methodlint.documents.text.slips import Slip
from methodlint.documents.text.slips_nearby import (
    line_start,
    slip_at_colon,
    slip_behind_value,
    slip_in_brackets,
    slip_inside_brackets,
    slip_of_line,
)
from methodlint.documents.text.visible import escape, excerpt, is_hidden

# The parser looks no further for the colon.
_LONG_KEY = re.compile(r"[ \t-]*[^\r\n:]{1025,}:")


_MAPPING = "block mapping|block collection|simple key"

# The first row that fits: what the parser says (of tabs it "violates", or stands where one is expected),
# while parsing what, at which sign that is the first of its line ("first" for any, "after" for none),
# message, remedy, and whether the place is where the construct was opened.
_SENTENCES = (
    ("did not find expected key", "", ":", "a key is missing before the colon", "write one, or take the line out", False),
    ("mapping values are not allowed", "", "", "a second colon in one value, or a key that does not line up with its neighbours", 'quote a value that holds ": "; give keys of one level the same number of spaces', False),
    ("unexpected ':'", "", "", "a colon inside brackets or braces that no space follows", "write a space after the colon of a key; quote a value that holds a colon", False),
    ("tab character.*indentation|indentation.*tab character", "", "", "a tab indents this line", "indent with spaces, never with tabs", False),
    ("expected <document start>", "", "", "this line is indented less than the first line of the document", "begin all keys of the document at the same column, best at the first", False),
    ("block sequence entries are not allowed", "", "", "a dash after a key begins no list in the same line", 'write each item in a line of its own below the key, as "- item"; no dash for no value', False),
    ("mapping keys are not allowed", "", "", "a lone question mark is no value", "write the value, or take the key out; put a text in quotation marks", False),
    ("end of stream|document indicator", "quoted scalar", "", "a quotation mark is opened here and never closed", "close it", True),
    ("", "quoted scalar", "", "a backslash inside quotation marks starts no known escape", "write two backslashes, or use single quotation marks", False),
    ("", "flow sequence", "", "a square bracket is opened here and not closed", "close it with ]", True),
    ("", "flow mapping", "", "a brace is opened here and not closed", "close it with }", True),
    ("expected '-' indicator", "", "first", "a key is written where the list above goes on with a dash", "begin the line with a dash and a space, or indent the key as those of the item above", False),
    ("expected key", "block mapping", "-", "a dash is written among keys that line up with it", "indent the dash further than the key that the list belongs to, or write a key", False),
    ("could not find expected ':'", _MAPPING, "", "a line that is neither a key with a colon nor the rest of a value", 'write "key: value", with a space; indent what goes on with the value above', True),
    ("", _MAPPING, "after", "something follows a value that is finished, or a second & or ! a first", "put the whole value in quotation marks", False),
    ("", _MAPPING, "", "this line does not line up with the lines above it", "give all keys of one mapping, and all dashes of one list, the same number of spaces", False),
    ("line break|indicator", "block scalar", "", "a value that begins with | or > holds the lines below it, and nothing else in its line", "put the value in quotation marks, or begin the text in the next line", True),
    ("", "block scalar", "", "the lines of a text block are not indented alike", "indent them alike", False),
    ("", "alias|anchor", "", "a name is missing after & or *", "put the value in quotation marks", False),
    ("", "directive", "", "a line cannot start with %, which begins a directive", "take it out; a comment starts with #", True),
    ("", "tag", "", "a tag (!) that cannot be read", "take it out, or put a text that starts with ! in quotation marks", True),
)  # fmt: skip


def syntax_problem(error: Any, text: str, lines: LineTable) -> Problem:
    """Make one problem of a parser's exception.

    Parameters
    ----------
    error : ruamel.yaml.error.YAMLError
        What the parser raised.
    text : str
        The text that was parsed.
    lines : LineTable
        Its lines.
    """
    index = _index(getattr(error, "problem_mark", None), len(text))
    said = str(getattr(error, "problem", None) or "")
    context = str(getattr(error, "context", None) or "")
    opened = getattr(error, "context_mark", None)
    if "mapping values" in said or "expected ':'" in said:
        start = line_start(text, _index(opened, index) if opened is not None else index)
        if _LONG_KEY.match(text, start):
            message = "a key of more than 1024 characters"
            return _unreadable(lines, start, message, "shorten it; a long text is a value")
    slip = _slip(said, context, text, index, None if opened is None else _index(opened, index))
    if slip is not None:
        return _unreadable(lines, slip.index, slip.message, slip.remedy)
    message, remedy, at_opening = _words(said, context, text, index)
    if at_opening and opened is not None:
        start = _index(opened, len(text))
        end_line = lines.position(index)[0]
        if end_line > lines.position(start)[0]:
            remedy = f"{remedy}; reading stopped at line {end_line}"
        return _unreadable(lines, start, message, remedy)
    return _unreadable(lines, index, message, remedy)


def _unreadable(lines: LineTable, index: int, message: str, remedy: str) -> Problem:
    return Problem(UNREADABLE, "fault", (), lines.place(index, index + 1), message, remedy)


def _index(mark: Any, length: int) -> int:
    return min(max(int(getattr(mark, "index", length)), 0), length)


def _slip(said: str, context: str, text: str, index: int, opened: int | None) -> Slip | None:
    """Look for what was written instead of what the parser missed."""
    if "mapping values" in said:
        return slip_at_colon(text, index)
    if opened is None:
        return None
    if "unexpected ':'" in said:
        return slip_inside_brackets(text, opened)
    if "expected ':'" in said:
        return slip_of_line(text, line_start(text, opened))
    if "flow" in context:
        return slip_in_brackets(text, opened, index)
    if context == "while parsing a block mapping" and "expected key" in said:
        return slip_behind_value(text, index)
    return None


def _words(said: str, context: str, text: str, index: int) -> tuple[str, str, bool]:
    character = text[index : index + 1]
    if "cannot start any token" in said:
        return *_bad_start(character, text, index), False
    before = text[line_start(text, index) : index].strip(" -?")
    places = ("", "after") if before else ("", "first", character)
    for problem, construct, place, message, remedy, at_opening in _SENTENCES:
        if place in places and re.search(problem, said) and re.search(construct, context):
            return message, remedy, at_opening
    phrase = excerpt(said or type(said).__name__, 80)
    return (
        f"the text is no YAML at this place ({phrase})",
        "compare the line with one of a sound document",
        False,
    )


def _bad_start(character: str, text: str, index: int) -> tuple[str, str]:
    if character == "\t":
        return "a tab indents this line", "indent with spaces, never with tabs"
    if "\t" in text[text.rfind("\n", 0, index) + 1 : index]:
        return "a tab is before this value", "use spaces, never tabs"
    shown = escape(character) if character and is_hidden(character) else character
    share = re.match(r"%[ \t]*(?P<number>[0-9]+(?:[.,][0-9]+)?)", text[index : index + 80])
    if share is not None:
        number = share["number"].replace(",", ".")
        remedy = f'write the number first, and what the share is of: "{number} % v/v"'
        return "a value cannot start with %", f"{remedy} (or % w/w, % mol)"
    return (
        f"a value cannot start with {shown}" if shown else "the text ends too early",
        "put the value in quotation marks",
    )
