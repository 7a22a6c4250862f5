"""Lines of a sequence with settings of their own, as cases beside the runs of its methods."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import fields
from typing import cast

from methodlint.documents.kinds.sequence import Sequence as SequenceModel
from methodlint.judging.case import BatchCase, RunCase
from methodlint.judging.finding import Finding, severity
from methodlint.judging.judged import Judged
from methodlint.judging.line_case import LineCase
from methodlint.rehearsal.batch.lines import INJECTING
from methodlint.rehearsal.plan.line_settings import LineSettings, co2_flows, settings_of

__all__ = ["added_lines", "keep_the_worse", "line_cases"]


def line_cases(batch: BatchCase) -> list[LineCase]:
    """Build the cases of one rehearsed sequence, alike lines together, not yet rehearsed.

    A line that does not say whether CO2 flows is a case with it and one without.
    """
    sequence = cast(SequenceModel, batch.documents["sequence"].model)
    found: dict[tuple[str, LineSettings, bool], list[int]] = {}
    for index, name in _methods_in_use(sequence):
        run = batch.runs.get(name)
        if run is None or run.rehearsal is None:
            continue
        line = sequence.lines[index]
        injects = line.kind in INJECTING
        said = True if injects else co2_flows(line)
        for co2 in (True, False) if said is None else (said,):
            settings = settings_of(line, run.rehearsal.plan, co2, injects=injects)
            if settings is not None:
                found.setdefault((name, settings, said is None), []).append(index)
    return [
        _case(batch.runs[name], tuple(indices), settings.co2)
        for (name, settings, _), indices in found.items()
    ]


def added_lines(before: BatchCase, after: BatchCase) -> list[LineCase]:
    """Cases of the lines that a changed sequence has and the one before it has not."""
    known = cast(SequenceModel, before.documents["sequence"].model).lines
    if cast(SequenceModel, after.documents["sequence"].model).lines == known:
        return []
    return [case for case in line_cases(after) if case.line not in known]


def _methods_in_use(sequence: SequenceModel) -> Iterator[tuple[int, str]]:
    """Each line with its method; a step that names none goes through the column in use."""
    first = next((line.method for line in sequence.lines if line.method is not None), "")
    in_use = ""
    for index, line in enumerate(sequence.lines):
        step = line.kind not in INJECTING and line.kind != "equilibration"
        name = line.method or (in_use if step else "") or sequence.method or first or ""
        in_use = name
        yield index, name


def _case(run: RunCase, indices: tuple[int, ...], co2: bool) -> LineCase:
    kept = {one.name: getattr(run, one.name) for one in fields(RunCase) if one.init}
    kept |= {"rehearsal": None, "contacts": (), "source": None, "earlier": None}
    return LineCase(**kept, indices=indices, assumed=co2)


def keep_the_worse(judged: Sequence[Judged]) -> None:
    """Of a line that was judged with CO2 and without, keep the worse finding of each rule."""
    pairs: dict[tuple[str, tuple[int, ...]], list[Judged]] = {}
    for result in judged:
        if isinstance(result.case, LineCase) and result.case.unsaid:
            key = result.case.sequence_document.path, result.case.indices
            pairs.setdefault(key, []).append(result)
    for first, second in (pair for pair in pairs.values() if len(pair) == 2):
        worst: dict[str, Finding] = {}
        for finding in (*first.findings, *second.findings):
            known = worst.get(finding.rule)
            if known is None or _badness(finding) < _badness(known):
                worst[finding.rule] = finding
        for result in (first, second):
            result.findings = [f for f in result.findings if worst[f.rule] is f]


def _badness(finding: Finding) -> tuple[int, float]:
    """Order of two findings of one rule: the class, then how far beyond the limit."""
    beyond = 0.0
    if finding.found is not None and finding.limit is not None and finding.limit.value > 0.0:
        beyond = finding.found.value / finding.limit.value
    return severity(finding.grade), -beyond
