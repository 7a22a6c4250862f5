"""Start and stop on the card: the order, and flow, time and expected pressure of each step."""

from __future__ import annotations

import math
from collections.abc import Iterator

from methodlint.documents.quantities.format import show
from methodlint.judging.case import BatchCase, RunCase
from methodlint.rehearsal.batch.bench_state import liquid_words, state_wanted
from methodlint.rehearsal.batch.line_facts import FLUSHES, residue_volume
from methodlint.rehearsal.run.extreme import pressure_band_words
from methodlint.rehearsal.run.gentle_flow import HIGH_LIMIT, GentleFlow, GentleFlows, gentle_flows
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.reports.card.blocks import Steps

__all__ = ["start_block", "stop_block"]

_DRAWN = "the pump draws the line down; CO2 pump off when its inlet pressure falls."
_CLEARS = 2.0
"""Volumes of the train that carry neat modifier out of it; common practice, no source."""


def start_block(case: BatchCase) -> Steps:
    """Steps before the first injection, in the order that protects people, column and source."""
    first = case.batch.lines[0].method if case.batch.lines else ""
    run = case.runs.get(first)
    steps = [*_make_safe(case, run), *_make_ready(case, run)]
    rehearsal = run.rehearsal if run is not None else None
    if run is not None and rehearsal is not None and rehearsal.done:
        steps += _flow_steps(run, rehearsal, rehearsal.ask(gentle_flows))
    else:
        steps.append("Modifier first, then CO2, slowly, the regulator holding its pressure.")
        steps.append("Leak check at pressure; only then arm the low limit.")
    sequence = case.sequence
    if sequence is not None and sequence.equilibration is not None:
        length = show(sequence.equilibration.si, "time")
        steps.append(f"Equilibrate for {length} at the starting values until all is steady.")
    return Steps("start", "START, IN THIS ORDER", tuple(steps))


def _make_safe(case: BatchCase, run: RunCase | None) -> Iterator[str]:
    yield "Ventilation running, vents and exhausts open, monitor on, waste not capped."
    limits = run.method.pressure_limits if run is not None and run.method is not None else None
    high = limits.high if limits is not None else None
    trip = case.get("instrument.trips.high_pressure")
    if high is not None:
        yield f"High limit set to {show(high.si, 'pressure')}, trips armed; low limit still off."
    elif trip is not None:
        yield f"Trips armed: the instrument stops at {show(trip.si, 'pressure')}; low limit off."
    else:
        yield "No high limit is given: set one below the lowest rating before any pump starts."


def _make_ready(case: BatchCase, run: RunCase | None) -> Iterator[str]:
    solvents = case.solvents
    if solvents is not None and solvents.purge_volume is not None:
        purge = show(solvents.purge_volume.si, "volume", "mL")
        yield f"Bottles filled as on this card; purge every line in use to waste with {purge}."
    method = run.method if run is not None else None
    if method is not None and method.oven_temperature is not None:
        oven = show(method.oven_temperature.si, "temperature")
        yield f"Column {state_wanted(case.batch).column or 'fitted'}; oven to {oven}."
    head = case.get("instrument.co2_pump.head_temperature")
    cold = f"at {show(head.si, 'temperature')}" if head is not None else "cold"
    yield f"Wait until the CO2 pump head is {cold}; regulator heater on."
    if method is not None and method.makeup is not None:
        yield "Makeup on, before any CO2 reaches the source."


def _flow_steps(case: RunCase, run: Rehearsal, flows: GentleFlows) -> Iterator[str]:
    share = 100.0 * float(run.pumped_share[0])
    outlet = show(float(run.outlet_pressure[0]), "pressure")
    rinse, mixture = flows.rinse, flows.mixture
    slowly = f"CO2 from the cylinder, slowly, regulator at {outlet}"
    if rinse is not None and share > 0.0:
        wet = _minutes(run.dwell_volume / rinse.flow)
        yield (
            f"Modifier alone at {_flow(rinse)} for {wet}, regulator at {outlet}, until it "
            f"reaches the column; expect up to {_pressure(rinse)} at the pumps{_short(rinse)}."
        )
        clear = _minutes(_CLEARS * residue_volume(run) / rinse.flow)
        first = min(rinse.flow, mixture.flow)
        slowly = (
            f"CO2 from the cylinder, slowly, to {show(first, 'volume flow', 'mL/min')} in all "
            f"with {share:.3g} % modifier for {clear}, until the neat modifier has left the column"
        )
    elif share > 0.0:
        yield "Modifier alone at the pump's own part of the flow until it reaches the column."
    yield (
        f"{slowly}; then to {_flow(mixture)}. Expect {_pressure(mixture)} at the pumps; "
        f"stop if it is not so{_short(mixture)}."
    )
    yield "Leak check at this pressure, every fitting; never tighten one under pressure."
    limits = case.method.pressure_limits if case.method is not None else None
    low = limits.low if limits is not None else None
    if flows.set_flow.flow > mixture.flow:
        full = flows.set_flow
        yield f"To the method's {_flow(full)}: expect {_pressure(full)}{_short(full)}."
    yield (
        f"Now arm the low limit, {show(low.si, 'pressure')}."
        if low is not None
        else "Now arm the low limit; the method gives none."
    )


