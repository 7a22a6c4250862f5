"""The bench card: what to type in, prepare and expect, also when nothing is wrong."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from methodlint.documents.format import show
from methodlint.judging.case import BatchCase, RunCase
from methodlint.judging.report import Report
from methodlint.rehearsal.co2_supply import cylinder_end
from methodlint.rehearsal.rehearsal import Rehearsal
from methodlint.reports.lines import Line, Words, line, wrapped
from methodlint.reports.safety_words import ALWAYS

_INDENT = 22


def run_lines(report: Report, width: int) -> Iterator[Line]:
    """One line for each run that no sequence's card shows."""
    alone = [run for run in report.runs if "sequence" not in run.documents]
    done = [run for run in alone if run.rehearsal is not None and run.run.done]
    if not done:
        return
    yield []
    yield [Words("REHEARSED", "head"), Words(" predicted; verify on the instrument")]
    for run in done:
        yield from wrapped(
            f"  {run.name}", run_summary(run), max(_INDENT, len(run.name) + 4), width
        )


def run_summary(run: RunCase) -> str:
    """Highest pump pressure, margin to the boundary, CO2 of one run."""
    rehearsal = run.run
    pump = rehearsal.highest(rehearsal.pump_pressure)
    return (
        f"pump up to {show(pump.value, 'pressure')} "
        f"({_plus_minus(pump.band)}) at {show(pump.time, 'time', 'min')}; "
        f"{margin_words(rehearsal)}; "
        f"{show(rehearsal.co2_per_cycle, 'mass', 'g')} CO2 a run"
    )


def margin_words(rehearsal: Rehearsal) -> str:
    """Least margin to the phase boundary before the regulator."""
    margin = float(rehearsal.least_margin.min())
    if margin == float("inf"):
        return "one phase at any pressure"
    return f"{show(margin, 'pressure')} above the phase boundary"


def _plus_minus(band: float) -> str:
    return f"+-{band / 1e5:.0f} bar"


def card_lines(case: BatchCase, width: int) -> Iterator[Line]:
    """Lay out the card of one sequence."""
    batch = case.batch
    yield []
    yield [Words(f"BENCH CARD  {case.documents['sequence'].path}", "head")]
    yield line("  predicted; verify on the instrument")

    def row(label: str, text: str) -> Iterator[Line]:
        yield from wrapped(f"  {label}", text, _INDENT, width)

    sequence = case.sequence
    assert sequence is not None
    operator = ", ".join(text for text in (sequence.operator, sequence.phone) if text)
    if operator:
        yield from row("operator", operator)
    if "instrument" in case.documents:
        yield from row("instrument", case.documents["instrument"].name)
    for name, run in case.runs.items():
        if run.rehearsal is None or not run.run.done:
            yield from row(name, "could not be rehearsed: see NOT CHECKED")
            continue
        yield from _method_rows(name, run, width)
    yield from row("injections", f"{batch.injections} in {len(batch.lines)} lines")
    yield from row("takes", _clock(case))
    if not batch.missing:
        yield from row("CO2", _co2_words(case))
    yield from row("bottles", _bottles(case))
    fills = _fills(case)
    if fills:
        yield from row("vials", fills)
    yield from row("start", "makeup and modifier first, then CO2; wait for steady pressure")
    yield from row("stop", "CO2 off, modifier on until the lines are clear, makeup off last")
    if sequence.leaves is not None and sequence.leaves.column:
        yield from row("leaves", f"column {sequence.leaves.column}")
    phone = getattr(case.lab.model, "phone", None) if case.lab else None
    steps = getattr(case.lab.model, "emergency", ()) if case.lab else ()
    if phone or steps:
        yield from row("emergency", " ".join([*steps, f"Phone {phone}." if phone else ""]).strip())
    for text in ALWAYS:
        yield from row("safety", text)
    yield from row("read and understood", "name ____________________  date ____________")


