"""The report in words, for a terminal or a log: verdict, findings, cautions, bench card."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from methodlint.checking.report import Report
from methodlint.judging.finding import GRADES, Finding, NotChecked, severity
from methodlint.reports.bench_card import CardSection, block_lines, card_sections, run_lines
from methodlint.reports.card.contents import card_blocks
from methodlint.reports.card.stamp import HELD, documents_hash, is_held, stamp
from methodlint.reports.gaps import gaps_of
from methodlint.reports.left_to_fill import divided_by_document, left_lines
from methodlint.reports.lines import Line, Tone, Words, line, plain_line, wrapped
from methodlint.reports.overview import groups_by_document
from methodlint.reports.overview_lines import overview_lines
from methodlint.reports.safety_words import cautions_for
from methodlint.reports.tolerances import tolerance_blocks
from methodlint.reports.week import week_block
from methodlint.reports.wording import (
    aside_words,
    counted,
    failure_words,
    figures,
    lowered_words,
    moment,
    place,
    summary,
    unjudged_words,
    verdict_words,
)

if TYPE_CHECKING:
    from methodlint.reports.prepared import Prepared

WIDTH = 80
_INDENT = 9
_MOST_REASONS = 6
_LONG = 200
"""Lines beyond which the top of a report has left the screen for good: a bench card has about 110."""


def report_lines(
    report: Report,
    *,
    notes: bool = False,
    width: int = WIDTH,
    overview: bool = False,
    cards: bool = True,
) -> Iterator[Line]:
    """Lay a report out.

    Parameters
    ----------
    report
        What was found.
    notes
        Whether notes are shown too.
    width
        Columns to wrap at; document text is wrapped, never cut.
    overview
        Whether a table of all documents comes first and findings stand document by document.
    cards
        Whether bench cards are printed.
    """
    yield _verdict_line(report)
    yield from wrapped("", summary(report), 0, width)
    if report.as_of is not None:
        yield line(f"judged as of {report.as_of.isoformat()}")
    yield from unjudged_lines(report, width)
    for path, text in report.given:
        yield line(f"given for this run: {path} = {text}")
    loosened = [finding for finding in report.findings if finding.loosens]
    if loosened:
        yield []
        yield [Words("LOOSENED BY THIS CHANGE", "head")]
        for finding in loosened:
            yield from short_lines(finding, width)
    whole = ("stop", "fault")
    shown = [f for f in report.findings if f.grade in whole or not f.loosens]
    shown = [f for f in shown if f.grade != "note" or notes]
    if overview:
        yield from overview_lines(report, width)
        yield from _by_document(report, shown, width)
    else:
        yield from _findings(shown, width)
    lowered = lowered_words(report)
    if lowered:
        yield []
        yield [Words("LOWERED BY THE LAB'S POLICY", "head")]
        for text in lowered:
            yield from wrapped("  -", text, 4, width)
    yield from _set_aside(report, width)
    yield from not_checked_lines(report, width, all_named=notes)
    cautions = cautions_for(report.findings)
    if cautions:
        yield []
        yield [Words("SAFETY", "caution")]
        for text in cautions:
            yield from wrapped("  -", text, 4, width)
    if not overview:
        yield from run_lines(report, width)
    whole_week = cards or notes or not overview
    week = week_block(report, brief=overview) if whole_week else None
    if week is not None:
        yield []
        yield from block_lines(week, width)
    told = [(b.name, documents_hash(b), tuple(card_blocks(b))) for b in report.batches if cards]
    told += [(b.path, b.documents, b.card) for b in report.plain_batches if cards]
    for path, documents, blocks in told:
        yield from _card(report, path, documents, card_sections(blocks, width), width)


def _findings(findings: Sequence[Finding], width: int) -> Iterator[Line]:
    """Stops and faults whole, each with its figures; then the milder ones briefly."""
    serious = [f for f in findings if f.grade in ("stop", "fault")]
    serious.sort(key=lambda finding: finding.grade != "stop")
    for group in divided_by_document(serious):
        yield []
        if len(group) > 1:
            yield from left_lines(group, _INDENT, width)
        else:
            yield from _whole(group[0], width)
    minor = sorted((f for f in findings if f.grade not in ("stop", "fault")), key=lambda f: f.grade)
    if minor:
        yield []
    for first, alike in _by_place(minor):
        yield from short_lines(first, width)
        if alike:
            yield from wrapped(Words("  also", "quiet"), _alike_words(alike), _INDENT, width)


def _by_document(report: Report, findings: Sequence[Finding], width: int) -> Iterator[Line]:
    """Document by document, worst first."""
    ordered = sorted(findings, key=lambda finding: severity(finding.grade))
    for path, own in groups_by_document(report, ordered):
        yield []
        counts = [counted(sum(f.grade == g for f in own), g) for g in GRADES]
        said = ", ".join(count for count in counts if not count.startswith("0 "))
        yield line(Words(path, "head"), f"  {said}")
        yield from _findings(own, width)


def unjudged_lines(report: Report, width: int) -> Iterator[Line]:
    """Say on the first screen why there is no verdict, each reason once."""
    if not report.unjudged:
        return
    yield line("part of this could not be judged:")
    said, own_errors = unjudged_words(report), len(failure_words(report))
    for number, text in enumerate(said[:_MOST_REASONS]):
        tone: Tone = "fault" if number < own_errors else "plain"
        yield from wrapped(Words("  -", tone), text, 4, width)
    if said[_MOST_REASONS:]:
        more = len(said) - _MOST_REASONS
        yield from wrapped(
            "  -", f"and {counted(more, 'more reason')}; all of them with --show json", 4, width
        )


def _card(
    report: Report, path: str, documents: str, sections: Iterable[CardSection], width: int
) -> Iterator[Line]:
    """The card of one sequence; one that is not to be run has no start and no signature."""
    tone: Tone = "stop" if is_held(report) else "plain"
    mark = line(Words(f"  {stamp(report, documents)}", tone))
    yield []
    yield line(Words(f"BENCH CARD  {path}", "head"))
    yield mark
    stops = [item for item in report.set_aside if item.finding.grade == "stop"]
    for rule in sorted({item.finding.rule for item in stops}):
        yield line(Words(f"  a stop of {rule} is accepted by deviation", "caution"))
    for section in sections:
        held = is_held(report) and section.key in ("start", "signature")
        if section.key == "start":
            yield from ([], mark)
        if held and section.key == "start":
            yield from wrapped(Words("START", "stop"), HELD, _INDENT, width)
        elif not held:
            yield from section.lines
        if section.key == "emergency":
            yield mark


def prepared_lines(prepared: Prepared, width: int = WIDTH) -> Iterator[Line]:
    """Lay a prepared report out; the verdict of a long one stands at its end again."""
    told = 0
    for parts in _laid_out(prepared, width):
        told += 1
        yield parts
    if told > _LONG:
        yield []
        yield _verdict_line(prepared.report)
        yield from wrapped("", summary(prepared.report), 0, width)


def _verdict_line(report: Report) -> Line:
    tone = {"clear to run": "good", "run with care": "caution", "do not run": "stop"}
    return [Words(verdict_words(report).upper(), tone[report.verdict])]  # type: ignore[arg-type]


def _laid_out(prepared: Prepared, width: int) -> Iterator[Line]:
    yield from report_lines(
        prepared.report,
        notes=prepared.notes,
        width=width,
        overview=prepared.overview,
        cards=prepared.cards,
    )
    for block in tolerance_blocks(prepared.corners or ()):
        yield []
        yield from block_lines(block, width)
    how = prepared.standing
    if how is None:
        return
    yield []
    counts = f" {len(how.new)} new, {len(how.worse)} worse, {len(how.known)} unchanged"
    counts += f", {len(how.gone)} gone"
    yield [Words("AGAINST THE BASE REPORT", "head"), Words(counts)]
    if prepared.compared:
        yield from wrapped("", prepared.compared, 0, width)
    for finding in prepared.worst_first(prepared.report.findings):
        state = prepared.state(finding)
        if state != "known" and not finding.loosens:
            text = f"{finding.grade}: {finding.message} ({place(finding.at)}) [{finding.rule}]"
            yield from wrapped(Words(f"  {state}", finding.grade), text, _INDENT, width)
    for mark in how.gone:
        text = f"{mark.grade}: {mark.message} ({mark.path}) [{mark.rule}]"
        yield from wrapped(Words("  gone", "good"), text, _INDENT, width)


def prepared_text(prepared: Prepared) -> str:
    """Write a prepared report as plain text."""
    return "".join(f"{plain_line(parts)}\n" for parts in prepared_lines(prepared))


def _whole(finding: Finding, width: int) -> Iterator[Line]:
    label = finding.grade.upper()
    yield from wrapped(Words(label, finding.grade), finding.message, _INDENT, width)
    yield from wrapped("  where", place(finding.at), _INDENT, width)
    for also in finding.also:
        yield from wrapped("  and", place(also), _INDENT, width)
    if figures(finding):
        yield from wrapped("  figure", figures(finding), _INDENT, width)
    if finding.when is not None and moment(finding.when):
        yield from wrapped("  when", moment(finding.when), _INDENT, width)
    if finding.remedy:
        yield from wrapped("  do", finding.remedy, _INDENT, width)
    yield from wrapped("  rule", _rule_words(finding), _INDENT, width)
    for child in finding.because:
        said = f"{child.message} ({child.rule})"
        yield from wrapped(Words("  with", "quiet"), said, _INDENT, width)


# As many runs as this say the same of one place each for themselves.
_FEW = 2


def _by_place(findings: Sequence[Finding]) -> Iterator[tuple[Finding, list[Finding]]]:
    """One finding for each rule and place, with the same of other runs where they are many."""
    groups: dict[tuple[str, str, str, int], list[Finding]] = {}
    for finding in findings:
        at = finding.at
        key = (finding.rule, finding.grade, at.file, at.place.line)
        groups.setdefault(key, []).append(finding)
    for same in groups.values():
        if len(same) > _FEW:
            worst = max(same, key=_how_far)
            yield worst, [finding for finding in same if finding is not worst]
        else:
            yield from ((finding, []) for finding in same)


def _how_far(finding: Finding) -> float:
    """How far a figure lies from its limit, as a ratio; 0 where either is not a figure."""
    if finding.found is None or finding.limit is None or not finding.limit.value:
        return 0.0
    return abs(finding.found.value / finding.limit.value - 1.0)


def _alike_words(alike: Sequence[Finding]) -> str:
    own = {finding.at.document.path for finding in alike}
    subjects = list(dict.fromkeys(f.subject for f in alike if f.subject and f.subject not in own))
    named = f": {'; '.join(subjects)}" if subjects else ""
    return f"the same at this place {len(alike)} times more{named}; each with --show json"


def short_lines(finding: Finding, width: int) -> Iterator[Line]:
    """Lay a finding out in one paragraph."""
    text = f"{finding.message} ({place(finding.at)})"
    if finding.remedy:
        text += f"; do: {finding.remedy}"
    text += f" [{finding.rule}]"
    yield from wrapped(Words(finding.grade, finding.grade), text, _INDENT, width)
    for child in finding.because:
        said = f"{child.message} ({child.rule})"
        yield from wrapped(Words("  with", "quiet"), said, _INDENT, width)


def _rule_words(finding: Finding) -> str:
    return f"{finding.rule} (methodlint why {finding.rule})"


def _set_aside(report: Report, width: int) -> Iterator[Line]:
    if not report.set_aside:
        return
    yield []
    yield [Words("SET ASIDE BY A DEVIATION", "head")]
    for item in report.set_aside:
        grade = item.finding.grade
        yield from wrapped(Words(grade, grade), aside_words(item), _INDENT, width)


def not_checked_lines(report: Report, width: int, *, all_named: bool) -> Iterator[Line]:
    """Ask each card once for what it lacks, first for what could have found a stop."""
    if not report.not_checked:
        return
    yield []
    yield [Words("NOT CHECKED", "head"), Words(" missing data")]
    shown = report.not_checked
    rest: list[NotChecked] = []
    if report.unusable:
        # What waits for a document to be put right is listed by name, without reasons that stand
        # above already.
        rest = [item for item in shown if not item.can_stop]
        shown = report.unchecked_stops
    for gap in gaps_of(shown):
        yield from wrapped("  supply", gap.what(all_named=all_named), _INDENT, width)
        yield from wrapped(Words("  for", "quiet"), gap.rules(all_named=all_named), _INDENT, width)
    if rest:
        wanted = dict.fromkeys(where for item in rest for where in item.missing)
        text = f"first correct what is listed above; then {', '.join(sorted(wanted))}"
        yield from wrapped("  supply", text, _INDENT, width)
        names = ", ".join(sorted({item.rule for item in rest}))
        yield from wrapped(Words("  for", "quiet"), names, _INDENT, width)
