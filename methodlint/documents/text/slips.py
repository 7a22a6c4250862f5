"""Ordinary slips of people who write YAML by hand: a key, a colon and a value that are none.

Whoever misses something there looks here for what was written instead, so that the message can name
it and show the line as it should stand.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from methodlint.documents.text.visible import excerpt

# Signs that look like a colon. Source: Unicode Technical Standard 39, confusables (a selection,
# from memory).
_COLONS = "\uff1a\ufe55\ufe13\u2236\ua789"
COMMAS = "\uff0c\u3001\ufe50\u060c"
_DASHES = "\u2010\u2011\u2012\u2013\u2014\u2022\u00b7\u2043\u2212*"
QUOTES = "\u201c\u201d\u201e\u201f\u2018\u2019\u201a\u201b\u00ab\u00bb"

KEY = r"(?P<key>[^\W\d][\w /.()-]*?)"
_COLON_OF_ANOTHER_WIDTH = re.compile(rf"{KEY}\s*(?P<sign>[{_COLONS}])[ \t]*(?P<value>.*)")
_ODD_BLANK_BEHIND = re.compile(rf"{KEY}:(?P<sign>[^\S \t\r\n])\s*(?P<value>.*)")
# Behind the colon of an address or of a drive stands no value.
_NO_BLANK_BEHIND = re.compile(rf"{KEY}(?P<sign>:)(?P<value>[^\s:/\\].*)")
_EQUALS = re.compile(rf"{KEY}[ \t]*(?P<sign>:?=+>?)[ \t]*(?P<value>[^=\s].*)")
_DASH = re.compile(r"(?P<sign>-)(?P<value>[\w\"'{\[].*)")
_OTHER_DASH = re.compile(rf"(?P<sign>[{_DASHES}])\s*(?P<value>\S.*)")
_MERGED = re.compile(r"(?P<sign><{7}|={7}|>{7})(?:\s.*)?")
_COMMENT = re.compile(r"//|/\*|;")
# Characters of a line that are looked at: a slip shows at its beginning.
LONGEST = 400


@dataclass(frozen=True, slots=True)
class Slip:
    """What was written instead of what the parser missed.

    Attributes
    ----------
    index : int
        Where it stands in the text.
    message, remedy : str
        What is wrong, and what to write instead.
    """

    index: int
    message: str
    remedy: str


def slip_of_entry(entry: str) -> Slip | None:
    """Look at a text that should be a key, a colon and a value, or an item of a list."""
    entry = entry[:LONGEST]
    found = _MERGED.fullmatch(entry)
    if found is not None:
        return Slip(
            0, "a mark of two versions that were merged and not put in order",
            "keep one of the two versions, and take the lines with <<<<<<<, ======= and >>>>>>> out",
        )  # fmt: skip
    if _COMMENT.match(entry):
        return Slip(0, "this line is no comment", "write # in front of a comment")
    found = _COLON_OF_ANOTHER_WIDTH.fullmatch(entry)
    if found is not None:
        sign = found["sign"]
        return Slip(
            found.start("sign"), f"{sign} (U+{ord(sign):04X}) is not the colon of a keyboard",
            _as_entry(found),
        )  # fmt: skip
    found = _ODD_BLANK_BEHIND.fullmatch(entry)
    if found is not None:
        return Slip(
            found.start("sign"),
            f"{odd_blank(found['sign'])} follows the colon, not the blank of a keyboard",
            _as_entry(found),
        )
    found = _NO_BLANK_BEHIND.fullmatch(entry)
    if found is not None:
        return Slip(found.start("sign"), "no blank follows this colon", _as_entry(found))
    found = _EQUALS.fullmatch(entry)
    if found is not None:
        message = f"{excerpt(found['sign'])} stands where a colon and a blank are meant"
        return Slip(found.start("sign"), message, _as_entry(found))
    return slip_of_item(entry)


def slip_of_item(entry: str) -> Slip | None:
    """Look at a text that should be an item of a list, behind a dash and a blank."""
    entry = entry[:LONGEST]
    found = _DASH.match(entry)
    if found is not None:
        return Slip(0, "no blank follows this dash", _as_item(found["value"]))
    found = _OTHER_DASH.match(entry)
    if found is not None:
        sign = found["sign"]
        message = f"{sign} (U+{ord(sign):04X}) begins no item of a list"
        return Slip(0, message, _as_item(found["value"]))
    return None


def _as_item(value: str) -> str:
    first = re.match(rf"(?:(?! [-{_DASHES}]\S| [{_DASHES}] ).)*", value)
    assert first is not None
    return f"write each item in a line of its own: - {excerpt(first.group().strip())}"


def _as_entry(found: re.Match[str]) -> str:
    value = found["value"].strip()
    if value.count('"') % 2 or value.count("'") % 2 or re.search(r": |\s#", value):
        value = "..."
    return f"write {excerpt(found['key'])}: {excerpt(value)}".rstrip()


def odd_blank(character: str) -> str:
    """Name a blank that is not the one of a keyboard."""
    names = {"\u00a0": "a no-break blank", "\u3000": "a blank of double width"}
    return f"{names.get(character, 'an unusual blank')} (U+{ord(character):04X})"
