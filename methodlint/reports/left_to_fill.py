"""Many places of one document that are left to be filled in, told as one finding."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from methodlint.documents.quantities.format import counted
from methodlint.documents.text.places import path_text
from methodlint.judging.finding import Finding
from methodlint.reports.lines import Line, Words, wrapped
from methodlint.reports.wording import spot

__all__ = ["divided_by_document", "left_lines"]

_RULE = "document.placeholder-left"
# A few are told one by one, with what to write at each.
_FEW = 3
_MOST_PLACES = 40


def divided_by_document(findings: Sequence[Finding]) -> Iterator[tuple[Finding, ...]]:
    """Divide findings into groups to be told together, in the order of their first ones.

    Parameters
    ----------
    findings
        What is to be told.

    Yields
    ------
    tuple of Finding
        One finding, or all places of a document with more than three places left to be filled in.
    """
    by_file: dict[tuple[str, str], list[Finding]] = {}
    for finding in findings:
        if finding.rule == _RULE:
            by_file.setdefault((finding.at.file, finding.grade), []).append(finding)
    for finding in findings:
        group = by_file.get((finding.at.file, finding.grade), []) if finding.rule == _RULE else []
        if len(group) <= _FEW:
            yield (finding,)
        elif finding is group[0]:
            yield tuple(group)


def left_lines(group: Sequence[Finding], indent: int, width: int) -> Iterator[Line]:
    """Lay out the places of one document that are left to be filled in."""
    first = group[0]
    places = [f"{path_text(found.at.path)} ({spot(found.at)})" for found in group]
    rest = len(places) - _MOST_PLACES
    said = ", ".join(places[:_MOST_PLACES]) + (f" and {rest} more" if rest > 0 else "")
    text = f"{counted(len(group), 'place')} of {first.at.file} are left to be filled in"
    yield from wrapped(Words(first.grade.upper(), first.grade), text, indent, width)
    yield from wrapped("  where", said, indent, width)
    yield from wrapped("  do", "write what is meant at each, or take the key out", indent, width)
    yield from wrapped("  rule", f"{_RULE} (methodlint why {_RULE})", indent, width)
