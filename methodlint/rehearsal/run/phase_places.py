"""Margins to the phase boundary, place by place from the column outlet to the regulator."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from methodlint.fluids.co2 import properties as co2
from methodlint.fluids.mixtures.boundary_band import BoundaryBand
from methodlint.rehearsal.plan.run_plan import AMBIENT
from methodlint.rehearsal.run.rehearsal import Rehearsal

__all__ = [
    "PhasePlace",
    "band_words",
    "highest_boundary",
    "places_before_regulator",
    "thinnest_band_words",
    "thinnest_place",
    "warmest_before_regulator",
]

FloatArray = npt.NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class PhasePlace:
    """One place between the column outlet and the regulator, over R times.

    Attributes
    ----------
    name, kind
        In words; the kind is that of the part in the train.
    part
        Number of the part in the instrument's train; None for column and regulator.
    margin
        Pressure above the phase boundary [Pa], shape (R,): infinite where this composition
        never splits and where nothing flows.
    pressure, temperature, share
        [Pa], [K], volume share of modifier [-], shape (R,).
    w_modifier
        Mass fraction of the liquids in the stream [-], shape (R,).
    band
        How far below and above its figure the true margin may lie [Pa], each (R,).
    """

    name: str
    kind: str
    part: int | None
    margin: FloatArray
    pressure: FloatArray
    temperature: FloatArray
    share: FloatArray
    w_modifier: FloatArray
    band: BoundaryBand

    @property
    def boundary(self) -> FloatArray:
        """Highest two-phase pressure of the composition there [Pa], (R,); -inf if none."""
        return self.pressure - self.margin


def places_before_regulator(run: Rehearsal) -> tuple[PhasePlace, ...]:
    """List the places downstream of the column in flow order, each at its outlet end.

    The first is the column outlet, the last the regulator.
    """
    segments = run.train.segments
    numbers = range(run.plan.analytical_column, len(segments))
    ends = [run.slices_of(number).stop - 1 for number in numbers]
    # all places at once, each a row: columns of the arrays one by one cost several times as much
    inlet, outlet = run.pressure[:, ends].T, run.pressure[:, [end + 1 for end in ends]].T
    margin = run.boundary_margin[:, ends].T + outlet - 0.5 * (inlet + outlet)
    margin = np.where(run.set_flow > 0.0, margin, np.inf)
    temperature, share = run.temperature[:, ends].T, run.share[:, ends].T
    w = run.w_with_makeup[:, ends].T
    below, above = run.fluid.boundary_band(w, temperature).with_error(run.plan.regulator_accuracy)
    found = []
    for place, number in enumerate(numbers):
        segment = segments[number]
        is_column = number == run.plan.analytical_column
        name = "column outlet" if is_column else segment.name
        if segment.is_tube:
            name = f"end of the tube '{segment.name}'"
        found.append(
            PhasePlace(
                name=name,
                kind=segment.kind,
                part=run.plan.part_of_segment[number] if run.plan.part_of_segment else None,
                margin=margin[place],
                pressure=outlet[place],
                temperature=temperature[place],
                share=share[place],
                w_modifier=w[place],
                band=BoundaryBand(below[place], above[place]),
            )
        )
    return tuple(found)


def warmest_before_regulator(run: Rehearsal, room: float | None = None) -> float:
    """Temperature of the warmest place from the column to the regulator [K].

    Parameters
    ----------
    run
        The rehearsal.
    room
        Highest temperature of the room [K]; parts outside a cold oven warm up to it. Without
        one, the temperature that parts outside the oven are rehearsed at.
    """
    stream = float(np.max(run.temperature[:, run.slices_of(run.train.columns[0]).start :]))
    return max(stream, AMBIENT if room is None else room)


def thinnest_place(run: Rehearsal, room: float | None = None) -> PhasePlace:
    """Place with the least margin over the run.

    Parameters
    ----------
    run
        The rehearsal.
    room
        Highest temperature of the room [K]; the regulator's end of the line warms up to it.
    """
    places = list(run.ask(places_before_regulator))
    last = places[-1]
    if room is not None and room > float(np.min(last.temperature)):
        warm = np.maximum(last.temperature, room)
        margin = run.fluid.boundary_margin(last.w_modifier, warm, last.pressure)
        margin = np.where(run.set_flow > 0.0, margin, np.inf)
        places[-1] = replace(last, temperature=warm, margin=margin)
    return min(places, key=lambda place: float(place.margin.min()))


def highest_boundary(run: Rehearsal, temperature: float) -> float:
    """Pressure above which the run has one phase at this temperature [Pa].

    Below the critical temperature of CO2 it is the saturation pressure of CO2, whatever the
    composition: modifier only lowers it. Above, the highest two-phase pressure of the mixture
    at any composition; 0 for pure CO2, which has no boundary there.
    """
    if temperature < co2.CRITICAL_TEMPERATURE:
        return float(co2.saturation_pressure(temperature))
    return float(run.fluid.highest_two_phase_pressure(temperature))


def band_words(run: Rehearsal, w_modifier: float, temperature: float) -> str:
    """Band of the boundary at a composition [-] and temperature [K]: ``band -5 to +8 bar``."""
    band = run.fluid.boundary_band(w_modifier, temperature)
    below, above = band.with_error(run.plan.regulator_accuracy)
    ends = f"band -{float(below) / 1e5:.2g} to +{float(above) / 1e5:.2g} bar"
    validated = run.fluid.boundary_is_validated(w_modifier, temperature)
    return ends if validated else f"{ends}, not validated here"


def thinnest_band_words(run: Rehearsal, row: int | None = None) -> str:
    """The same where the margin is least, at one time or over the whole cycle."""
    return band_words(run, *run.thinnest_state(row))
