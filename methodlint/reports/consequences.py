"""What a run or a batch amounts to, in a few figures that two reports can be compared by."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from methodlint.checking.report import Report
from methodlint.judging.case import BatchCase, RunCase
from methodlint.judging.finding import GRADES, Finding
from methodlint.rehearsal.run.figures import run_figures

_DIGITS = 6


@dataclass(frozen=True, slots=True)
class ConsequenceQuantity:
    """One figure of a run or a batch: key in the report, words for people, unit."""

    key: str
    words: str
    unit: str


RUN_QUANTITIES = (
    ConsequenceQuantity("outlet_pressure_at_start", "outlet pressure as set at start", "bar"),
    ConsequenceQuantity("flow_at_start", "flow as set at start", "mL/min"),
    ConsequenceQuantity("modifier_share_at_start", "modifier share as set at start", "%"),
    ConsequenceQuantity("highest_pump_pressure", "highest pump pressure", "bar"),
    ConsequenceQuantity("highest_column_inlet_pressure", "highest column inlet pressure", "bar"),
    ConsequenceQuantity("highest_column_drop", "highest drop over the columns", "bar"),
    ConsequenceQuantity("lowest_column_outlet_pressure", "lowest column outlet pressure", "bar"),
    ConsequenceQuantity("least_boundary_margin", "least margin to the phase boundary", "bar"),
    ConsequenceQuantity("mean_column_density_at_start", "mean column density at start", "kg/m3"),
    ConsequenceQuantity("lowest_mean_column_density", "lowest mean column density", "kg/m3"),
    ConsequenceQuantity("hold_up_time_at_start", "hold-up time at start", "min"),
    ConsequenceQuantity("cycle_time", "run length and settling time", "min"),
    ConsequenceQuantity("co2_per_run", "CO2 per run", "g"),
    ConsequenceQuantity("modifier_per_run", "modifier per run", "mL"),
)
BATCH_QUANTITIES = (
    ConsequenceQuantity("injections", "injections", ""),
    ConsequenceQuantity("duration", "duration", "h"),
    ConsequenceQuantity("co2", "CO2", "kg"),
    ConsequenceQuantity("modifier", "modifier", "mL"),
    ConsequenceQuantity("makeup", "makeup", "mL"),
)


def rounded(value: float | None) -> float | None:
    """Round to six significant digits, so that the last bits of a processor do not show.

    None for what is not finite: it has no place in a report.
    """
    if value is None or not math.isfinite(value):
        return None
    return float(f"{value:.{_DIGITS}g}")


def run_data(run: RunCase) -> dict[str, Any]:
    """Give one method on one instrument as plain data, its counts of findings left out."""
    method, instrument = run.documents["method"], run.documents.get("instrument")
    lost = run.unresolved.get("instrument")
    done = run.rehearsal is not None and run.run.done
    return {
        "subject": run.name,
        "path": method.path,
        "instrument": instrument.name if instrument is not None else None,
        "instrument_path": instrument.path if instrument is not None else None,
        "instrument_lost": lost is not None,
        "with_bench": "sequence" in run.documents,
        "missing": [] if done or run.rehearsal is None else [m.where for m in run.run.missing],
        "figures": _measures(RUN_QUANTITIES, run_figures(run.run)) if done else None,
        "column_by_log": _logged_words(run) if done else None,
    }


def _logged_words(run: RunCase) -> str | None:
    """From how many logged pressures the column's resistance follows; None without a logbook."""
    logged = run.run.plan.logged
    return logged.words if logged is not None else None


def batch_data(batch: BatchCase) -> dict[str, Any]:
    """Give one sequence as plain data."""
    done = batch.batch
    figures: dict[str, float | None] = {
        "injections": float(done.injections),
        "duration": done.duration / 3600.0,
        "co2": done.co2_demand,
        "modifier": done.modifier_demand * 1e6,
        "makeup": done.makeup_demand * 1e6,
    }
    instrument = batch.documents.get("instrument")
    return {
        "subject": batch.name,
        "path": batch.documents["sequence"].path,
        "instrument": instrument.name if instrument is not None else None,
        "missing": [item.where for item in done.missing],
        "figures": _measures(BATCH_QUANTITIES, figures) if not done.missing else None,
    }


def consequences_data(report: Report) -> dict[str, Any]:
    """Give the runs and batches of a report as plain data, in order of subject."""
    by_subject: dict[str, list[Finding]] = {}
    for finding in report.findings:
        by_subject.setdefault(finding.subject, []).append(finding)
    runs = [run_data(run) for run in report.runs] + [run.data for run in report.plain_runs]
    batches = [batch_data(batch) for batch in report.batches]
    batches += [batch.data for batch in report.plain_batches]
    counted = [{**run, "counts": _counts(by_subject.get(run["subject"], ()))} for run in runs]
    return {
        "runs": sorted(counted, key=lambda item: (item["path"], item["subject"])),
        "batches": sorted(batches, key=lambda item: item["path"]),
    }


def _counts(findings: Iterable[Finding]) -> dict[str, int]:
    grades = [finding.grade for finding in findings]
    return {grade: grades.count(grade) for grade in GRADES}


def _measures(
    quantities: Iterable[ConsequenceQuantity], figures: dict[str, float | None]
) -> dict[str, dict[str, Any]]:
    return {
        quantity.key: {"value": rounded(figures[quantity.key]), "unit": quantity.unit}
        for quantity in quantities
    }
