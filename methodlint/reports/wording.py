"""Words that several report formats share: figures, moments, places."""

from __future__ import annotations

from methodlint.checking.report import Report
from methodlint.documents.quantities.format import counted
from methodlint.documents.text.places import path_text
from methodlint.judging.finding import At, Finding, Measure, When
from methodlint.judging.judged import SetAside

__all__ = [
    "OWN_ERROR",
    "aside_words",
    "counted",
    "failure_words",
    "figure",
    "figures",
    "lowered_words",
    "moment",
    "place",
    "summary",
    "unjudged_words",
    "verdict_words",
]

OWN_ERROR = "error of this tool: "


def verdict_words(report: Report) -> str:
    """The verdict for people: nothing is cleared where nothing was judged."""
    if not report.documents and not report.findings:
        return "nothing to judge"
    if report.only_in_part and not report.unjudged:
        held = report.verdict == "do not run"
        return "do not run, judged in part" if held else "judged in part"
    return report.verdict


def unjudged_words(report: Report) -> list[str]:
    """Reasons why nothing is cleared, each once, errors of this tool first."""
    said = [f"{OWN_ERROR}{text}" for text in failure_words(report)]
    said += [f"{item.subject}, line {item.line}: {item.reason}" for item in report.unusable]
    return said


def aside_words(item: SetAside) -> str:
    """A finding that a deviation moves aside, with the deviation."""
    deviation = item.deviation
    until = f" until {deviation.until.isoformat()}" if deviation.until else ""
    who = f", approved by {deviation.approved_by}" if deviation.approved_by else ""
    what = f"{item.finding.message} [{item.finding.rule}]"
    return f"{what}; {deviation.reason}{who}{until} ({item.document.path})"


def lowered_words(report: Report) -> list[str]:
    """What the lab's policy has made milder, in words, each line of the policy once."""
    counts: dict[tuple[str, str, str, str], int] = {}
    for finding in report.lowered:
        assert finding.moved is not None
        made = f"{finding.moved.grade} made {finding.grade}"
        key = finding.rule, made, finding.moved.reason, place(finding.moved.at)
        counts[key] = counts.get(key, 0) + 1
    return [
        f"{rule}: {made}, {counted(count, 'finding')}: {reason} ({where})"
        for (rule, made, reason, where), count in sorted(counts.items())
    ]


def failure_words(report: Report) -> list[str]:
    """Rules that failed, in words, each kind of failure once."""
    subjects: dict[tuple[str, str], list[str]] = {}
    for failed in report.failed:
        subjects.setdefault((failed.rule, failed.error), []).append(failed.subject)
    return [
        f"rule {rule} failed on {names[0]}"
        + (f" and {len(names) - 1} more" if len(names) > 1 else "")
        + f": {error}"
        for (rule, error), names in sorted(subjects.items())
    ]


def figure(measure: Measure) -> str:
    """Write a measure: three significant digits, whole numbers from 100 on."""
    value = measure.value
    size = abs(value)
    if size >= 100 or value == int(value):
        text = f"{value:.0f}"
    elif size >= 10:
        text = f"{value:.1f}"
    elif size >= 1:
        text = f"{value:.2f}"
    else:
        text = f"{value:.3g}"
    return f"{text} {measure.unit}".strip()


def figures(finding: Finding) -> str:
    """Write the figure against its limit, with its band; the message says the margin in words."""
    if finding.found is None or finding.limit is None:
        return figure(finding.found) if finding.found is not None else ""
    text = f"{figure(finding.found)} against {figure(finding.limit)}"
    if finding.band is None:
        return text
    if finding.band_below is None:
        return f"{text}, band {figure(finding.band)}"
    return f"{text}, band -{figure(finding.band_below)} to +{figure(finding.band)}"


def moment(when: When) -> str:
    """Write when in the run or in the sequence a finding holds."""
    if when.injection is not None:
        if when.last_injection is not None and when.last_injection != when.injection:
            return f"injections {when.injection} to {when.last_injection}"
        return f"injection {when.injection}"
    if when.start is None:
        return ""
    if when.end is None or when.end - when.start < 0.5:
        return f"{when.start / 60.0:.2f} min"
    return f"{when.start / 60.0:.2f} to {when.end / 60.0:.2f} min"


def place(at: At) -> str:
    """Write where a value stands."""
    path = path_text(at.path)
    made = f" ({at.document.name})" if at.document.made_from else ""
    return f"{at.file}, {spot(at)}" + (f": {path}" if path else "") + made


def spot(at: At) -> str:
    """Write the line, and the cell of a table."""
    where = at.place
    return f"line {where.line}, {where.cell}" if where.cell else f"line {where.line}"


def summary(report: Report) -> str:
    """Counts of a report in one line."""
    parts = [counted(report.count(grade), grade) for grade in ("stop", "fault", "caution", "note")]
    said = ", ".join(part for part in parts if not part.startswith("0 ")) or "no findings"
    extra = f"; {report.checked} checks made, {len(report.not_checked)} not checked"
    if report.in_part and not report.only_in_part:
        extra += f", {counted(len(report.in_part), 'method')} judged in part"
    if report.set_aside:
        extra += f", {counted(len(report.set_aside), 'deviation')} in force"
    if report.lowered:
        extra += f", {counted(len(report.lowered), 'finding')} lowered by the lab's policy"
    return said + extra
