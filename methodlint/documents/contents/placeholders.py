"""Texts and dates that only keep the place of what is still to be written."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator
from typing import Any

from methodlint.documents.contents.walk import parts, texts
from methodlint.documents.kinds.base import Document
from methodlint.documents.text.places import Path

_LEFT = re.compile(
    r"t\.?b\.?[dac]\.?|x{3,}|\?{2,}|to ?do|fix ?me|change ?me|fill (?:me )?in\b.*|to be (?:done|"
    r"defined|decided|confirmed|filled in)|<[^<>]*>|\[(?:name|date|serial|lot|id|tbd)\]",
    re.IGNORECASE,
)
_COPY = re.compile(r"copy of\b.*|.*[ -]copy(?: ?\(\d+\))?|untitled.*|new document", re.IGNORECASE)
_SERIAL = re.compile(
    r"(?:sn|s/n|no|nr|serial)?[-_ #.]*(?:0{3,}|1234(?:5\d*)?|x{2,})", re.IGNORECASE
)
FIRST_YEAR, LAST_YEAR = 1971, 2100
_FREE_TEXT = frozenset({"comment"})


def placeholders(document: Document, data: dict[str, Any]) -> Iterator[tuple[Path, str]]:
    """Find what is left to be filled in.

    Parameters
    ----------
    document : Document
        The typed document, for its dates.
    data : dict
        Its plain data, keys of the lab's own taken out.

    Yields
    ------
    tuple of Path and str
        Where, and the text as written.
    """
    for path, text in texts(data):
        if path and path[-1] in _FREE_TEXT:
            continue
        plain = text.strip()
        if (
            _LEFT.fullmatch(plain)
            or (path == ("title",) and _COPY.fullmatch(plain))
            or (path and path[-1] == "serial" and _SERIAL.fullmatch(plain))
        ):
            yield path, text
    for path, part in parts(document):
        for name in part.model_fields_set:
            value = getattr(part, name)
            if isinstance(value, datetime.date) and not FIRST_YEAR <= value.year <= LAST_YEAR:
                yield (*path, name), value.isoformat()[:10]
