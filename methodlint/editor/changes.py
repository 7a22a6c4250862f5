"""Remedies that were seen to work, as edits of the lines of an editor."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterator, Sequence

from lsprotocol import types

from methodlint.editor.positions import TextLines
from methodlint.judging.finding import Candidate, Finding

__all__ = ["edits_between", "solved_findings"]

_LINES = re.compile(r"[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+\Z")
# Lines that are compared one by one; the work grows with their square.
_MOST_COMPARED = 4_000


def solved_findings(findings: Sequence[Finding]) -> Iterator[tuple[Finding, Candidate]]:
    """Yield findings with each change that was seen to clear them, consequences included.

    Work at the bench is left out: a card is edited after it is done.
    """
    for finding in findings:
        for solution in finding.solutions:
            if not solution.at_bench:
                yield finding, solution
        yield from solved_findings(finding.because)


def edits_between(old: TextLines, new: str) -> list[types.TextEdit]:
    """Give exchanges of whole lines that turn one text into another, in order."""
    if old.text.startswith("\ufeff") and not new.startswith("\ufeff"):
        new = "\ufeff" + new
    before, after = _LINES.findall(old.text), _LINES.findall(new)
    first = 0
    while first < min(len(before), len(after)) and before[first] == after[first]:
        first += 1
    last = 0
    while last < min(len(before), len(after)) - first and before[-1 - last] == after[-1 - last]:
        last += 1
    middle = before[first : len(before) - last], after[first : len(after) - last]
    steps: list[tuple[str, int, int, int, int]]
    steps = [("replace", 0, len(middle[0]), 0, len(middle[1]))]
    if sum(map(len, middle)) <= _MOST_COMPARED:
        steps = list(difflib.SequenceMatcher(None, *middle, autojunk=False).get_opcodes())
    return [
        types.TextEdit(
            types.Range(_start_of(old, first + begin), _start_of(old, first + end)),
            "".join(middle[1][new_begin:new_end]),
        )
        for what, begin, end, new_begin, new_end in steps
        if what != "equal"
    ]


def _start_of(lines: TextLines, number: int) -> types.Position:
    if number >= len(lines.lines):
        return lines.position(len(lines.lines), len(lines.lines[-1]) + 1)
    return types.Position(number, 0)
