"""Lines of a sequence with settings of their own, as cases beside the runs of its methods."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import fields, replace

from methodlint.documents.kinds.sequence import Sequence as SequenceModel
from methodlint.documents.text.places import Path
from methodlint.judging.case import BatchCase, RunCase
from methodlint.judging.finding import Finding, severity
from methodlint.judging.judged import Judged
from methodlint.judging.line_case import LineCase
from methodlint.rehearsal.batch.lines import INJECTING
from methodlint.rehearsal.plan.column_content import Content
from methodlint.rehearsal.plan.line_settings import LineSettings, co2_flows, flowing, settings_of
from methodlint.rehearsal.run.rehearsal import Rehearsal

__all__ = ["added_lines", "keep_the_worse", "line_cases"]


def line_cases(batch: BatchCase) -> list[LineCase]:
    """Build the cases of one rehearsed sequence, alike lines together, not yet rehearsed.

    A line that does not say whether CO2 flows is a case with it and one without. A line that meets
    something thicker in its column is a case of its own for as long as that is pushed out.
    """
    sequence: SequenceModel = batch.documents["sequence"].model
    found: dict[tuple[str, LineSettings, bool, bool], list[int]] = {}
    contents: dict[tuple[str, ...], Content] = {}
    for index, name in _methods_in_use(sequence):
        run = batch.runs.get(name)
        if run is None or run.rehearsal is None:
            continue
        line = sequence.lines[index]
        injects = line.kind in INJECTING
        said = True if injects else co2_flows(line)
        columns = tuple(column.path for column in run.columns)
        content = contents.get(columns)
        for co2 in (True, False) if said is None else (said,):
            settings = settings_of(line, run.rehearsal.plan, co2, injects=injects)
            if settings is not None:
                found.setdefault((name, settings, co2, said is None), []).append(index)
            flows = flowing(line, run.rehearsal.plan, co2, injects=injects)
            if flows is None:
                continue
            if content is not None and content.may_be_thicker(flows.liquid, flows.share):
                flows = replace(flows, pushes=content)
                found.setdefault((name, flows, co2, said is None), []).append(index)
            if injects or _passes(flows, run.rehearsal):
                contents[columns] = Content(flows.liquid, flows.share, flows.flow)
    return [
        _case(batch.runs[name], tuple(indices), co2, settings.pushes)
        for (name, settings, co2, _), indices in found.items()
    ]


def _passes(settings: LineSettings, run: Rehearsal) -> bool:
    """Whether a step is long enough to fill the column."""
    if not run.done:
        return True
    return settings.flow * settings.length >= run.dwell_volume + run.hold_up_volume


def added_lines(before: BatchCase, after: BatchCase) -> list[LineCase]:
    """Cases that a changed sequence has and the one before it has not."""
    known = before.documents["sequence"].model.lines
    if after.documents["sequence"].model.lines == known:
        return []
    pushing = [(one.line, one.pushes) for one in line_cases(before)]
    return [
        case
        for case in line_cases(after)
        if case.line not in known
        or (case.pushes is not None and (case.line, case.pushes) not in pushing)
    ]


def _methods_in_use(sequence: SequenceModel) -> Iterator[tuple[int, str]]:
    """Each line with its method; a step that names none goes through the column in use."""
    first = next((line.method for line in sequence.lines if line.method is not None), "")
    in_use = ""
    for index, line in enumerate(sequence.lines):
        step = line.kind not in INJECTING and line.kind != "equilibration"
        name = line.method or (in_use if step else "") or sequence.method or first or ""
        in_use = name
        yield index, name


def _case(run: RunCase, indices: tuple[int, ...], co2: bool, pushes: Content | None) -> LineCase:
    kept = {one.name: getattr(run, one.name) for one in fields(RunCase) if one.init}
    kept |= {"rehearsal": None, "contacts": (), "source": None, "earlier": None}
    return LineCase(**kept, indices=indices, assumed=co2, pushes=pushes)


def keep_the_worse(judged: Sequence[Judged]) -> None:
    """Of a line that is several cases, keep the findings of each rule where they are worse."""
    worst: dict[tuple[str, str, Path], tuple[tuple[int, float], Judged]] = {}
    several = [result for result in judged if isinstance(result.case, LineCase)]
    for result in several:
        for finding in result.findings:
            badness = _badness(finding)
            known = worst.get(finding.key)
            if known is None or badness < known[0]:
                worst[finding.key] = badness, result
    for result in several:
        result.findings = [one for one in result.findings if worst[one.key][1] is result]


def _badness(finding: Finding) -> tuple[int, float]:
    """Order of two findings of one rule: the class, then how far beyond the limit."""
    beyond = 0.0
    if finding.found is not None and finding.limit is not None and finding.limit.value > 0.0:
        beyond = finding.found.value / finding.limit.value
    return severity(finding.grade), -beyond