def _method_rows(name: str, run: RunCase, width: int) -> Iterator[Line]:
    rehearsal = run.run
    start = rehearsal.start_row
    for label, pressure in (
        ("pump", rehearsal.pump_pressure),
        ("column inlet", rehearsal.column_inlet_pressure),
        ("column outlet", rehearsal.column_outlet_pressure),
    ):
        worst = rehearsal.highest(pressure)
        text = (
            f"{show(float(pressure[start]), 'pressure')} at start, "
            f"{show(worst.value, 'pressure')} ({_plus_minus(worst.band)}) highest "
            f"at {show(worst.time, 'time', 'min')}, "
            f"{show(float(pressure[-1]), 'pressure')} at the end"
        )
        yield from wrapped(f"  {label}", f"{name}: {text}", _INDENT, width)
    yield from wrapped("  boundary", f"{name}: {margin_words(rehearsal)}", _INDENT, width)
    limits = run.method.pressure_limits if run.method else None
    if limits is not None:
        high = show(limits.high.si, "pressure") if limits.high else "not set"
        low = show(limits.low.si, "pressure") if limits.low else "not set"
        yield from wrapped("  limits to type in", f"{name}: high {high}, low {low}", _INDENT, width)


def _clock(case: BatchCase) -> str:
    batch = case.batch
    text = show(batch.duration, "time", "h")
    sequence = case.sequence
    if sequence is not None and sequence.begins is not None:
        end = sequence.begins + datetime.timedelta(seconds=round(batch.duration))
        text += f", from {sequence.begins:%Y-%m-%d %H:%M} to {end:%Y-%m-%d %H:%M}"
    return text


def _co2_words(case: BatchCase) -> str:
    text = f"{show(case.batch.co2_demand, 'mass', 'kg')} needed"
    if "supply" not in case.documents:
        return text
    end = cylinder_end(case.documents["supply"], case.batch, heel(case))
    if end is None:
        return text
    usable = end.usable
    text += (
        f", {usable.expected:.2f} kg usable as liquid ({usable.least:.2f} to "
        f"{usable.most:.2f} kg; {usable.vapour:.1f} kg stays behind as vapour)"
    )
    if end.expected_first is not None:
        text += (
            f"; the liquid ends during injection {end.expected_first} to {end.expected_last}, "
            f"not before {end.not_before}"
        )
    supply = case.supply
    if supply is not None and supply.spare_mass is not None:
        text += f"; spare {show(supply.spare_mass.si, 'mass', 'kg')}"
    return text


def heel(case: BatchCase) -> float:
    """Mass that the lab leaves in a cylinder [kg]."""
    return case.policy.cylinder_heel.si if case.policy.cylinder_heel is not None else 0.0


def _bottles(case: BatchCase) -> str:
    parts = [f"modifier {show(case.batch.modifier_demand, 'volume', 'mL')}"]
    if case.batch.makeup_demand > 0.0:
        parts.append(f"makeup {show(case.batch.makeup_demand, 'volume', 'mL')}")
    return ", ".join(parts) + " without purging"


def _fills(case: BatchCase) -> str:
    """Least fill of every vial that is drawn from more than once."""
    drawn: dict[tuple[str, str], float] = {}
    times: dict[tuple[str, str], int] = {}
    for each in case.batch.lines:
        if each.position is None or each.drawn_per_injection is None or not each.injects:
            continue
        count = each.last_injection - each.first_injection + 1
        drawn[each.position] = drawn.get(each.position, 0.0) + count * each.drawn_per_injection
        times[each.position] = times.get(each.position, 0) + count
    often = [
        f"{plate}/{well} {show(volume, 'volume', 'uL')} for {times[plate, well]}"
        for (plate, well), volume in sorted(drawn.items())
        if times[plate, well] > 1
    ]
    return "drawn beside the dead volume: " + ", ".join(often) if often else ""
