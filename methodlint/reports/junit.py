"""The report as JUnit XML, which test tabs of build servers read.

A suite stands for a document and a case for a rule that judged it, those that passed included: a
method that goes beyond the rating of its column fails in the method's suite, and the text of the
failure says where the rating stands.
There is no standard for the format; elements and attributes are those that readers in common use
agree on (common practice, no source).
"""

from __future__ import annotations

import xml.etree.ElementTree as Xml
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from methodlint.documents.text.visible import visible
from methodlint.judging.finding import At, Finding, NotChecked
from methodlint.judging.judged import SetAside
from methodlint.judging.unjudged import RuleFailed, Unjudged
from methodlint.reports.prepared import Prepared
from methodlint.reports.wording import figures, moment, place
from methodlint.version import __version__

MOST_PER_CASE = 100
TOOL = "methodlint itself"
USABLE = "the document can be used"


@dataclass
class _Case:
    """What one rule said about one document, and where the first of it stands there."""

    at: At | None = None
    held: list[Finding] = field(default_factory=list)
    told: list[Finding] = field(default_factory=list)
    aside: list[SetAside] = field(default_factory=list)
    lacking: list[NotChecked] = field(default_factory=list)
    failed: list[RuleFailed] = field(default_factory=list)
    unusable: Unjudged | None = None


def junit_text(prepared: Prepared) -> str:
    """Write a report as JUnit XML.

    Findings held against their document (`--hold-at`) are one failure per document and rule; others
    stand in the case's output. A rule that lacks a figure is skipped, a rule that raised an error.
    """
    root = Xml.Element("testsuites", name="methodlint")
    totals = {"tests": 0, "failures": 0, "errors": 0, "skipped": 0}
    for path, cases in _suites(prepared):
        suite = Xml.SubElement(root, "testsuite", name=visible(path))
        _properties(suite, prepared, path)
        counts = dict.fromkeys(totals, 0)
        for rule, case in sorted(cases.items()):
            counts["tests"] += 1
            kind = _write(suite, path, rule, case, prepared)
            if kind:
                counts[kind] += 1
        for key, count in counts.items():
            suite.set(key, str(count))
            totals[key] += count
        suite.set("time", "0")
    for key, count in totals.items():
        root.set(key, str(count))
    root.set("time", "0")
    Xml.indent(root)
    body: str = Xml.tostring(root, encoding="unicode")
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{body}\n'


def _suites(prepared: Prepared) -> Iterator[tuple[str, dict[str, _Case]]]:
    report = prepared.report
    suites: dict[str, dict[str, _Case]] = {path: {} for path in report.documents}

    def case(path: str, rule: str) -> _Case:
        return suites.setdefault(path, {}).setdefault(rule, _Case())

    for path, rules in report.made.items():
        for rule in rules:
            case(path, rule)
    for finding in report.findings:
        for path, at in zip(report.judged(finding), report.judged_at(finding), strict=True):
            where = case(path, finding.rule)
            if prepared.held(finding):
                where.at = where.at if where.held else at
                where.held.append(finding)
            else:
                where.at = where.at or at
                where.told.append(finding)
    for item in report.set_aside:
        case(item.finding.at.document.path, item.finding.rule).aside.append(item)
    for lacking in report.not_checked:
        case(lacking.at.document.path, lacking.rule).lacking.append(lacking)
    for failed in report.failed:
        path = failed.subject if failed.subject in report.documents else TOOL
        case(path, failed.rule).failed.append(failed)
    for unusable in report.unusable:
        case(unusable.subject, USABLE).unusable = unusable
    yield from ((path, suites[path]) for path in sorted(suites) if suites[path])


def _properties(suite: Xml.Element, prepared: Prepared, path: str) -> None:
    document = prepared.report.documents.get(path)
    pairs = {"tool": f"methodlint {__version__}"}
    if document is not None:
        pairs |= {"kind": document.kind, "sha256": document.read.sha256}
    holder = Xml.SubElement(suite, "properties")
    for name, value in pairs.items():
        Xml.SubElement(holder, "property", name=name, value=value)


def _write(suite: Xml.Element, path: str, rule: str, case: _Case, prepared: Prepared) -> str:
    """Write one case and tell which count it adds to; empty for a pass."""
    element = Xml.SubElement(suite, "testcase", classname=visible(path), name=visible(rule))
    if case.at is not None:
        element.set("file", visible(case.at.file))
        element.set("line", str(case.at.place.line))
    element.set("time", "0")
    kind = ""
    if case.failed:
        kind = "errors"
        error = Xml.SubElement(element, "error", type="error of this tool")
        error.set("message", visible(case.failed[0].error))
        error.text = _joined(f"on {failed.subject}: {failed.error}" for failed in case.failed)
    elif case.unusable is not None:
        kind = "errors"
        error = Xml.SubElement(element, "error", type="could not be judged")
        error.set("message", visible(case.unusable.reason))
        error.text = visible(f"line {case.unusable.line}: {case.unusable.reason}")
    elif case.held:
        kind = "failures"
        worst = prepared.worst_first(case.held)
        failure = Xml.SubElement(element, "failure", type=worst[0].grade)
        failure.set("message", visible(worst[0].message))
        failure.text = _joined(_words(finding, prepared) for finding in worst)
    elif case.lacking:
        kind = "skipped"
        skipped = Xml.SubElement(element, "skipped")
        skipped.set("message", visible(_lacking(case.lacking)))
    rest = [*case.held, *case.told] if case.failed else case.told
    told = [_words(finding, prepared) for finding in prepared.worst_first(rest)]
    told += [_set_aside(item) for item in case.aside]
    if case.lacking and kind != "skipped":
        told.append(_lacking(case.lacking))
    if told:
        Xml.SubElement(element, "system-out").text = _joined(told)
    return kind


def _set_aside(item: SetAside) -> str:
    deviation = item.deviation
    who = f", approved by {visible(deviation.approved_by)}" if deviation.approved_by else ""
    until = f", until {deviation.until.isoformat()}" if deviation.until else ""
    said = f"{visible(item.finding.message)}: {visible(deviation.reason or '')}{who}{until}"
    return f"accepted by deviation: {item.finding.grade}: {said} ({visible(item.document.path)})"


def _lacking(items: Iterable[NotChecked]) -> str:
    figures_lacking = dict.fromkeys(figure for item in items for figure in item.missing)
    return f"not checked: give {', '.join(figures_lacking)}"


def _words(finding: Finding, prepared: Prepared) -> str:
    state = prepared.state(finding)
    text = f"{finding.grade}{f' ({state})' if state else ''}: {finding.message}"
    text += f"; where: {place(finding.at)}"
    if figures(finding):
        text += f"; figure: {figures(finding)}"
    if finding.when is not None and moment(finding.when):
        text += f"; when: {moment(finding.when)}"
    if subject := prepared.report.subject(finding):
        text += f"; in: {subject}"
    for also in finding.also:
        text += f"; see also: {place(also)}"
    return text + (f"; do: {finding.remedy}" if finding.remedy else "")


def _joined(texts: Iterable[str]) -> str:
    """Join texts, a line each; document text brings no line of its own."""
    lines = [visible(text) for text in texts]
    if len(lines) > MOST_PER_CASE:
        more = len(lines) - MOST_PER_CASE
        lines = [*lines[:MOST_PER_CASE], f"and {more} more"]
    return "\n".join(lines)
