"""What YAML 1.2 refuses, or reads in another way, and the parser lets pass.

The cases are those of the public YAML test suite that the parser gets wrong; their ids stand
beside each function. What is refused here would mean something else to another reader.
"""

from __future__ import annotations

import re
from functools import lru_cache

from methodlint.documents.text.slips import Slip

__all__ = ["block_text_slip", "comment_slip", "cut_anchor_slip", "key_mark_slip", "line_slip"]

_HEADER = re.compile(r"[|>](?P<marks>[-+0-9]*)(?P<blank>[ \t]*)(?P<comment>#?)[^\r\n]*")
_BLANK_LINES = re.compile(r"(?:\r\n|\r|\n)(?: *(?:\r\n|\r|\n))*")
_ANCHOR = re.compile(r"(?:![^\s,\[\]{}]*\s+(?:#[^\r\n]*\s+)*)?[&*](?P<name>[^\s,\[\]{}]*)")
_KEY = re.compile(r"[\w-]+:(?:\s|\Z)")
_LINE_END = re.compile(r"[\r\n]")
_CLOSING = ("]", "}")


def comment_slip(text: str, start: int, end: int) -> Slip | None:
    """Look for a comment that no blank divides from what stands before it (SU5Z, 9JBA, CVW2).

    Parameters
    ----------
    start, end : int
        Where one token ends and the next begins.
    """
    at = text.find("#", start, end)
    if at > 0 and text[at - 1] not in " \t\r\n\ufeff":
        return Slip(at, "a comment begins right after a value", "put a space before #")
    return None


def key_mark_slip(text: str, start: int) -> Slip | None:
    """Look for a question mark that belongs to the key behind it (652Z)."""
    if start > 0 and text[start - 1] == "?":
        message = "there is a question mark right before a key"
        return Slip(start - 1, message, "put the whole key in quotation marks")
    return None


def cut_anchor_slip(text: str, start: int, anchor: str) -> Slip | None:
    """Look for an anchor whose name goes on where the parser ends it (Y2GN)."""
    match = _ANCHOR.match(text, start)
    if match is None or match["name"] == anchor:
        return None
    message = f"the name of an anchor holds other signs than letters, digits, - and _: {anchor}..."
    return Slip(match.start("name"), message, "give it a plain name, or quote the value")


def block_text_slip(text: str, start: int, least: int) -> Slip | None:
    """Look at the lines of a text that begins with | or > (X4QW, S98Z).

    Parameters
    ----------
    least : int
        Blanks that its lines begin with at least.
    """
    header = _HEADER.match(text, start)
    if header is None:
        return None
    if header["comment"] and not header["blank"]:
        return Slip(header.start("comment"), "a comment begins right after | or >",
                    "put a space before #")  # fmt: skip
    if any(mark.isdigit() for mark in header["marks"]):
        return None
    blank = _BLANK_LINES.match(text, header.end())
    if blank is None:
        return None
    first = blank.end()
    indent = _blanks(text, first)
    longest = max(len(line) for line in re.split(r"\r\n|\r|\n", blank[0]))
    if first + indent >= len(text) or indent < least or longest <= indent:
        return None
    message = "an empty line above the first line of a text has more spaces than that line"
    return Slip(first, message, "take the spaces out of the empty line")


def line_slip(text: str, start: int, end: int, least: int, *, brackets: bool) -> Slip | None:
    """Look for a line that goes on with a value and is not indented (9C9N, QB6E, DK95/01).

    A line that begins with a closing bracket or brace is let be: many people put it under the
    key, and it cannot mean anything else.

    Parameters
    ----------
    start, end : int
        Of the value, in quotation marks or in brackets.
    least : int
        Blanks that a line begins with at least; a tab is none.
    brackets : bool
        Whether it stands in brackets, where comments stand as they like.
    """
    for match in _shallow(least).finditer(text, start, end):
        first = match.end()
        rest = text[first : _line_end(text, first)].strip()
        if not rest or (brackets and rest.startswith(("#", *_CLOSING))):
            continue
        if text[first] == "\t":
            return Slip(first, "a tab indents this line", "indent with spaces, never with tabs")
        if not brackets and _KEY.match(rest):
            message = "the quotation mark that is opened here is not closed in its line"
            return Slip(start, message, "close it at the end of the value")
        message = "this line goes on with a value and is not indented further than its key"
        return Slip(first, message, "indent it further than the key")
    return None


@lru_cache(maxsize=128)
def _shallow(least: int) -> re.Pattern[str]:
    return re.compile(rf"(?:\r\n|\r|\n) {{0,{least - 1}}}(?![ \r\n])")


def _blanks(text: str, start: int) -> int:
    end = start
    while text.startswith(" ", end):
        end += 1
    return end - start


def _line_end(text: str, start: int) -> int:
    match = _LINE_END.search(text, start)
    return match.start() if match is not None else len(text)
