"""A comparison of two reports in words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from methodlint.reports.base_report import Mark
from methodlint.reports.consequences_compared import ComparedConsequences, SubjectChange
from methodlint.reports.lines import Line, Words, line, wrapped
from methodlint.reports.wording import counted

_INDENT = 9
_LABEL = 40


def comparison_lines(comparison: ComparedConsequences, width: int = 96) -> Iterator[Line]:
    """Lay a comparison out: verdicts, documents, findings, then figures of runs and batches."""
    old, new = comparison.verdicts
    said = f"{old.upper()}, as before" if old == new else f"{old.upper()} -> {new.upper()}"
    yield line(Words(said, "head"))
    for path, word in comparison.documents:
        yield from wrapped(f"  {word}", path, _INDENT + 2, width)
    yield from _marks("APPEARS", comparison.appearing, width)
    yield from _marks("GETS WORSE", comparison.worse, width)
    yield from _marks("VANISHES", comparison.vanishing, width)
    yield []
    yield line(f"{counted(comparison.staying, 'finding')} unchanged")
    yield []
    yield [Words("CONSEQUENCES", "head"), Words(" predicted; verify on the instrument")]
    if not comparison.moving:
        yield line("  no figure of a run or a sequence changes")
    for subject in comparison.moving:
        yield from _subject(subject, width)


def _marks(heading: str, marks: Iterable[Mark], width: int) -> Iterator[Line]:
    marks = list(marks)
    if not marks:
        return
    yield []
    yield [Words(heading, "head")]
    for mark in marks:
        text = f"{mark.message} ({mark.path}, line {mark.line}) [{mark.rule}]"
        tone = mark.grade if mark.grade in ("stop", "fault", "caution", "note") else "plain"
        yield from wrapped(Words(mark.grade, tone), text, _INDENT, width)  # type: ignore[arg-type]


def _subject(subject: SubjectChange, width: int) -> Iterator[Line]:
    if subject.only == "old":
        yield from wrapped("  ", f"{subject.subject}: no longer there", 2, width)
        return
    new = ": new" if subject.only == "new" else ""
    yield from wrapped("  ", f"{subject.subject}{new}", 2, width)
    if subject.why:
        yield from wrapped("    ", subject.why, 4, width)
    for change in subject.moving:
        text = change.words(change.new)
        if not subject.only:
            text = f"{change.words(change.old)} -> {text}"
            text += f" ({change.difference})" if change.difference else ""
        yield from wrapped(f"    {change.quantity.words}", text, _LABEL, width)
