"""Put the parser's complaint about a text that is no YAML into a chemist's words."""

from __future__ import annotations

import re
from typing import Any

from methodlint.documents.assembly import UNREADABLE
from methodlint.documents.places import LineTable
from methodlint.documents.problems import Problem
from methodlint.documents.visible import escape, excerpt, is_hidden

# The parser looks no further for the colon.
_LONG_KEY = re.compile(r"[ \t-]*[^\r\n:]{1025,}:")


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
        start = _line_start(text, _index(opened, index) if opened is not None else index)
        if _LONG_KEY.match(text, start):
            return Problem(
                UNREADABLE, "fault", (), lines.place(start, start + 1),
                "a key of more than 1024 characters", "shorten it; a long text is a value",
            )  # fmt: skip
    message, remedy, at_opening = _words(said, context, text, index)
    if at_opening and opened is not None:
        start = _index(opened, len(text))
        end_line = lines.position(index)[0]
        return Problem(
            UNREADABLE, "fault", (), lines.place(start, start + 1),
            message, f"{remedy}; reading stopped at line {end_line}",
        )  # fmt: skip
    return Problem(UNREADABLE, "fault", (), lines.place(index, index + 1), message, remedy)


def _index(mark: Any, length: int) -> int:
    return min(max(int(getattr(mark, "index", length)), 0), length)


def _line_start(text: str, index: int) -> int:
    return max(text.rfind("\n", 0, index), text.rfind("\r", 0, index)) + 1


def _words(said: str, context: str, text: str, index: int) -> tuple[str, str, bool]:
    character = text[index : index + 1]
    if "cannot start any token" in said:
        return *_bad_start(character, text, index), False
    before = text[_line_start(text, index) : index].strip(" -?")
    if "did not find expected key" in said and character == ":" and not before:
        return "a key is missing before the colon", "write one, or take the line out", False
    if "mapping values are not allowed" in said:
        return (
            "a second colon in one value, or a key that does not line up with its neighbours",
            'quote a value that holds ": "; give keys of one level the same number of blanks',
            False,
        )
    if "quoted scalar" in context:
        if "end of stream" in said or "document indicator" in said:
            return "a quotation mark is opened here and never closed", "close it", True
        return (
            "a backslash inside quotation marks starts no known escape",
            "write two backslashes, or use single quotation marks",
            False,
        )
    if "flow sequence" in context:
        return "a square bracket is opened here and not closed", "close it with ]", True
    if "flow mapping" in context:
        return "a brace is opened here and not closed", "close it with }", True
    if "block mapping" in context or "block collection" in context or "simple key" in context:
        if "could not find expected ':'" in said:
            return (
                "a line that is neither a key with a colon nor the rest of a value",
                'write "key: value"; a blank follows the colon',
                True,
            )
        if before:
            return (
                "something follows a value that is finished, or a second & or ! a first",
                "put the whole value in quotation marks",
                False,
            )
        return (
            "this line does not line up with the lines above it",
            "give all keys of one mapping, and all dashes of one list, the same number of blanks",
            False,
        )
    if "block scalar" in context:
        return "the lines of a text block are not indented alike", "indent them alike", False
    if "alias" in context or "anchor" in context:
        return "a name is missing behind & or *", "put the value in quotation marks", False
    if "tag" in context or "directive" in context:
        return "a tag or directive that cannot be read", "take it out", False
    phrase = excerpt(said or type(said).__name__, 80)
    return f"the text is no YAML at this place ({phrase})", "Compare with a sound document.", False


def _bad_start(character: str, text: str, index: int) -> tuple[str, str]:
    if character == "\t":
        return "a tab indents this line", "indent with blanks, never with tabs"
    if "\t" in text[text.rfind("\n", 0, index) + 1 : index]:
        return "a tab stands before this value", "use blanks, never tabs"
    shown = escape(character) if character and is_hidden(character) else character
    return (
        f"a value cannot start with {shown}" if shown else "the text ends too early",
        "put the value in quotation marks",
    )
