"""How far pressures stay below what pumps, column and parts stand."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from methodlint.documents.kinds.instrument import Instrument, Pump
from methodlint.hydraulics.envelope import Envelope
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.states import FloatArray

__all__ = ["USABLE_SHARE", "Load", "allowed_pressure", "loads_of", "within"]

USABLE_SHARE = 0.9
"""Of an envelope or a rating, for a method that is to last (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Load:
    """The worst moment of one part.

    Attributes
    ----------
    name
        Of the part, in words.
    pressure, band
        Highest pressure and the upper half of its band [Pa]; a difference for a column's drop.
    limit
        What the part stands [Pa], at the flow of that moment.
    floor
        Pressure that remains at no flow [Pa]: the outlet pressure; 0 for a drop.
    time
        [s].
    """

    name: str
    pressure: float
    band: float
    limit: float
    floor: float
    time: float

    @property
    def share(self) -> float:
        """Pressure over limit [-]."""
        return self.pressure / self.limit if self.limit > 0.0 else float("inf")


def loads_of(run: Rehearsal) -> list[Load]:
    """Worst moment of every part that has a limit, the pumps included.

    Parameters
    ----------
    run
        A finished rehearsal.
    """
    loads: list[Load] = []
    card = run.plan.instrument.model if run.plan.instrument else Instrument(kind="instrument")
    for name, pump in (("CO2 pump", card.co2_pump), ("modifier pump", card.modifier_pump)):
        if pump is not None and (name == "CO2 pump" or float(run.pumped_share.max()) > 0.0):
            share = run.pumped_share if name == "modifier pump" else 1.0 - run.pumped_share
            limit = _pump_limit(pump, run.set_flow * share)
            if limit is not None:
                loads.append(_worst(run, name, run.pump_pressure, limit))
    if card.trips is not None and card.trips.high_pressure is not None:
        limit = np.full(run.time.size, card.trips.high_pressure.si)
        loads.append(_worst(run, "high-pressure trip", run.pump_pressure, limit))
    rated = [column.model for column in run.plan.columns]
    for number, column in zip(run.train.columns, rated, strict=True):
        where = run.train.segments[number].name
        if column.pressure_rating is not None:
            limit = np.full(run.time.size, column.pressure_rating.si)
            loads.append(_worst(run, f"column {where}", run.inlet_pressure_of(number), limit))
        if column.drop_rating is not None:
            drop = run.drop_over(number)
            row = int(np.argmax(drop))
            band = float(run.resistance_band.above[row] * drop[row])
            time = float(run.time[row])
            loads.append(
                Load(
                    f"drop over column {where}",
                    float(drop[row]),
                    band,
                    column.drop_rating.si,
                    0.0,
                    time,
                )
            )
    for number, index in enumerate(run.plan.part_of_segment):
        part = card.train[index] if index is not None else None
        if part is not None and part.pressure_rating is not None:
            limit = np.full(run.time.size, part.pressure_rating.si)
            name = part.name or part.part
            loads.append(_worst(run, name, run.inlet_pressure_of(number), limit))
    return loads


def _worst(run: Rehearsal, name: str, pressure: FloatArray, limit: FloatArray) -> Load:
    with np.errstate(divide="ignore"):
        row = int(np.argmax(np.where(limit > 0.0, pressure / np.maximum(limit, 1.0), np.inf)))
    band = float(run.pressure_band(pressure).above[row])
    return Load(
        name,
        float(pressure[row]),
        band,
        float(limit[row]),
        float(run.outlet_pressure[row]),
        float(run.time[row]),
    )


def _pump_limit(pump: Pump, flow: FloatArray) -> FloatArray | None:
    """What a pump reaches at its own part of the flow [Pa]; 0 where its envelope has ended."""
    limits = []
    if pump.envelope:
        points = tuple((point.flow.si, point.pressure.si) for point in pump.envelope)
        try:
            limits.append(Envelope(points).pressure_limit(flow))
        except ValueError:
            return None
    if pump.pressure_rating is not None:
        limits.append(np.full(flow.shape, pump.pressure_rating.si))
    return np.asarray(np.min(limits, axis=0)) if limits else None


def allowed_pressure(load: Load, source: Load | None) -> float:
    """Highest pressure that a part may see [Pa].

    Nine tenths of the limit, and the unfavourable end of the band within the limit; but what the
    source itself ran at is allowed where the target withstands at least as much.
    """
    with_band = load.limit
    if load.pressure > load.floor:
        part = load.band / (load.pressure - load.floor)
        with_band = load.floor + (load.limit - load.floor) / (1.0 + part)
    allowed = min(USABLE_SHARE * load.limit, with_band)
    if source is not None and load.limit >= source.limit * (1.0 - 1e-9):
        allowed = max(allowed, min(source.pressure * 1.002, load.limit))
    return allowed


def within(loads: Iterable[Load], source: Iterable[Load]) -> list[tuple[Load, float]]:
    """Loads beyond what is allowed, each with what is allowed [Pa]; the worst first."""
    known = {load.name: load for load in source}
    beyond = []
    for load in loads:
        own = known.get(load.name)
        if own is None and load.name.startswith(("column ", "drop over column ")):
            own = next(
                (k for n, k in known.items() if n.startswith(load.name.rpartition(" ")[0])), None
            )
        allowed = allowed_pressure(load, own)
        if load.pressure > allowed:
            beyond.append((load, allowed))
    return sorted(beyond, key=lambda item: item[1] / item[0].pressure)
