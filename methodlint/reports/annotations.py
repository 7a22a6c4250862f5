"""Workflow annotations: one command line per finding, which code hosts show beside the changed lines.

The line's form is `::error file=...,line=...::message`. In the message `%`, CR and LF are
percent-encoded, in properties `:` and `,` too (public documentation of workflow commands, from
memory). Hosts show ten of each level per step, so the worst come first and the rest is counted.
A line stands at the document that was judged; where a card has the value, the text names its place.
"""

from __future__ import annotations

import re

from methodlint.checking.report import Report
from methodlint.documents.text.visible import visible
from methodlint.judging.finding import At, Finding, Grade
from methodlint.reports.prepared import Prepared
from methodlint.reports.wording import (
    OWN_ERROR,
    aside_words,
    counted,
    failure_words,
    figures,
    lowered_words,
    place,
    summary,
)

MOST_PER_LEVEL = 10
_ENOUGH = MOST_PER_LEVEL + 1
_MOST_FAILURES = 3
_MOST_ACCEPTED = 3
_OLDER_FORM = re.compile("#(?=#)")
_LEVELS: dict[Grade, str] = {
    "stop": "error",
    "fault": "error",
    "caution": "warning",
    "note": "notice",
}


def annotation_lines(prepared: Prepared) -> str:
    """Write the findings as workflow commands: what a change loosens, then worst and new ones."""
    report = prepared.report
    groups: dict[tuple[bool, str], list[tuple[Finding, At]]] = {
        (True, "warning"): [], (False, "error"): [], (False, "warning"): [], (False, "notice"): []
    }  # fmt: skip
    for finding in prepared.worst_first(report.findings):
        if finding.grade != "note" or prepared.notes:
            places = report.judged_at(finding)
            groups[finding.loosens, _LEVELS[finding.grade]] += [(finding, at) for at in places]
    lines = []
    for (_, level), findings in groups.items():
        said = [_line(level, finding, at, prepared) for finding, at in findings[:_ENOUGH]]
        count = len(findings)
        if level == "error":
            told = [_command(level, {}, f"{OWN_ERROR}{text}") for text in failure_words(report)]
            said = [*told[:_MOST_FAILURES], *said]
            count += len(told)
        if count > MOST_PER_LEVEL:
            # One of the places that a host shows is kept for the count of the others.
            said = said[: MOST_PER_LEVEL - 1]
            more = counted(count - len(said), "more finding")
            said.append(_command(level, {}, f"{more} of this level: see the report"))
        lines += said
    accepted = [f"lowered by the lab's policy: {text}" for text in lowered_words(report)]
    accepted += [f"accepted by deviation: {aside_words(item)}" for item in report.set_aside]
    if len(accepted) > _MOST_ACCEPTED:
        others = len(accepted) - _MOST_ACCEPTED
        accepted[_MOST_ACCEPTED:] = [f"{others} more are lowered or accepted: see the report"]
    lines += [_command("notice", {}, text) for text in accepted]
    lines.append(_command("notice", {}, _conclusion(report)))
    return "".join(f"{line}\n" for line in lines)


def _conclusion(report: Report) -> str:
    """The verdict in one line, with what it rests on where something cannot be used."""
    said = f"{report.verdict}: {summary(report)}"
    if report.unusable:
        first, *others = report.unusable
        said += f"; could not be judged: {first.subject}, line {first.line}: {first.reason}"
        said += f"; and {counted(len(others), 'more document')}" if others else ""
    return said


def _line(level: str, finding: Finding, at: At, prepared: Prepared) -> str:
    where = at.place
    properties = {
        "file": at.file,
        "line": str(where.line),
        "endLine": str(where.end_line),
    }
    # Columns are heeded only within one line.
    if where.line == where.end_line:
        properties |= {"col": str(where.column), "endColumn": str(where.end_column)}
    properties["title"] = f"{finding.grade}: {finding.rule}"
    state = prepared.state(finding)
    text = f"{state}: {finding.message}" if state else finding.message
    if at != finding.at:
        text += f"; where: {place(finding.at)}"
    if figures(finding):
        text += f"; figure: {figures(finding)}"
    if subject := prepared.report.subject(finding):
        text += f"; in: {subject}"
    if finding.remedy:
        text += f"; do: {finding.remedy}"
    return _command(level, properties, text)


def _command(level: str, properties: dict[str, str], text: str) -> str:
    said = ",".join(f"{name}={_property(value)}" for name, value in properties.items())
    return f"::{level}{f' {said}' if said else ''}::{_data(text)}"


def _data(text: str) -> str:
    # An older form of command is looked for in the midst of a line; a blank keeps it from forming.
    text = _OLDER_FORM.sub("# ", visible(text))
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")
