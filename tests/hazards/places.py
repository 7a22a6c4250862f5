"""Five hundred faults planted where this file itself counts the line and the column."""

from __future__ import annotations

from methodlint.documents.text.reader import read_text
from tests.documents.test_reader_places import planted

COUNT = 500


def places_right() -> tuple[int, int, int]:
    """How many faults were planted, how many lines are right, how many columns too.

    Line ends of three kinds, emoji, tabs, flow style; every second with a byte-order mark.
    """
    lines = columns = 0
    for seed in range(COUNT):
        text, rule, (line, column) = planted(seed)
        data = (b"\xef\xbb\xbf" if seed % 2 else b"") + text.encode()
        found = [p.place for p in read_text(data, "planted.yaml").problems if p.rule == rule]
        lines += any(place.line == line for place in found)
        columns += any((place.line, place.column) == (line, column) for place in found)
    return COUNT, lines, columns
