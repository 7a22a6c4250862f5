"""What single bytes and characters of a text may not be, found before it is parsed."""

from __future__ import annotations

import codecs
import re

from methodlint.documents.text.assembly import TOO_LARGE, UNREADABLE
from methodlint.documents.text.limits import Limits
from methodlint.documents.text.places import START, LineTable, Place
from methodlint.documents.text.problems import Problem
from methodlint.documents.text.visible import escape

# What the parser refuses, found here first so that its exact place is known.
_FORBIDDEN = re.compile(
    "[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]|[\ufffe\uffff]"
)
# The parser ends a line at these although no editor does, so a comment could hide a key behind one.
_UNSEEN_BREAK = re.compile("[\x85\u2028\u2029]")
# Characters that cannot be seen, or that reorder what can.
_UNSEEN = re.compile("[\u061c\u200b\u200e\u200f\u202a-\u202e\u2060\u2066-\u2069\ufeff]")
_ASCII_ALLOWED = bytes([0x09, 0x0A, 0x0D, *range(0x20, 0x7F)])
_PERCENT = re.compile("^%", re.MULTILINE)
_MOST_UNSEEN = 10
_WIDE = Problem(
    UNREADABLE, "fault", (), START, "the text is UTF-16 or UTF-32, not UTF-8", "save it as UTF-8"
)


def encoding_problem(bare: bytes, error: UnicodeDecodeError) -> Problem:
    """Explain bytes that are not UTF-8."""
    if bare.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)) or b"\x00" in bare[:4]:
        return _WIDE
    before = bare[: error.start].decode("utf-8")
    line, column = LineTable(before).position(len(before))
    message = f"the byte {bare[error.start]:#04x} is not UTF-8"
    western = bare[error.start : error.start + 1].decode("cp1252", "replace")
    if western.isprintable() and western != "\ufffd":
        message += f" (in the encoding of Western Europe it is {western})"
    place = Place(line, column, line, column + 1)
    return Problem(UNREADABLE, "fault", (), place, message, "save the file as UTF-8")


def refusal(text: str, lines: LineTable, limits: Limits) -> Problem | None:
    """Return the problem that keeps a text from being parsed at all, or None."""
    # Few characters are left when those that are surely allowed are out: that is quickly searched.
    rest = text.encode().translate(None, _ASCII_ALLOWED).decode()
    if _FORBIDDEN.search(rest) is not None:
        match = _FORBIDDEN.search(text)
        assert match is not None
        # Plain letters in two or four bytes each are UTF-8 too, as letters and NUL.
        if "\0" in text[:4] and text.count("\0") >= len(text) / 4:
            return _WIDE
        return Problem(
            UNREADABLE,
            "fault",
            (),
            lines.place(match.start(), match.end()),
            f"the control character {escape(match.group())} is not allowed in a document",
            "delete it, or write it as an escape in double quotation marks",
        )
    # The parser compares every directive with all before it.
    if text.count("%") <= limits.directives:
        return None
    for number, match in enumerate(_PERCENT.finditer(text)):
        if number >= limits.directives:
            return Problem(
                TOO_LARGE,
                "fault",
                (),
                lines.place(match.start(), match.end()),
                f"more than {limits.directives} lines start with %; the limit is "
                f"{limits.directives}",
                "indent such lines, or take them out",
            )
    return None


def unseen_characters(text: str, lines: LineTable) -> list[Problem]:
    """Report characters that make a text read otherwise than it looks, the first few of each kind."""
    if text.isascii():
        return []
    kinds = (
        (_UNSEEN_BREAK, "fault", "ends a line for some readers and not for others"),
        (_UNSEEN, "caution", "cannot be seen, and may reorder what can"),
    )
    problems = []
    for pattern, grade, what in kinds:
        for number, match in enumerate(pattern.finditer(text)):
            if number >= _MOST_UNSEEN:
                break
            problems.append(
                Problem(
                    "document.hidden-character",
                    grade,
                    (),
                    lines.place(match.start(), match.end()),
                    f"{escape(match.group())} {what}",
                    "delete it",
                    breaks=False,
                )
            )
    return problems
