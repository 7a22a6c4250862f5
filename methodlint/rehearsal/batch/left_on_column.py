"""What a sequence leaves on its columns, and how much each flush takes off."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from methodlint.documents.kinds.base import Liquid
from methodlint.documents.kinds.column import Column
from methodlint.documents.kinds.method import Method
from methodlint.documents.kinds.sequence import Line, Sequence
from methodlint.documents.loading import Loaded
from methodlint.fluids.additives.known import Additive, find_additive
from methodlint.rehearsal.batch.lines import INJECTING
from methodlint.rehearsal.plan.run_plan import components_of
from methodlint.rehearsal.run.rehearsal import Rehearsal

Components = tuple[tuple[str, float], ...]

#: Hold-up volumes that bring a column into a liquid, and that take a persistent additive off
#: (common practice, no source).
TO_STORE, TO_CLEAN, TO_CLEAN_WELL = 10.0, 20.0, 50.0

_SLACK = 1e-6


@dataclass(slots=True)
class Left:
    """What a column holds.

    Attributes
    ----------
    column
        Its card.
    method
        Method that ran on it last.
    components
        Liquids with volume shares.
    additives
        Names of the additives, as written.
    line
        Index of the last line that changed it.
    hold_up, flow
        Hold-up volume [m3] and the flow that its method begins with [m3/s]; None where the
        method was not rehearsed.
    """

    column: Loaded[Column]
    method: str
    components: Components
    additives: tuple[str, ...]
    line: int
    hold_up: float | None
    flow: float | None


def flushed_volume(line: Line, flow: float | None) -> float | None:
    """Volume of a flush, as set [m3].

    Parameters
    ----------
    line
        A flush or equilibration.
    flow
        Flow of the method [m3/s], which holds where the line gives none.

    Returns
    -------
    float or None
        None if neither volume nor duration and flow are known.
    """
    if line.flush_volume is not None:
        return line.flush_volume.si
    rate = line.flow.si if line.flow is not None else flow
    return line.duration.si * rate if line.duration is not None and rate is not None else None


def left_on_columns(
    sequence: Sequence,
    methods: Mapping[str, Loaded[Method]],
    columns: Mapping[str, tuple[Loaded, ...]],
    runs: Mapping[str, Rehearsal],
) -> tuple[Left, ...]:
    """Follow the columns of a sequence to its end; linear in the lines.

    Parameters
    ----------
    sequence
        The typed sequence.
    methods, columns, runs
        Method documents, column cards and rehearsals by the name that the lines use.

    Returns
    -------
    tuple of Left
        One for each column that something was injected on, in order of first use. A flush
        counts from `TO_STORE` hold-up volumes on; one whose volume is not known counts.
    """
    state: dict[str, Left] = {}
    in_use = ""
    for index, line in enumerate(sequence.lines):
        if line.column_bypassed:
            continue
        if line.kind in INJECTING or line.kind == "equilibration":
            in_use = line.method or sequence.method or ""
            liquid = modifier_of(methods.get(in_use))
        elif line.kind == "flush":
            in_use = line.method or in_use or sequence.method or ""
            liquid = line.liquid if line.liquid is not None else modifier_of(methods.get(in_use))
        else:
            continue
        run = runs.get(in_use)
        done = run if run is not None and run.metered else None
        hold_up = done.hold_up_volume if done is not None else None
        flow = float(done.set_flow[0]) if done is not None else None
        if line.kind == "flush":
            volume = flushed_volume(line, flow)
            enough = TO_STORE * hold_up * (1.0 - _SLACK) if hold_up is not None else 0.0
            if volume is not None and volume < enough:
                continue
        for column in columns.get(in_use, ()):
            if line.kind == "flush" and column.path not in state:
                continue
            state[column.path] = Left(
                column,
                in_use,
                components_of(liquid) if liquid is not None else (),
                tuple(entry.additive for entry in liquid.additives) if liquid is not None else (),
                index,
                hold_up,
                flow,
            )
    return tuple(state.values())


def modifier_of(method: Loaded[Method] | None) -> Liquid | None:
    """Modifier of a method; None if there is none."""
    phase = method.model.mobile_phase if method is not None else None
    return phase.modifier if phase is not None else None


def washed_before(documents: dict[str, Loaded], run: Rehearsal, additive: str) -> float:
    """Volume that has gone through the column before the first injection of a run [m3].

    Parameters
    ----------
    documents
        Documents of the run by kind.
    run
        Its finished rehearsal.
    additive
        What is to be washed off; a liquid that holds it does not count.

    Returns
    -------
    float
        Flushes and equilibrations in front of the first injection, and the equilibration of the
        sequence; 0 without a sequence.
    """
    loaded: Loaded[Sequence] | None = documents.get("sequence")
    if loaded is None:
        return 0.0
    sequence: Sequence = loaded.model
    own = documents["method"].name
    flow = float(run.set_flow[0])
    first = next((line for line in sequence.lines if line.kind in INJECTING), None)
    starts_here = first is None or (first.method or sequence.method) == own
    found = sequence.equilibration.si * flow if sequence.equilibration and starts_here else 0.0
    modifier = modifier_of(documents["method"])
    for line in sequence.lines:
        if line.kind in INJECTING and (line.method or sequence.method) == own:
            break
        if line.kind not in ("flush", "equilibration") or line.column_bypassed:
            continue
        if line.method not in (None, own):
            continue
        liquid = line.liquid if line.liquid is not None else modifier
        if liquid is not None and not has_additive(liquid, additive):
            found += flushed_volume(line, flow) or 0.0
    return found


def has_additive(liquid: Liquid, additive: str) -> bool:
    """Whether a liquid holds an additive, under whatever name."""
    return any(_standard(entry.additive) == _standard(additive) for entry in liquid.additives)


def persistent_additives(liquid: Liquid) -> tuple[Additive, ...]:
    """Additives of a liquid that a column holds through an ordinary flush."""
    known = (find_additive(entry.additive) for entry in liquid.additives)
    return tuple(additive for additive in known if additive is not None and additive.persistent)


def _standard(additive: str) -> str:
    known = find_additive(additive)
    return known.name if known is not None else additive.strip().casefold()
