"""The column's permeability from pressures that were read: on the method, or on its card."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from types import MappingProxyType

import numpy as np

from methodlint.documents.kinds.column import Column, MeasuredDrop
from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.kinds.method import Method
from methodlint.documents.loading import Loaded
from methodlint.fluids.mixtures.mixture_choice import model_for
from methodlint.hydraulics.calibration import (
    Calibration,
    calibrate_column,
)
from methodlint.hydraulics.metering import Metering
from methodlint.hydraulics.train import Segment, Train
from methodlint.rehearsal.plan.logged_column import LoggedColumn
from methodlint.rehearsal.plan.programme import Programme
from methodlint.rehearsal.plan.settings_by_mass import by_volume
from methodlint.rehearsal.plan.surroundings import (
    AIR_PRESSURE,
    AMBIENT,
    booked_co2_density,
    slice_temperatures,
)

__all__ = ["Bench", "Calibrated", "calibrate"]

NameOfPhase = str | tuple[tuple[str, float], ...]


@dataclass(frozen=True)
class Bench:
    """What a measured pressure was read on.

    Attributes
    ----------
    train
        Flow train with the flow resistances of the cards.
    head_temperature
        Of the CO2 pump [K].
    metering
        As on the instrument card.
    phase
        What `model_for` knows the mobile phase by.
    programme
        Gives what a measured pressure does not say about flow, outlet and oven.
    """

    train: Train
    head_temperature: float
    metering: str
    phase: NameOfPhase
    programme: Programme


@dataclass(frozen=True)
class Calibrated:
    """A train whose beds have the flow resistance that measured pressures speak of.

    Attributes
    ----------
    train
        As given where nothing was measured.
    calibrations
        Of the analytical column; empty unless every bed is covered.
    refused
        Why a measured pressure was not used.
    """

    train: Train
    calibrations: tuple[Calibration, ...] = ()
    refused: str = ""


@dataclass(frozen=True)
class _Reading:
    """One measured state; hashable, so that methods and candidates share the result."""

    phase: NameOfPhase
    train: Train
    column: int
    pump_pressure: float
    outlet_pressure: float
    share: float
    flow: float
    oven: float
    head_temperature: float
    metering: str


_BY_MASS = "its modifier share is not one by volume, as pumps set it"


@lru_cache(maxsize=1024)
def _calibration(reading: _Reading) -> Calibration | str:
    """What one reading says; the reason in words where it cannot be true."""
    fluid = model_for(reading.phase)
    if fluid is None:
        return "there is no model for the mobile phase it was measured with"
    layout = reading.train.layout()
    liquid = 800.0
    if reading.share > 0.0:
        liquid = float(fluid.modifier_density(AMBIENT, AIR_PRESSURE))
    try:
        return calibrate_column(
            fluid,
            reading.train,
            reading.column,
            reading.pump_pressure,
            Metering(
                reading.flow * (1.0 - reading.share),
                reading.flow * reading.share,
                liquid,
                reading.head_temperature,
                booked_co2_density(reading.metering),
            ),
            reading.outlet_pressure,
            reading.share,
            slice_temperatures(reading.train, layout.segment, np.array([reading.oven]))[0],
        )
    except ValueError as error:
        return str(error)


def calibrate(
    bench: Bench,
    method: Loaded[Method],
    columns: Sequence[Loaded[Column]],
    instrument: Loaded[Instrument],
    logged: Mapping[str, LoggedColumn] = MappingProxyType({}),
) -> Calibrated:
    """Give the beds of a train the flow resistance that was measured.

    Pressures on the method were read on the bench at hand, through its tubes, and come first;
    they count on the first instrument of `runs_on` and with the method's own column only. The
    drop on a column card counts wherever that column is. Logged pressures of the analytical column
    are more and later than either, and take their place.

    Parameters
    ----------
    bench
        Train and pumps.
    method, columns, instrument
        Documents of the run; columns in flow order.
    logged
        What logbooks say of columns, by name.
    """
    typed = method.model
    own = typed.column if isinstance(typed.column, tuple) else (typed.column,)
    here = instrument.name in typed.runs_on[:1] and tuple(c.name for c in columns) == own
    by_card = _from_cards(bench, columns, logged)
    own_log = logged.get(columns[-1].name) if columns else None
    if not typed.measured_pressures or not here or (own_log and own_log.calibrations):
        return by_card
    number = bench.train.columns[-1]
    results = [
        _BY_MASS
        if not by_volume(item.modifier_share)
        else _calibration(
            _Reading(
                bench.phase,
                by_card.train,
                number,
                item.pump_pressure.si,
                item.outlet_pressure.si
                if item.outlet_pressure
                else float(bench.programme.outlet_pressure[0]),
                item.modifier_share.si,
                item.flow.si if item.flow else float(bench.programme.flow[0]),
                float(bench.programme.oven_temperature[0]),
                bench.head_temperature,
                bench.metering,
            )
        )
        for item in typed.measured_pressures
    ]
    found = tuple(result for result in results if isinstance(result, Calibration))
    refused = next((result for result in results if isinstance(result, str)), by_card.refused)
    if not found:
        return replace(by_card, refused=refused)
    resistance = float(np.exp(np.mean(np.log([one.flow_resistance for one in found]))))
    return Calibrated(_with_resistance(by_card.train, number, resistance), found, refused)


def _from_cards(
    bench: Bench, columns: Sequence[Loaded[Column]], logged: Mapping[str, LoggedColumn]
) -> Calibrated:
    train, covered, refused = bench.train, True, ""
    last: tuple[Calibration, ...] = ()
    # guards of the instrument's own train are tubes or volumes: its beds are the columns
    for number, loaded in zip(bench.train.columns, columns, strict=True):
        own = logged.get(loaded.name)
        if own is not None and own.calibrations:
            train = _with_resistance(train, number, own.flow_resistance)
            last = own.calibrations
            continue
        measured = loaded.model.measured_drop
        result = _of_card(bench, train.segments[number], measured) if measured else None
        if isinstance(result, Calibration):
            train = _with_resistance(train, number, result.flow_resistance)
            last = (result,)
        else:
            covered = False
            if result is not None:
                refused = f"{loaded.name}: {result}"
    return Calibrated(train, last if covered else (), refused)


def _of_card(bench: Bench, segment: Segment, measured: MeasuredDrop) -> Calibration | str:
    """The bed alone between a pump and a regulator; the outlet pressure is that of the bed."""
    alone = Train((segment, Segment("regulator", "regulator")))
    outlet = measured.outlet_pressure.si
    share = measured.modifier_share.si
    if not by_volume(measured.modifier_share):
        return _BY_MASS
    return _calibration(
        _Reading(
            measured.modifier,
            alone,
            0,
            outlet + measured.pressure_drop.si,
            outlet,
            share,
            measured.flow.si,
            measured.temperature.si,
            bench.head_temperature,
            bench.metering,
        )
    )


def _with_resistance(train: Train, number: int, resistance: float) -> Train:
    segments = list(train.segments)
    segments[number] = replace(segments[number], flow_resistance=resistance)
    return Train(tuple(segments))
