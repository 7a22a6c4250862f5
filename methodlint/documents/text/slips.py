"""Ordinary slips of people who write YAML by hand: a key, a colon and a value that are none.

Whoever misses something there looks here for what was written instead, so that the message can name
it and show the line as it should stand.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from methodlint.documents.text.visible import excerpt

# Signs that look like a colon. Source: Unicode Technical Standard 39, confusables (a selection,
# from memory).
_COLONS = "\uff1a\ufe55\ufe13\u2236\ua789"
COMMAS = "\uff0c\u3001\ufe50\u060c"
_DASHES = "\u2010\u2011\u2012\u2013\u2014\u2022\u00b7\u2043\u2212*"
QUOTES = "\u201c\u201d\u201e\u201f\u2018\u2019\u201a\u201b\u00ab\u00bb"

KEY = r"(?P<key>[^\W\d][\w /.()-]*?)"
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


def _as_item(found: re.Match[str]) -> str:
    first = re.match(rf"(?:(?! [-{_DASHES}]\S| [{_DASHES}] ).)*", found["value"])
    assert first is not None
    return f"write each item in a line of its own: - {excerpt(first.group().strip())}"


def _as_entry(found: re.Match[str]) -> str:
    value = found["value"].strip()
    if value.count('"') % 2 or value.count("'") % 2 or re.search(r": |\s#", value):
        value = "..."
    return f"write {excerpt(found['key'])}: {excerpt(value)}".rstrip()


def odd_blank(character: str) -> str:
    """Name a blank that is not the one of a keyboard."""
    names = {"\u00a0": "a no-break space", "\u3000": "a space of double width"}
    return f"{names.get(character, 'an unusual space')} (U+{ord(character):04X})"


#: The beginning of a line, what is wrong with its sign, and the remedy or how it is made of the line.
Slips = tuple[tuple[re.Pattern[str], str, str | Callable[[re.Match[str]], str]], ...]

_OF_ITEMS: Slips = (
    (re.compile(r"(?P<sign>-)(?P<value>[\w\"'{\[].*)"), "no space follows this dash", _as_item),
    (re.compile(rf"(?P<sign>[{_DASHES}])\s*(?P<value>\S.*)"), "{code} begins no item of a list", _as_item),
)  # fmt: skip
_OF_ENTRIES: Slips = (
    (re.compile(r"(?P<sign><{7}|={7}|>{7})(?:\s.*)?\Z"), "a mark of two versions that were merged and not put in order", "keep one of the two versions, and take the lines with <<<<<<<, ======= and >>>>>>> out"),
    (re.compile(r"(?P<sign>//|/\*|;)"), "this line is no comment", "write # before a comment"),
    (re.compile(rf"{KEY}\s*(?P<sign>[{_COLONS}])[ \t]*(?P<value>.*)\Z"), "{code} is not the colon of a keyboard", _as_entry),
    (re.compile(rf"{KEY}:(?P<sign>[^\S \t\r\n])\s*(?P<value>.*)\Z"), "{blank} follows the colon, not the blank of a keyboard", _as_entry),
    # Behind the colon of an address or of a drive stands no value.
    (re.compile(rf"{KEY}(?P<sign>:)(?P<value>[^\s:/\\].*)\Z"), "no space follows this colon", _as_entry),
    (re.compile(rf"{KEY}[ \t]*(?P<sign>:?=+>?)[ \t]*(?P<value>[^=\s].*)\Z"), "{sign} is written where a colon and a space are meant", _as_entry),
    *_OF_ITEMS,
)  # fmt: skip


def slip_of_entry(entry: str) -> Slip | None:
    """Look at a text that should be a key, a colon and a value, or an item of a list."""
    return _first_slip(entry, _OF_ENTRIES)


def slip_of_item(entry: str) -> Slip | None:
    """Look at a text that should be an item of a list, after a dash and a space."""
    return _first_slip(entry, _OF_ITEMS)


def _first_slip(entry: str, table: Slips) -> Slip | None:
    entry = entry[:LONGEST]
    for pattern, message, remedy in table:
        found = pattern.match(entry)
        if found is not None:
            sign = found["sign"]
            said = message.format(
                sign=excerpt(sign),
                code=f"{sign} (U+{ord(sign[0]):04X})",
                blank=odd_blank(sign[0]),
            )
            return Slip(
                found.start("sign"), said, remedy if isinstance(remedy, str) else remedy(found)
            )
    return None
