"""Makeup that joins before the regulator, and the branch of a splitter, of resolved runs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from methodlint.documents.kinds.instrument import TrainPart
from methodlint.fluids.co2.constants import CRITICAL_PRESSURE
from methodlint.fluids.liquids.known import find_liquid
from methodlint.hydraulics.layout import Layout
from methodlint.hydraulics.march import March
from methodlint.hydraulics.side_streams import SideStreams
from methodlint.hydraulics.splitter import Branch, split_flow
from methodlint.hydraulics.train import Segment, Train
from methodlint.rehearsal.plan.makeup_flow import makeup_flow_at
from methodlint.rehearsal.plan.run_plan import RunPlan, components_of
from methodlint.rehearsal.plan.surroundings import AIR_PRESSURE, AMBIENT

__all__ = [
    "PlanSides",
    "RestrictorState",
    "drifts",
    "restrictor_of",
    "side_streams",
    "split_by_restrictor",
    "stack_sides",
]

FloatArray = npt.NDArray[np.float64]

_MOST = 0.99
"""Largest share that a splitter with a ratio takes."""

_LOSS_BAND = 0.20
"""Of the loss in a restrictor: what 5 % in its bore make (common practice, no source)."""


@dataclass(frozen=True)
class RestrictorState:
    """What a splitter's fixed restrictor does to the stream, R rows.

    Attributes
    ----------
    part
        Number of the splitter in the instrument's train.
    length, bore
        [m].
    stream
        What arrives at the splitter [kg/s].
    whole
        Pressure at the splitter at which it takes the whole stream [Pa]; infinite where nothing
        flows.
    held
        Pressure at the splitter that the regulator asks for when nothing is left for the main
        line [Pa].
    band
        Half width of the band of `whole` [Pa]: that of a drop that nothing calibrates, or what
        two laws are apart between laminar and turbulent flow.
    settled
        False where no division was found at which both ways begin at one pressure.
    """

    part: int
    length: float
    bore: float
    stream: FloatArray
    whole: FloatArray
    held: FloatArray
    band: FloatArray
    settled: npt.NDArray[np.bool_]


@dataclass(frozen=True)
class PlanSides:
    """Side streams of one run, R rows and S slices of its own train.

    Attributes
    ----------
    streams
        Without them None: nothing joins, nothing leaves.
    makeup
        Makeup that reaches the regulator [kg/s], shape (R,).
    split_share
        Share of the stream that leaves at the splitter [-], shape (R,); 0 without one.
    restrictor
        How a fixed restrictor divides the stream; None without one.
    """

    streams: SideStreams | None
    makeup: FloatArray
    split_share: FloatArray
    restrictor: RestrictorState | None = None


def side_streams(plan: RunPlan, layout: Layout, time: FloatArray) -> PlanSides:
    """Side streams as the documents state them; a restrictor's share is computed later.

    Parameters
    ----------
    plan
        A run that is ready.
    layout
        Slices of its train, (S,).
    time
        [s], shape (R,).
    """
    split = _stated_share(plan)
    joined, counts = _makeup(plan, time)
    taken = np.full(time.size, split)
    if split == 0.0 and not joined.any():
        return PlanSides(None, joined, taken)
    return _assembled(plan, layout.segment, joined, counts, taken)


def _assembled(
    plan: RunPlan,
    segment_of: npt.NDArray[np.int64],
    joined: FloatArray,
    counts: bool,
    taken: FloatArray,
) -> PlanSides:
    assert plan.train is not None
    left = np.ones((taken.size, segment_of.size))
    splitter = _splitter(plan)
    if splitter is not None:
        left = np.where(segment_of > splitter, 1.0 - taken[:, None], 1.0)
    added = np.zeros_like(left)
    if plan.makeup_joins is not None:
        # what joined ahead of the splitter is divided there like the rest
        split_too = splitter is not None and plan.makeup_joins < splitter
        share = left if split_too else np.ones_like(left)
        added = np.where(segment_of >= plan.makeup_joins, joined[:, None] * share, 0.0)
    return PlanSides(
        SideStreams(left, added, added if counts else 0.0 * added), added[:, -1], taken
    )


def _makeup(plan: RunPlan, time: FloatArray) -> tuple[FloatArray, bool]:
    """Makeup that joins [kg/s], (R,), and whether it is the liquid that modifies."""
    makeup = plan.method_model.makeup
    none = np.zeros(time.size)
    if makeup is None or plan.makeup_joins is None or plan.makeup_flow <= 0.0 or plan.fluid is None:
        return none, False
    phase = plan.method_model.mobile_phase
    modifier = phase.modifier if phase else None
    parts = components_of(makeup) or (components_of(modifier) if modifier else ())
    density = 0.0
    for name, share in parts:
        liquid = find_liquid(name)
        if liquid is None or liquid.density is None:
            return none, False
        density += share * float(liquid.density(AMBIENT))
    known = {liquid.name for liquid in plan.fluid.modifier.liquids} if plan.modifier_name else set()
    return makeup_flow_at(makeup, time) * density, {name for name, _ in parts} <= known


def _splitter(plan: RunPlan) -> int | None:
    """Segment of the first splitter ahead of the regulator."""
    assert plan.train is not None
    return next(iter(plan.train.of_kind("splitter")), None)


def _part(plan: RunPlan) -> TrainPart | None:
    number = _splitter(plan)
    index = plan.part_of_segment[number] if number is not None else None
    if index is None or plan.instrument is None:
        return None
    return plan.instrument.model.train[index]


def _stated_share(plan: RunPlan) -> float:
    part = _part(plan)
    stated = part.split_ratio if part is not None else None
    return min(max(stated.si, 0.0), _MOST) if stated is not None else 0.0


def restrictor_of(plan: RunPlan) -> Segment | None:
    """The tube between splitter and source; None where the card gives none or a pump keeps it."""
    part = _part(plan)
    if part is None or part.active or part.length is None or part.bore is None:
        return None
    if not (part.length.si > 0.0 and part.bore.si > 0.0):
        return None
    return Segment("restrictor", "tube", length=part.length.si, bore=part.bore.si)


def drifts(plan: RunPlan) -> bool:
    """Whether the share that a splitter takes has to be computed from a march."""
    part = _part(plan)
    fixed = part is not None and part.active is False and _stated_share(plan) > 0.0
    return fixed or restrictor_of(plan) is not None


def _by_stated_start(plan: RunPlan, time: FloatArray, found: March, rows: slice) -> PlanSides:
    """Side streams with the stated share of the start, which drifts with what flows.

    Laminar: the flow through a fixed restrictor goes as the pressure above that of the air over
    the viscosity, both as they are at the splitter.
    """
    assert plan.train is not None
    splitter = _splitter(plan)
    assert splitter is not None
    layout = plan.train.layout()
    at = plan.train.slices_of(layout, splitter).stop - 1
    pressure = found.pressure[rows, at + 1] - AIR_PRESSURE
    flow = found.density[rows, at] * pressure / found.viscosity[rows, at]
    into = found.mass_flow[rows, at]
    with np.errstate(divide="ignore", invalid="ignore"):
        relative = np.where(into > 0.0, (flow / flow[0]) * (into[0] / into), 0.0)
    taken = np.clip(_stated_share(plan) * relative, 0.0, _MOST)
    return _assembled(plan, layout.segment, *_makeup(plan, time), taken)


def split_by_restrictor(plan: RunPlan, time: FloatArray, found: March, rows: slice) -> PlanSides:
    """Side streams with the share that a fixed restrictor takes at each time.

    Without its length and bore the share that is stated for the start drifts. A restrictor ends in the open and is choked: its stream is followed down to where it stops
    being one phase, or to the critical pressure of CO2 where this composition never splits.

    Parameters
    ----------
    plan
        A run whose share drifts.
    time
        [s], shape (R,).
    found
        March of all runs.
    rows
        Rows of this run in it.
    """
    assert plan.train is not None
    assert plan.fluid is not None
    segment, splitter = restrictor_of(plan), _splitter(plan)
    if segment is None:
        return _by_stated_start(plan, time, found, rows)
    assert splitter is not None
    layout = plan.train.layout()
    at = plan.train.slices_of(layout, splitter).stop - 1
    w, temperature = found.w_modifier[rows, at], found.temperature[rows, at]
    boundary = np.asarray(plan.fluid.upper_boundary_pressure(w, temperature))
    end = np.where(boundary > 0.0, boundary, CRITICAL_PRESSURE)
    behind = slice(at + 1, layout.slices)
    outlet = found.pressure[rows, layout.slices]
    main = Branch(layout.downstream_of(at), outlet, found.temperature[rows, behind])
    side = Branch(Train((segment,)).layout(), end, temperature[:, None])
    into = found.mass_flow[rows, at]
    divided = split_flow(plan.fluid, main, side, into, w[:, None])
    flows = into > 0.0
    whole = divided.side_alone.pump_pressure
    lower = divided.side_alone.pressure_alternative[:, 0]
    part = plan.part_of_segment[splitter]
    assert part is not None
    state = RestrictorState(
        part=part,
        length=segment.length,
        bore=segment.bore,
        stream=into,
        whole=np.where(flows, whole, np.inf),
        held=outlet,
        band=np.maximum(_LOSS_BAND * (whole - end), whole - lower),
        settled=divided.settled | ~flows,
    )
    taken = np.where(flows, divided.side_fraction, 0.0)
    sides = _assembled(plan, layout.segment, *_makeup(plan, time), taken)
    return replace(sides, restrictor=state)


def stack_sides(sides: Sequence[PlanSides], layout: Layout) -> SideStreams | None:
    """Side streams of many runs for one stacked layout; None where none has any."""
    if all(one.streams is None for one in sides):
        return None
    parts: dict[str, list[FloatArray]] = {"kept": [], "joined": [], "joined_modifier": []}
    for one in sides:
        rows = one.makeup.size
        for name, empty in (("kept", 1.0), ("joined", 0.0), ("joined_modifier", 0.0)):
            values = np.full((rows, layout.slices), empty)
            if one.streams is not None:
                own = getattr(one.streams, name)
                values[:, : own.shape[1]] = own
            parts[name].append(values)
    return SideStreams(**{name: np.concatenate(values) for name, values in parts.items()})
