"""The report as a short page of markdown, for a comment on a change.

Comments on code hosts hold 65,536 characters (public documentation; unverified); the page stays
below that, worst first, and says how much it left out.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from methodlint.checking.report import Report
from methodlint.documents.text.places import path_text
from methodlint.judging.finding import At, Finding
from methodlint.reports.base_report import Mark
from methodlint.reports.card.stamp import documents_hash, stamp
from methodlint.reports.consequences import consequences_data
from methodlint.reports.consequences_compared import ComparedConsequences, SubjectChange, compared
from methodlint.reports.markdown_text import cell, code, inert
from methodlint.reports.prepared import Prepared
from methodlint.reports.wording import (
    counted,
    figures,
    lowered_words,
    spot,
    summary,
    unjudged_words,
    verdict_words,
)

MOST_CHARACTERS = 60_000
_MOST_REASONS = 10
_SPARE = 200


class Page:
    """Lines of markdown up to a number of characters; what does not fit is counted."""

    def __init__(self, most: int = MOST_CHARACTERS) -> None:
        self._lines: list[str] = []
        self._left = most - _SPARE

    def add(self, *lines: str) -> bool:
        """Add lines if they fit, all or none."""
        size = sum(len(line) + 1 for line in lines)
        if size > self._left:
            return False
        self._lines += lines
        self._left -= size
        return True

    def section(self, heading: str, items: Iterable[str], before: tuple[str, ...] = ()) -> None:
        """Add a heading with its items; nothing if there are none."""
        waiting = list(items)
        if not waiting:
            return
        table = bool(before)
        if not self.add("", f"### {heading}", "", *before):
            self._left += _SPARE
            self.add("", f"{heading}: left out.")
            self._left = 0
            return
        for number, item in enumerate(waiting):
            if not self.add(item):
                rest = len(waiting) - number
                self._left += _SPARE
                self.add(*(["", f"And {rest} more."] if table else [f"- and {rest} more"]))
                self._left = 0
                return

    def text(self) -> str:
        """The page."""
        return "\n".join(self._lines) + "\n"


def markdown_report(prepared: Prepared) -> str:
    """Write a report as markdown: findings, what a base report had, consequences."""
    report = prepared.report
    page = Page()
    page.add(f"## {verdict_words(report).capitalize()}", "", f"{summary(report)}.")
    if report.as_of is not None:
        page.add("", f"Judged as of {report.as_of.isoformat()}.")
    for path, text in report.given:
        page.add("", f"Given for this run: {inert(f'{path} = {text}')}")
    cards = [(batch.name, documents_hash(batch)) for batch in report.batches]
    cards += [(told.path, told.documents) for told in report.plain_batches]
    for path, documents in cards[:_MOST_REASONS]:
        page.add("", f"Bench card of {code(path)}: {code(stamp(report, documents))}")
    reasons = [f"- {inert(text)}" for text in unjudged_words(report)]
    if len(reasons) > _MOST_REASONS:
        reasons = [*reasons[:_MOST_REASONS], f"- and {len(reasons) - _MOST_REASONS} more"]
    page.section("Part of this could not be judged", reasons)
    _findings(page, prepared)
    lowered = (f"- {inert(text)}" for text in lowered_words(report))
    page.section("Lowered by the lab's policy", lowered)
    page.section("Accepted by deviation", _set_aside(report))
    stops = {
        f"- {inert(item.rule)} on {inert(item.subject)}: give {inert(', '.join(item.missing))}"
        for item in report.unchecked_stops
    }
    page.section("Not checked, and could have found a stop", sorted(stops))
    _matrix(page, report)
    if prepared.base is not None:
        change = compared(prepared.base, prepared.data, whole=False)
        _consequences(page, change, "Consequences")
    return page.text()


def _findings(page: Page, prepared: Prepared) -> None:
    shown = [f for f in prepared.report.findings if f.grade != "note" or prepared.notes]
    shown = prepared.worst_first(shown)
    page.section("Loosened by this change", (_item(f) for f in shown if f.loosens))
    shown = [finding for finding in shown if not finding.loosens]
    how = prepared.standing
    if how is None:
        page.section("Findings", (_item(finding) for finding in shown))
        return
    counts = (
        f"Against the base: {len(how.new)} new, {len(how.worse)} worse, "
        f"{len(how.known)} unchanged, {len(how.gone)} gone."
    )
    page.add("", f"{counts} {inert(prepared.compared)}".rstrip())
    for state, heading in (("new", "New"), ("worse", "Worse than before")):
        page.section(heading, (_item(f) for f in shown if prepared.state(f) == state))
    page.section("Gone", (_mark_item(mark) for mark in how.gone))
    page.section("Unchanged", (_item(f) for f in shown if prepared.state(f) == "known"))


def _item(finding: Finding) -> str:
    text = f"- **{finding.grade}** {inert(finding.message)}"
    if figures(finding):
        text += f"; figure: {inert(figures(finding))}"
    if finding.subject and finding.subject != finding.at.document.path:
        text += f"; in {inert(finding.subject)}"
    if finding.remedy:
        text += f"; do: {inert(finding.remedy)}"
    text += f" ({_where(finding.at)}; {code(finding.rule)})"
    return text


def _where(at: At) -> str:
    text = f"{code(at.file)}, {spot(at)}"
    return f"{text}: {code(path_text(at.path))}" if at.path else text


def _mark_item(mark: Mark) -> str:
    return (
        f"- **{mark.grade}** {inert(mark.message)} ({code(mark.path)}, line {mark.line}; "
        f"{code(mark.rule)})"
    )


def _set_aside(report: Report) -> Iterator[str]:
    for item in report.set_aside:
        deviation = item.deviation
        who = f", approved by {inert(deviation.approved_by)}" if deviation.approved_by else ""
        until = f", until {deviation.until.isoformat()}" if deviation.until else ""
        yield (
            f"- **{item.finding.grade}** {inert(item.finding.message)} "
            f"{code(item.finding.rule)}: "
            f"{inert(deviation.reason or '')}{who}{until} ({inert(item.document.path)})"
        )


def _matrix(page: Page, report: Report) -> None:
    """Set out methods against the instruments that they were judged on."""
    runs = consequences_data(report)["runs"]
    instruments = sorted({run["instrument"] for run in runs if run["instrument"]})
    if not instruments:
        return
    rows: dict[str, dict[str, str]] = {}
    for run in runs:
        counts = [counted(n, grade) for grade, n in run["counts"].items() if n and grade != "note"]
        said = ", ".join(counts) or "nothing found"
        if run["figures"] is None:
            said = "not rehearsed"
        rows.setdefault(run["path"], {})[run["instrument"] or ""] = said
    header = f"| method | {' | '.join(cell(name) for name in instruments)} |"
    ruler = "| --- |" + " --- |" * len(instruments)
    lines = [
        f"| {cell(path)} | {' | '.join(said.get(name, '') for name in instruments)} |"
        for path, said in rows.items()
    ]
    page.section("Methods by instrument", lines, (header, ruler))


def markdown_comparison(comparison: ComparedConsequences) -> str:
    """Write a comparison of two reports as markdown."""
    page = Page()
    old, new = comparison.verdicts
    page.add(f"## {inert(old).capitalize()} -> {inert(new)}")
    page.section("Documents", (f"- {word}: {inert(path)}" for path, word in comparison.documents))
    page.section("Appearing", (_mark_item(mark) for mark in comparison.appearing))
    page.section("Worse than before", (_mark_item(mark) for mark in comparison.worse))
    page.section("Vanishing", (_mark_item(mark) for mark in comparison.vanishing))
    page.add("", f"{counted(comparison.staying, 'finding')} unchanged.")
    _consequences(page, comparison, "Consequences")
    return page.text()


def _consequences(page: Page, comparison: ComparedConsequences, heading: str) -> None:
    rows = [line for subject in comparison.moving for line in _rows(subject)]
    header = ("| | figure | before | now | change |", "| --- | --- | --- | --- | --- |")
    if rows:
        page.section(heading, rows, header)
    elif comparison.subjects:
        page.section(heading, ["No figure of a run or a sequence changes."])


def _rows(subject: SubjectChange) -> Iterator[str]:
    name = cell(subject.subject)
    if subject.only == "old":
        yield f"| {name} | no longer there | | | |"
        return
    if subject.why:
        yield f"| {name} | {cell(subject.why)} | | | |"
        return
    if subject.only == "new" and not subject.figures:
        yield f"| {name} | new, could not be rehearsed | | | |"
    for change in subject.moving:
        before = "" if subject.only else change.words(change.old)
        now = change.words(change.new)
        yield f"| {name} | {change.quantity.words} | {before} | {now} | {change.difference} |"