def _flow(state: GentleFlow) -> str:
    return show(state.flow, "volume flow", "mL/min")


def _pressure(state: GentleFlow) -> str:
    return f"{show(state.pressure, 'pressure')} ({pressure_band_words(state.below, state.band)})"


def _short(state: GentleFlow) -> str:
    """What is said where the weakest part keeps less than its reserve."""
    if state.enough:
        return ""
    if state.weakest == HIGH_LIMIT:
        return "; the upper end of that is beyond the high limit"
    left = 100.0 * state.reserve
    kept = f"keeps only {left:.0f} %" if left > 0.0 else "keeps nothing"
    return f"; the {state.weakest} {kept} of its rating"


def _minutes(seconds: float) -> str:
    return f"{max(math.ceil(seconds / 60.0 - 1e-6), 1)} min"


def stop_block(case: BatchCase) -> Steps:
    """Steps behind the last line: the supply is closed first, then what it held is vented."""
    names = [line.method for line in case.batch.lines if line.method in case.runs]
    run = case.runs[names[-1]] if names else None
    rehearsal = run.rehearsal if run is not None and run.rehearsal is not None else None
    done = rehearsal if rehearsal is not None and rehearsal.done else None
    supply = case.supply
    bulk = supply is not None and supply.withdrawal == "bulk"
    valve = "bench's CO2 valve" if bulk else "cylinder valve"
    steps = [
        f"Low limit off. Close the {valve} first, while the CO2 still flows: {_DRAWN}",
        _closed_section(case, valve),
        *_rinse(run, done),
        _let_down(case, done),
    ]
    if any(one.method is not None and one.method.makeup for one in case.runs.values()):
        steps.append("Makeup off last, when no more gas reaches the source.")
    steps.append("Heaters off; write the cylinder's weight and this sequence into the log.")
    return Steps("stop", "STOP, IN THIS ORDER", tuple(steps))


def _closed_section(case: BatchCase, valve: str) -> str:
    sections = case.supply.line_sections if case.supply is not None else ()
    named = ", ".join(
        f"{one.name} (relief {show(one.relief.si, 'pressure')})"
        if one.relief is not None
        else f"{one.name} (no relief on the card)"
        for one in sections
    )
    where = f"between the {valve} and the pump" + (f": {named}" if named else "")
    return (
        f"Vent the closed section {where}: open its vent slowly into the exhaust until its gauge "
        "shows zero; liquid CO2 shut in bursts a line as it warms."
    )


def _rinse(case: RunCase | None, run: Rehearsal | None) -> Iterator[str]:
    modifier = case.method_liquid() if case is not None else None
    if case is not None and modifier is None:
        return
    rinse = run.ask(gentle_flows).rinse if run is not None else None
    if run is None or rinse is None:
        yield "Modifier on, slowly, until the lines are clear of what was run; then off."
        return
    length = _minutes(FLUSHES * residue_volume(run) / rinse.flow)
    yield (
        f"Modifier alone ({liquid_words(modifier)}) at {_flow(rinse)} for {length} until the lines "
        f"are clear of what was run; expect up to {_pressure(rinse)}{_short(rinse)}. Modifier off."
    )


def _let_down(case: BatchCase, run: Rehearsal | None) -> str:
    ramp = case.get("instrument.regulator.ramp")
    how = ""
    if ramp and run is not None:
        outlet = float(run.outlet_pressure[-1]) / 1e5
        how = f", no faster than {ramp:g} bar/min ({_minutes(60.0 * outlet / ramp)})"
    return (
        f"Let the regulator down slowly{how}; wait for zero on every gauge before any fitting is "
        "undone."
    )
