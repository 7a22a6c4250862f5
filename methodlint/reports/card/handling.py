"""Start, stop, hand-over and emergency on the card."""

from __future__ import annotations

from methodlint.documents.kinds.lab import Lab
from methodlint.documents.quantities.format import show
from methodlint.judging.case import BatchCase
from methodlint.rehearsal.batch.bench_state import (
    BenchState,
    differences,
    said_state,
    state_left,
    state_wanted,
)
from methodlint.rehearsal.run.extreme import pressure_band_words
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.reports.card.blocks import CardRows, Steps
from methodlint.reports.safety_words import ALWAYS, CAUTIONS, COLLECTING

__all__ = [
    "caution_block",
    "emergency_block",
    "found_block",
    "left_block",
    "start_block",
    "stop_block",
]

_NO_STEPS = "Leave the room, close the door, let nobody in; call for help from outside."


def state_words(state: BenchState) -> str:
    """Write what is known of a state."""
    parts = [
        f"{state.modifier} in the modifier lines" if state.modifier else "",
        f"column {state.column}" if state.column else "",
        f"oven {show(state.oven_temperature, 'temperature')}" if state.oven_temperature else "",
        f"CO2 {state.co2}" if state.co2 else "",
        f"makeup {state.makeup}" if state.makeup else "",
    ]
    return ", ".join(part for part in parts if part)


def found_block(case: BatchCase) -> CardRows | None:
    """State that the booking before left, and what has to change before the first line."""
    sequence = case.sequence
    found = said_state(sequence.previous if sequence is not None else None)
    if not found.known:
        return None
    rows = [("left by the last", state_words(found))]
    for what, first, second in differences(found, state_wanted(case.batch)):
        rows.append(("change", f"{what}: {first} -> {second}"))
    if len(rows) == 1:
        rows.append(("change", "nothing that is known"))
    return CardRows("found", "AS FOUND", tuple(rows))


def start_block(case: BatchCase) -> Steps:
    """Steps before the first injection, in the order that protects column and source."""
    first = case.batch.lines[0].method if case.batch.lines else ""
    run = case.runs.get(first)
    method = run.method if run is not None else None
    steps = ["Vents and exhausts open, monitor on, waste not capped, trips and limits armed."]
    solvents = case.solvents
    if solvents is not None and solvents.purge_volume is not None:
        purge = show(solvents.purge_volume.si, "volume", "mL")
        steps.append(f"Bottles filled as on this card; purge every line in use with {purge}.")
    if method is not None and method.oven_temperature is not None:
        oven = show(method.oven_temperature.si, "temperature")
        steps.append(f"Column {state_wanted(case.batch).column or 'fitted'}; oven to {oven}.")
    if method is not None and method.makeup is not None:
        steps.append("Makeup on, before any CO2 reaches the source.")
    rehearsal = run.rehearsal if run is not None else None
    if rehearsal is not None and rehearsal.done:
        steps += _flow_steps(rehearsal)
    else:
        steps.append("Modifier first, then CO2, the regulator holding its pressure.")
    sequence = case.sequence
    if sequence is not None and sequence.equilibration is not None:
        length = show(sequence.equilibration.si, "time")
        steps.append(f"Equilibrate for {length} at the starting values until all is steady.")
    return Steps("start", "START, IN THIS ORDER", tuple(steps))


def _flow_steps(run: Rehearsal) -> list[str]:
    flow = show(float(run.set_flow[0]), "volume flow")
    share = 100.0 * float(run.pumped_share[0])
    outlet = show(float(run.outlet_pressure[0]), "pressure")
    pump = float(run.pump_pressure[0])
    ends = (float(side[0]) for side in run.pressure_band(run.pump_pressure))
    band = pressure_band_words(*ends)
    first = f"Modifier on ({share:.3g} %), then" if share > 0.0 else "Then"
    return [
        f"{first} CO2 from the cylinder, slowly, to {flow} in all; regulator at {outlet}.",
        f"Expect {show(pump, 'pressure')} ({band}) at the pumps; stop if it is not so.",
    ]


def stop_block(case: BatchCase) -> Steps:
    """Steps behind the last line."""
    makeup = any(run.method is not None and run.method.makeup for run in case.runs.values())
    steps = ["CO2 off; modifier on until the lines are clear of what was run."]
    if makeup:
        steps.append("Makeup off last, when no more gas reaches the source.")
    steps += [
        "Let the regulator down slowly; wait for zero on every gauge before any fitting is undone.",
        "Close the cylinder valve; write its weight and this sequence into the log.",
    ]
    return Steps("stop", "STOP, IN THIS ORDER", tuple(steps))


def left_block(case: BatchCase) -> CardRows:
    """State that the sequence leaves, and where its own word differs."""
    sequence = case.sequence
    assert sequence is not None
    rehearsed = state_left(case.batch)
    rows = [("by its lines", state_words(rehearsed) or "not known")]
    said = said_state(sequence.leaves)
    if said.known:
        rows.append(("as written", state_words(said)))
        for what, first, second in differences(said, rehearsed):
            rows.append(("DIFFERS", f"{what}: written {first}, by the lines {second}"))
    if sequence.after is not None:
        rows.append(("then", sequence.after))
    return CardRows("left", "LEFT FOR THE NEXT", tuple(rows))


def caution_block(case: BatchCase) -> Steps:
    """Standing cautions, and those of what the sequence does, to be signed."""
    *general, defer = ALWAYS
    methods = [run.method for run in case.runs.values() if run.method is not None]
    outlets = case.room.outlets if case.room is not None else ()
    if (
        any(line.stacked_every for line in case.batch.lines)
        or any(outlet.of == "collector" for outlet in outlets)
        or (case.sequence is not None and case.sequence.purpose == "preparative")
    ):
        general += COLLECTING
    if any(method.sample_hazard in ("toxic", "controlled") for method in methods):
        general.append(CAUTIONS["toxic"])
    return Steps("cautions", "CAUTIONS", (*general, defer), "caution")


def emergency_block(case: BatchCase) -> Steps:
    """The lab's own steps and its phone."""
    lab = case.lab.model if case.lab is not None else None
    steps = list(lab.emergency) if isinstance(lab, Lab) else []
    phone = lab.phone if isinstance(lab, Lab) else None
    steps = steps or [_NO_STEPS]
    steps.append(f"Phone {phone}." if phone else "Phone: the lab gives none; write it here ______.")
    return Steps("emergency", "EMERGENCY", tuple(steps), "caution")
