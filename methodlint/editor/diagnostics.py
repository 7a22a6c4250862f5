"""What a check has found, as the marks that an editor draws."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from lsprotocol import types

from methodlint.documents.text.visible import visible
from methodlint.editor.judgement import OpenJudgement
from methodlint.judging.finding import At, Finding, NotChecked
from methodlint.judging.loader import built_in_rules
from methodlint.judging.unjudged import Unjudged
from methodlint.reports.wording import figures, moment

__all__ = ["SOURCE", "diagnostics", "range_of", "without_repeats"]

SOURCE = "methodlint"
_LEVELS = {
    "stop": types.DiagnosticSeverity.Error,
    "fault": types.DiagnosticSeverity.Error,
    "caution": types.DiagnosticSeverity.Warning,
    "note": types.DiagnosticSeverity.Information,
}
_TOP = types.Range(types.Position(0, 0), types.Position(0, 1))


def diagnostics(judgement: OpenJudgement) -> Iterator[tuple[str, types.Diagnostic]]:
    """Yield every mark with the path, as shown, of the file that it stands in."""
    report = judgement.report
    for finding in report.findings:
        yield finding.at.file, _of_finding(finding, judgement)
    for item in report.set_aside:
        text = f"accepted by deviation: {item.finding.message}"
        yield item.finding.at.file, _mark(item.finding.at, item.finding.rule, text, judgement)
    yield from _of_not_checked(report.not_checked, judgement)
    own = judgement.document.path if judgement.document is not None else ""
    for reason in report.unjudged:
        # What is wrong in the text itself stands there already.
        if own and (reason.status == 3 or reason.subject != own):
            yield own, _of_unjudged(reason)


def _of_unjudged(item: Unjudged) -> types.Diagnostic:
    where = f"{item.subject}, line {item.line}" if item.line else item.subject
    return types.Diagnostic(
        _TOP,
        visible(f"could not be judged: {where}: {item.reason}"),
        severity=types.DiagnosticSeverity.Error,
        code=item.rule,
        source=SOURCE,
    )


def range_of(at: At, judgement: OpenJudgement) -> types.Range:
    """Range of a value in the text that was judged."""
    lines = judgement.lines_of(at.file)
    return _TOP if lines is None else lines.range_of(at.place)


def without_repeats(marks: Iterable[types.Diagnostic]) -> list[types.Diagnostic]:
    """Keep the first of marks that say the same at the same place."""
    kept: dict[tuple[object, ...], types.Diagnostic] = {}
    for mark in marks:
        start, end = mark.range.start, mark.range.end
        key = (start.line, start.character, end.line, end.character, mark.code, mark.message)
        kept.setdefault(key, mark)
    return list(kept.values())


def _of_finding(finding: Finding, judgement: OpenJudgement) -> types.Diagnostic:
    lines = [f"{finding.grade}: {finding.message}"]
    if figures(finding):
        lines.append(f"figure: {figures(finding)}")
    if finding.when is not None and moment(finding.when):
        lines.append(f"when: {moment(finding.when)}")
    if finding.subject and finding.subject != finding.at.document.path:
        lines.append(f"in: {finding.subject}")
    if finding.remedy:
        lines.append(f"do: {finding.remedy}")
    related = [(at, "see also") for at in finding.also]
    related += [(child.at, f"{child.message} ({child.rule})") for child in finding.because]
    return types.Diagnostic(
        _first_line(range_of(finding.at, judgement), finding.at, judgement),
        "\n".join(visible(line) for line in lines),
        severity=_LEVELS[finding.grade],
        code=finding.rule,
        code_description=_page_of(finding.rule, judgement),
        source=SOURCE,
        related_information=[
            types.DiagnosticRelatedInformation(_location(at, judgement), visible(words))
            for at, words in related
        ]
        or None,
    )


def _page_of(rule: str, judgement: OpenJudgement) -> types.CodeDescription | None:
    """Where the page of a rule is: the text at the top of its file."""
    known = [*built_in_rules(), *judgement.report.rules_of_lab]
    files = (one.file for one in known if one.id == rule)
    file = next(files, None)
    return types.CodeDescription(file.absolute().as_uri()) if file is not None else None


def _of_not_checked(
    items: Iterable[NotChecked], judgement: OpenJudgement
) -> Iterator[tuple[str, types.Diagnostic]]:
    """Join what lacks a figure at one place into one mark: a draft lacks many."""
    places: dict[tuple[str, int, int], list[NotChecked]] = {}
    for item in items:
        start = range_of(item.at, judgement).start
        places.setdefault((item.at.file, start.line, start.character), []).append(item)
    for (file, _, _), together in places.items():
        rules: dict[str, list[str]] = {}
        # Those that could stop a run come first.
        for item in sorted(together, key=lambda item: not item.can_stop):
            why = f" ({item.reason})" if item.reason else ""
            rules.setdefault(f"{', '.join(item.missing)}{why}", []).append(item.rule)
        lines = [f"give {what} for {', '.join(dict.fromkeys(ids))}" for what, ids in rules.items()]
        text = "\n".join(["not checked, missing data:", *lines])
        yield file, _mark(together[0].at, "not-checked", text, judgement)


def _mark(at: At, code: str, text: str, judgement: OpenJudgement) -> types.Diagnostic:
    return types.Diagnostic(
        _first_line(range_of(at, judgement), at, judgement),
        "\n".join(visible(line) for line in text.split("\n")),
        severity=types.DiagnosticSeverity.Information,
        code=code,
        source=SOURCE,
    )


def _first_line(whole: types.Range, at: At, judgement: OpenJudgement) -> types.Range:
    """Cut a range to its first line: editors underline all of it."""
    lines = judgement.lines_of(at.file)
    if lines is None or whole.end.line == whole.start.line:
        return whole
    end = lines.position(whole.start.line + 1, len(lines.lines[whole.start.line]) + 1)
    return types.Range(whole.start, end)


def _location(at: At, judgement: OpenJudgement) -> types.Location:
    file = judgement.path_of(at.file)
    return types.Location(file.as_uri(), range_of(at, judgement))
