"""Liquid locked in by closed valves and warmed: supply lines, parked columns, closed sections."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from methodlint.documents.kinds.instrument import ClosedSection
from methodlint.documents.kinds.supply import LineSection, Supply
from methodlint.fluids.co2 import properties as co2
from methodlint.fluids.mixtures.mixture import MixtureModel
from methodlint.fluids.validity import OutOfRange
from methodlint.hydraulics.closed_volume import (
    ClosedVolume,
    warmed_carbon_dioxide,
    warmed_liquid,
)
from methodlint.rehearsal.batch.lines import Batch
from methodlint.rehearsal.bench.co2_supply import store_temperature
from methodlint.rehearsal.run.rehearsal import Rehearsal


@dataclass(frozen=True, slots=True)
class Locked:
    """Liquid closed in and warmed.

    Attributes
    ----------
    closed_temperature, closed_pressure
        When it was closed [K], [Pa, abs].
    warmest
        To which it warms [K].
    pressure
        That it reaches [Pa, abs], walls taken as rigid.
    at_least
        The pressure is beyond the model; it is a lower bound.
    """

    closed_temperature: float
    closed_pressure: float
    warmest: float
    pressure: float
    at_least: bool

    @property
    def rise(self) -> float:
        """Pressure gained by the warming [Pa]."""
        return self.pressure - self.closed_pressure


@dataclass(frozen=True, slots=True)
class Parked:
    """A column that stands closed while another one runs warmer.

    Attributes
    ----------
    method
        Method whose mobile phase is in the column.
    column
        Name of the column.
    line
        Index of the line of the sequence during which it is warmest.
    locked
        What happens in it; None if the mobile phase has no model there.
    """

    method: str
    column: str
    line: int
    locked: Locked | None


def locked_line(supply: Supply, section: LineSection, warmest: float) -> Locked | None:
    """Warm a section of the supply line that is full of liquid CO2.

    Parameters
    ----------
    warmest
        Warmest place that the section reaches [K].

    Returns
    -------
    Locked or None
        None if neither the section nor the store say how cold it was filled, or no liquid fills
        it.
    """
    store = store_temperature(supply)
    filled = section.filled_at.si if section.filled_at else store.lowest if store else None
    if filled is None or filled >= co2.CRITICAL_TEMPERATURE:
        return None
    pressure = float(co2.saturation_pressure(filled)) + 1e3
    if section.filled_pressure is not None:
        pressure = max(pressure, section.filled_pressure.si)
    elif store is not None and store.highest < co2.CRITICAL_TEMPERATURE:
        pressure = max(pressure, float(co2.saturation_pressure(max(store.expected, filled))))
    return _locked_co2(filled, pressure, warmest)


def locked_section(
    section: ClosedSection, warmest: float, fluid: MixtureModel | None
) -> Locked | None:
    """Warm a closed section of the instrument.

    Parameters
    ----------
    fluid
        Model of the mobile phase, for its modifier; None if there is none.

    Returns
    -------
    Locked or None
        None if there is no model for what it holds.
    """
    temperature, pressure = section.closed_at.si, section.closed_pressure.si
    if section.holds == "CO2":
        return _locked_co2(temperature, pressure, warmest)
    if fluid is None:
        return None
    try:
        end = warmed_liquid(fluid.modifier_density, temperature, pressure, warmest)
    except OutOfRange:
        return None
    return _locked(temperature, pressure, warmest, end)


def parked_columns(batch: Batch, warmest_room: float | None) -> Iterator[Parked]:
    """Columns that stand closed at some time of a sequence, each at its warmest.

    Parameters
    ----------
    warmest_room
        Warmest temperature of the room [K], which a parked column reaches in the end.
    """
    parked: dict[str, str] = {}
    worst: dict[tuple[str, str], tuple[float, int]] = {}
    current = last_method = ""
    for run in batch.lines:
        method = batch.methods.get(run.method)
        rehearsed = batch.runs.get(run.method)
        if method is None or rehearsed is None or not rehearsed.metered or not run.injects:
            continue
        column = _column_of(rehearsed)
        if current and column != current:
            parked[current] = last_method
        parked.pop(column, None)
        current, last_method = column, run.method
        oven = float(rehearsed.programme.oven_temperature.max())
        for name, with_method in parked.items():
            key = (name, with_method)
            if oven > worst.get(key, (0.0, 0))[0]:
                worst[key] = (oven, run.index)
    if warmest_room is not None and batch.lines:
        for key in parked.items():
            if warmest_room > worst.get(key, (0.0, 0))[0]:
                worst[key] = (warmest_room, batch.lines[-1].index)
    for (name, with_method), (oven, line) in worst.items():
        yield Parked(with_method, name, line, _locked_column(batch.runs[with_method], oven))


def _column_of(run: Rehearsal) -> str:
    return run.plan.columns[-1].name if run.plan.columns else ""


def _locked_column(run: Rehearsal, warmest: float) -> Locked | None:
    """Close the column at the end of its cycle, at its mean pressure, with what is in it then."""
    if not run.done:
        return None
    bed = run.slices_of(run.plan.analytical_column)
    closed = float(run.programme.oven_temperature[-1])
    pressure = float(run.pressure[-1, bed.start : bed.stop + 1].mean())
    share = float(run.w_modifier[-1, bed].mean())
    if warmest <= closed:
        return Locked(closed, pressure, warmest, pressure, at_least=False)

    def density(temperature: float, at: float) -> float:
        return float(run.fluid.density(share, temperature, at))

    try:
        end = warmed_liquid(density, closed, pressure, warmest)
    except OutOfRange:
        return None
    return _locked(closed, pressure, warmest, end)


def _locked_co2(temperature: float, pressure: float, warmest: float) -> Locked | None:
    if warmest <= temperature:
        return Locked(temperature, pressure, warmest, pressure, at_least=False)
    try:
        end = warmed_carbon_dioxide(temperature, pressure, warmest)
    except OutOfRange:
        return None
    return _locked(temperature, pressure, warmest, end)


def _locked(temperature: float, pressure: float, warmest: float, end: ClosedVolume) -> Locked:
    return Locked(temperature, pressure, warmest, end.pressure, end.at_least)
