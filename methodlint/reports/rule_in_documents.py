"""Where one rule fires in a set of documents, for the end of its page."""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.checking.report import Report
from methodlint.judging.finding import Finding
from methodlint.reports.lines import Line, Words, line, wrapped
from methodlint.reports.wording import figures, place


def firing_lines(report: Report, rule: str, width: int = 96) -> Iterator[Line]:
    """Lay out the findings of one rule, those folded beneath others included."""
    yield [Words("In these documents", "head")]
    found = list(_of_rule(report.findings, rule))
    for finding in found:
        yield from wrapped(Words(f"  {finding.grade}", finding.grade), finding.message, 11, width)
        yield from wrapped("  where", place(finding.at), 11, width)
        if figures(finding):
            yield from wrapped("  figure", figures(finding), 11, width)
        if finding.remedy:
            yield from wrapped("  do", finding.remedy, 11, width)
    lacking = [item for item in report.not_checked if item.rule == rule]
    for item in lacking:
        yield line(f"  not checked on {item.subject}: give {', '.join(item.missing)}")
    if not found and not lacking:
        yield line("  it raises nothing")


def _of_rule(findings: list[Finding] | tuple[Finding, ...], rule: str) -> Iterator[Finding]:
    for finding in findings:
        if finding.rule == rule:
            yield finding
        yield from _of_rule(finding.because, rule)
