"""What is computed at a value: the state at a row, what a limit meets, when a line runs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

import numpy as np
from pydantic import BaseModel

from methodlint.checking.report import Report
from methodlint.documents.kinds.column import Column
from methodlint.documents.kinds.method import Method
from methodlint.documents.loading import Loaded
from methodlint.documents.quantities.format import show
from methodlint.documents.text.places import Path
from methodlint.documents.text.visible import visible
from methodlint.judging.case import BatchCase, RunCase
from methodlint.rehearsal.batch.lines import LineRun
from methodlint.rehearsal.run.extreme import Extreme, pressure_band_words
from methodlint.rehearsal.run.phase_places import thinnest_band_words
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.train_places import train_places
from methodlint.reports.card.pressures import minutes, run_summary

__all__ = ["concerns", "hover_text"]

_MOST_RUNS = 5
_PREDICTED = "predicted; verify on the instrument"


def concerns(report: Report, path: str) -> bool:
    """Whether a report holds a run or a batch that a document takes part in."""
    return any(path in _paths(run) for run in report.runs) or any(
        path in (document.path for document in batch.documents.values()) for batch in report.batches
    )


def hover_text(document: Loaded, path: Path, reports: Iterable[Report]) -> str:
    """Say what is known about a value.

    Parameters
    ----------
    document
        The document that it stands in.
    path
        Path of the value.
    reports
        What was found, about this document and about those that depend on it.

    Returns
    -------
    str
        Lines of plain text; empty if there is nothing to say.
    """
    parts = [_description(document, path)]
    runs: dict[str, RunCase] = {}
    batches: dict[str, BatchCase] = {}
    for report in reports:
        for run in report.runs:
            if document.path in _paths(run) and run.rehearsal is not None and run.run.done:
                runs.setdefault(run.name, run)
        for batch in report.batches:
            if document.path in (one.path for one in batch.documents.values()):
                batches.setdefault(batch.name, batch)
    if document.kind in ("method", "column", "instrument"):
        hardest = sorted(runs.values(), key=lambda run: (-np.max(run.run.pump_pressure), run.name))
        parts += ["\n".join(_of_run(document, path, run)) for run in hardest[:_MOST_RUNS]]
        if len(hardest) > _MOST_RUNS:
            parts.append(f"and {len(hardest) - _MOST_RUNS} more runs at lower pressures")
    if document.kind in ("sequence", "supply", "solvents", "room"):
        parts += ["\n".join(_of_batch(document, path, one)) for _, one in sorted(batches.items())]
    return "\n\n".join(
        "\n".join(visible(line) for line in part.split("\n")) for part in parts if part
    )


def _paths(run: RunCase) -> set[str]:
    return {one.path for one in (*run.documents.values(), *run.columns)}


def _description(document: Loaded, path: Path) -> str:
    """What the key means, as its model says it."""
    value: Any = document.model
    words = ""
    for step in path:
        if isinstance(value, BaseModel) and isinstance(step, str):
            known = type(value).model_fields.get(step)
            words = (known.description or "") if known is not None else ""
            value = getattr(value, step, None)
        elif isinstance(value, tuple) and isinstance(step, int) and step < len(value):
            value = value[step]
        else:
            return words
    return words


# Runs --------------------------------------------------------------------------------------


def _of_run(document: Loaded, path: Path, case: RunCase) -> Iterator[str]:
    run = case.run
    if document.kind == "column":
        yield f"{case.name} ({_PREDICTED})"
        yield from _at_column(document.model, document.name, run)
        return
    if document.kind == "instrument":
        yield f"{case.name} ({_PREDICTED})"
        yield from _at_part(path, run)
        return
    method: Method = document.model
    row = run.start_row
    number = path[1] if path[0] == "programme" and len(path) > 1 else None
    if isinstance(number, int) and number < len(method.programme):
        row = int(np.argmin(np.abs(run.time - method.programme[number].time.si)))
    yield f"{case.name} at {minutes(float(run.time[row]))} min ({_PREDICTED})"
    yield from _state(run, row)
    if path[0] != "programme":
        yield f"whole run: {run_summary(case)}"


def _state(run: Rehearsal, row: int) -> Iterator[str]:
    """What holds at one time of a run."""
    flow = show(float(run.set_flow[row]), "volume flow")
    yield (
        f"set: {flow}, {run.pumped_share[row] * 100.0:.3g} % modifier, "
        f"outlet {show(float(run.outlet_pressure[row]), 'pressure')}"
    )
    pump = float(run.pump_pressure[row])
    ends = (float(side[row]) for side in run.pressure_band(run.pump_pressure))
    band = pressure_band_words(*ends)
    inlet, outlet = run.column_inlet_pressure[row], run.column_outlet_pressure[row]
    yield (
        f"pressure: pumps {show(pump, 'pressure')} ({band}), column inlet "
        f"{show(float(inlet), 'pressure')}, column outlet {show(float(outlet), 'pressure')}"
    )
    mean, end = run.mean_column_density[row], run.column_outlet_density[row]
    w, temperature, pressure = (float(of[row]) for of in run.outlet_states)
    off = 100.0 * float(run.fluid.density_band(w, temperature, pressure))
    yield (
        f"density: {show(float(mean), 'density')} in the column, "
        f"{show(float(end), 'density')} at its outlet (band +-{off:.2g} %)"
    )
    yield f"phase boundary: {_margin(float(run.least_margin[row]), thinnest_band_words(run, row))}"


def _margin(margin: float, band: str) -> str:
    if not np.isfinite(margin):
        return "one phase at any pressure"
    said = f"({band})"
    if margin < 0.0:
        return f"{show(-margin, 'pressure')} below it {said}: two phases"
    return f"margin {show(margin, 'pressure')} {said}"


def _at_column(card: Column, name: str, run: Rehearsal) -> Iterator[str]:
    """What the limits of a column card meet."""
    try:
        worst = run.worst_points.of(name)
    except KeyError:
        return
    yield from _against("inlet", worst.pressure, _si(card.pressure_rating))
    yield from _against("drop", worst.drop, _si(card.drop_rating))
    above = f"band +{show(worst.margin.band, 'pressure')}"
    yield f"phase boundary in it: {_margin(worst.margin.value, above)}"
    inside = [i for i, segment in enumerate(run.train.segments) if segment.name == name]
    warmest = max(float(np.max(run.temperature[:, run.slices_of(i)])) for i in inside)
    limit = card.temperature_limit
    stands = f", limit {show(limit.si, 'temperature')}" if limit is not None else ""
    yield f"temperature: {show(warmest, 'temperature')}{stands}"


def _si(value: Any) -> float | None:
    return None if value is None else float(value.si)


def _against(name: str, worst: Extreme, limit: float | None) -> Iterator[str]:
    """Write a worst value beside what the card allows."""
    text = f"{name}: up to {show(worst.value, 'pressure')} ({worst.band_words})"
    text += f" at {minutes(worst.time)} min"
    if limit is not None:
        text += f", limit {show(limit, 'pressure')}, margin {_signed(limit - worst.value)}"
    yield text


def _signed(pressure: float) -> str:
    sign = "-" if pressure < 0.0 else ""
    return f"{sign}{show(abs(pressure), 'pressure')}"


def _at_part(path: Path, run: Rehearsal) -> Iterator[str]:
    """What the parts of a train meet: the one under the cursor, or all that are rated."""
    places = train_places(run)
    if path[0] == "train" and len(path) > 1 and path[1] in run.plan.part_of_segment:
        number = run.plan.part_of_segment.index(path[1])
        segment = run.worst_points[number]
        yield from _against(segment.name, segment.pressure, None)
        yield from _against(f"lost in {segment.name}", segment.drop, None)
        places = [place for place in places if place.name == segment.name]
    for place in places:
        if place.limit is not None and np.isfinite(place.limit).any():
            row = int(np.argmin(place.limit - place.pressure))
            here, limit = float(place.pressure[row]), float(place.limit[row])
            yield (
                f"{place.name}: {show(here, 'pressure')} of {show(limit, 'pressure')} at "
                f"{minutes(float(run.time[row]))} min, margin {_signed(limit - here)}"
            )


# Batches -----------------------------------------------------------------------------------


def _of_batch(document: Loaded, path: Path, case: BatchCase) -> Iterator[str]:
    batch = case.batch
    if batch.missing:
        yield f"{case.name}: not rehearsed, missing {', '.join(m.where for m in batch.missing)}"
        return
    yield f"{case.name} ({_PREDICTED})"
    if document.kind == "sequence" and path[0] == "lines" and len(path) > 1:
        found = [line for line in batch.lines if line.index == path[1]]
        if found:
            yield from _of_line(found[0], batch.equilibration_co2, batch.lines)
            return
    yield (
        f"{batch.injections} injections in {show(batch.duration, 'time')}; "
        f"{show(batch.co2_demand, 'mass')} CO2, {show(batch.modifier_demand, 'volume')} modifier"
    )


def _of_line(line: LineRun, before: float, lines: Iterable[LineRun]) -> Iterator[str]:
    if line.injects:
        last = line.last_injection
        several = f" to {last}" if last != line.first_injection else ""
        yield f"injection {line.first_injection}{several}"
    yield f"from {show(line.begins, 'time')} to {show(line.ends, 'time')} after the start"
    used = before + sum(other.co2 for other in lines if other.index <= line.index)
    yield f"CO2 taken until its end: {show(used, 'mass')}, {show(line.co2, 'mass')} of it here"
