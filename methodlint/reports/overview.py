"""Many documents on one screen: a row for each method and sequence, with its verdict."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from methodlint.checking.report import Report
from methodlint.documents.quantities.format import show
from methodlint.judging.case import BatchCase, RunCase
from methodlint.judging.finding import Finding
from methodlint.judging.shared.supply_end import supply_end
from methodlint.rehearsal.batch.line_facts import clock_at
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.train_places import train_places
from methodlint.reports.card.pressures import bar, minutes

__all__ = [
    "OverviewRow",
    "batch_row",
    "concerns_row",
    "groups_by_document",
    "overview_rows",
    "row_verdict",
    "run_row",
]

NOTHING = "-"


@dataclass(frozen=True, slots=True)
class OverviewRow:
    """What one line says of a method on an instrument, or of a sequence.

    Attributes
    ----------
    path
        Document.
    instrument
        Name of the instrument; empty without one.
    subjects
        What its findings are said of: names of runs, the path of the sequence.
    documents
        Paths of everything that takes part.
    part, pressure
        The part closest to its limit; highest pressure, band and limit in bar.
    margin
        Least margin to the phase boundary in bar.
    co2, co2_ends, ends
        CO2 of the run or the sequence; the injections at which the supply ends; when the run or
        the sequence does.
    """

    path: str
    instrument: str
    subjects: tuple[str, ...]
    documents: tuple[str, ...]
    part: str = NOTHING
    pressure: str = NOTHING
    margin: str = NOTHING
    co2: str = NOTHING
    co2_ends: str = NOTHING
    ends: str = NOTHING


def run_row(case: RunCase) -> OverviewRow:
    """Say what one method on one instrument amounts to."""
    method, instrument = case.documents["method"], case.documents.get("instrument")
    documents = [method, *case.columns, *([instrument] if instrument else [])]
    told: dict[str, str] = {}
    if case.rehearsal is not None and case.run.done:
        run = case.run
        told = _pressures([run])
        told["co2"] = f"{show(run.co2_per_cycle, 'mass', 'g')}"
        told["ends"] = f"{minutes(run.programme.cycle)} min"
    return OverviewRow(
        path=method.path,
        instrument=instrument.name if instrument else "",
        subjects=(case.name,),
        documents=tuple(document.path for document in documents),
        **told,
    )


def batch_row(case: BatchCase) -> OverviewRow:
    """Say what one sequence amounts to."""
    runs = list(case.runs.values())
    documents = dict.fromkeys(document.path for document in case.documents.values())
    for run in runs:
        documents |= dict.fromkeys(one.path for one in (*run.documents.values(), *run.columns))
    if case.lab is not None:
        documents[case.lab.path] = None
    instrument = case.documents.get("instrument")
    told = _pressures([r.run for r in runs if r.rehearsal is not None and r.run.done])
    if not case.batch.missing:
        told["co2"] = show(case.batch.co2_demand, "mass", "kg")
        begins = case.sequence.begins if case.sequence is not None else None
        length = show(case.batch.duration, "time", "h")
        ends = clock_at(begins, round(case.batch.duration)) if begins is not None else None
        told["ends"] = f"{ends:%m-%d %H:%M}" if ends is not None else f"after {length}"
    told["co2_ends"] = _co2_end(case)
    return OverviewRow(
        path=case.documents["sequence"].path,
        instrument=instrument.name if instrument else "",
        subjects=(case.name, *(run.name for run in runs)),
        documents=tuple(documents),
        **told,
    )


def _pressures(runs: list[Rehearsal]) -> dict[str, str]:
    """The part that is closest to its limit in any run, and the thinnest margin."""
    told: dict[str, str] = {}
    worst, thinnest = 0.0, np.inf
    for run in runs:
        thinnest = min(thinnest, float(np.min(run.least_margin)))
        for place in train_places(run) if run.plan.instrument is not None else ():
            limit = float(np.min(place.limit)) if place.limit is not None else np.inf
            if not np.isfinite(limit) or limit <= 0.0:
                continue
            highest = run.highest(place.pressure)
            used = (highest.value + highest.band) / limit
            if used > worst:
                worst = used
                told["part"] = place.name
                told["pressure"] = f"{bar(highest.value)} +{highest.band / 1e5:.0f}/{bar(limit)}"
    if runs:
        told["margin"] = f"{thinnest / 1e5:+.0f}" if np.isfinite(thinnest) else "always"
    return told


def _co2_end(case: BatchCase) -> str:
    found = supply_end(case)
    end = found.end
    if end is None:
        return "bulk tank" if case.supply is not None and case.supply.withdrawal == "bulk" else "?"
    if end.expected_first is not None:
        last = end.expected_last or 0
        first = max(end.expected_first, 1)
        return f"at {first}-{last}" if last > first else f"at {first}"
    return "may end" if end.not_before is not None else "enough"


def overview_rows(report: Report) -> list[OverviewRow]:
    """Rows of a report: sequences, and methods that none of them runs, by path."""
    rows = [run_row(run) for run in report.runs if "sequence" not in run.documents]
    rows += [run.row for run in report.plain_runs if not run.with_bench]
    rows += [batch_row(batch) for batch in report.batches]
    rows += [batch.row for batch in report.plain_batches]
    shown = {row.path for row in rows}
    unread = dict.fromkeys(item.subject for item in report.unusable if item.subject not in shown)
    rows += [OverviewRow(path, "", (path,), (path,)) for path in unread if path in report.documents]
    return sorted(rows, key=lambda row: (row.path, row.instrument))


def row_verdict(report: Report, row: OverviewRow) -> str:
    """Verdict of one row: everything that takes part in it counts."""
    documents, subjects = set(row.documents), set(row.subjects)
    if any(item.subject in documents for item in report.unusable):
        return "do not run"
    if any(failed.subject in documents | subjects for failed in report.failed):
        return "do not run"
    grades = {f.grade for f in report.findings if concerns_row(report, f, row)}
    if grades & {"stop", "fault"}:
        return "do not run"
    if row.path in report.in_part:
        return "judged in part"
    aside = any(
        item.finding.grade == "stop"
        and {item.document.path, *report.judged(item.finding)} & documents
        for item in report.set_aside
    )
    lacking = any(
        report.said_of.get(item, {item.subject}) & (subjects | documents)
        for item in report.unchecked_stops
    )
    return "run with care" if "caution" in grades or aside or lacking else "clear to run"


def concerns_row(report: Report, finding: Finding, row: OverviewRow) -> bool:
    """Whether a finding is about a row, or about something that takes part in it."""
    judged = set(report.judged(finding))
    if row.path in judged and row.path == row.subjects[0]:
        return True
    said_of = report.said_of.get(finding, {finding.subject})
    if said_of & set(row.subjects) and judged & set(row.documents):
        return True
    # What is said of a document by itself concerns whatever uses it.
    return bool(said_of & set(row.documents))


def groups_by_document(
    report: Report, findings: Iterable[Finding]
) -> Iterator[tuple[str, list[Finding]]]:
    """Group findings by the row that they concern alone, else by the document that was judged."""
    rows = overview_rows(report)
    groups: dict[str, list[Finding]] = {}
    for finding in findings:
        concerned = {row.path for row in rows if concerns_row(report, finding, row)}
        path = concerned.pop() if len(concerned) == 1 else report.judged(finding)[0]
        groups.setdefault(path, []).append(finding)
    yield from groups.items()
