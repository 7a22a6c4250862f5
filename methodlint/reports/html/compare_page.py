"""A comparison of two reports as a page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from methodlint.reports.base_report import Mark
from methodlint.reports.card.contents import PREDICTED
from methodlint.reports.consequences_compared import ComparedConsequences, SubjectChange
from methodlint.reports.html.element import Element, element
from methodlint.reports.html.pieces import rows_element, table_element
from methodlint.reports.html.shell import Mood, banner, whole_page
from methodlint.reports.wording import counted

__all__ = ["compare_page"]

_MOODS: dict[str, Mood] = {"clear to run": "good", "run with care": "care"}
_HEADERS = ("figure", "before", "after", "difference")


def compare_page(comparison: ComparedConsequences) -> str:
    """Write a comparison as a page that stands alone: verdicts, findings, then figures."""
    return whole_page("Two states compared", _parts(comparison))


def _parts(comparison: ComparedConsequences) -> Iterator[Element]:
    old, new = comparison.verdicts
    said = f"{old.upper()}, as before" if old == new else f"{old.upper()} -> {new.upper()}"
    yield element("p", PREDICTED, class_="small")
    yield element("h1", "Two states compared")
    yield banner(
        _MOODS.get(new, "stop"), said, f"{counted(comparison.staying, 'finding')} unchanged"
    )
    for heading, marks in (
        ("Appears", comparison.appearing),
        ("Gets worse", comparison.worse),
        ("Vanishes", comparison.vanishing),
    ):
        yield from _marks(heading, marks)
    if comparison.documents:
        yield element("h2", "Documents")
        yield rows_element([(word, path) for path, word in comparison.documents])
    yield element("h2", "Consequences")
    if not comparison.moving:
        yield element("p", "No figure of a run or a sequence changes.")
    for subject in comparison.moving:
        yield from _subject(subject)


def _marks(heading: str, marks: Iterable[Mark]) -> Iterator[Element]:
    marks = list(marks)
    if marks:
        yield element("h2", heading)
    for mark in marks:
        yield element(
            "article",
            element("p", element("span", mark.grade, class_="class")),
            element("p", mark.message),
            element("p", f"{mark.path}, line {mark.line} [{mark.rule}]", class_="small"),
            class_=f"finding {mark.grade}",
        )


def _subject(subject: SubjectChange) -> Iterator[Element]:
    yield element("h3", subject.subject)
    if subject.only == "old":
        yield element("p", "no longer there")
        return
    if subject.why:
        yield element("p", subject.why)
    rows = [
        (
            change.quantity.words,
            "new" if subject.only else change.words(change.old),
            change.words(change.new),
            "-" if subject.only else change.difference or "-",
        )
        for change in subject.moving
    ]
    if rows:
        yield table_element(_HEADERS, rows, unseen=subject.subject)
