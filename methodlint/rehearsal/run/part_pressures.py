"""Pressure at every rated part of the flow train, and what pumps reach at their flows."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from methodlint.documents.kinds.instrument import Pump, TrainPart
from methodlint.documents.loading import Loaded
from methodlint.documents.text.places import Path
from methodlint.fluids.liquids.known import find_liquid
from methodlint.hydraulics.envelope import Envelope
from methodlint.rehearsal.plan.run_plan import AMBIENT, components_of
from methodlint.rehearsal.run.rehearsal import Rehearsal

__all__ = [
    "PartPressure",
    "PumpLimit",
    "makeup_passes_train",
    "part_pressures",
    "pressures_that_a_plug_reaches",
    "pump_limits",
    "regulator_mass_flow",
]

FloatArray = npt.NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class PartPressure:
    """One part with the highest pressure inside it over R times.

    Attributes
    ----------
    name, kind
        Name in words; kind as in the train ("column", "CO2 pump" and "modifier pump" as well).
    document, path
        Where the rating is or would be written.
    rating
        [Pa]; None if the card gives none.
    pressure
        At the inlet of the part [Pa], shape (R,).
    protected
        The part has a trip or a relief of its own at or below its rating.
    relieved
        It has a relief of its own, which needs no pump to be stopped.
    """

    name: str
    kind: str
    document: Loaded
    path: Path
    rating: float | None
    pressure: FloatArray
    protected: bool = False
    relieved: bool = False


def part_pressures(run: Rehearsal) -> tuple[PartPressure, ...]:
    """List the parts of the instrument's train from the mixing point to the regulator.

    The column, bypassed parts and tubes without a rating are left out; so is what lies downstream
    of the regulator, where there is no pressure to speak of.
    """
    loaded = run.plan.instrument
    assert loaded is not None
    card = loaded.model
    found = []
    for number, part in enumerate(run.plan.part_of_segment):
        if part is None:
            continue
        if card.train[part].part != "tube" or card.train[part].pressure_rating is not None:
            found.append(_part(loaded, card.train[part], part, run.inlet_pressure_of(number)))
    for index, piece in enumerate(card.train):
        if piece.part == "regulator":
            found.append(_part(loaded, piece, index, run.outlet_pressure))
            break
    return tuple(found)


def _part(loaded: Loaded, part: TrainPart, index: int, pressure: FloatArray) -> PartPressure:
    rating = part.pressure_rating.si if part.pressure_rating else None
    guards = [guard.si for guard in (part.trip, part.relief) if guard is not None]
    return PartPressure(
        name=part.name or part.part,
        kind=part.part,
        document=loaded,
        path=("train", index, "pressure_rating"),
        rating=rating,
        pressure=pressure,
        protected=rating is not None and any(guard <= rating for guard in guards),
        relieved=rating is not None and part.relief is not None and part.relief.si <= rating,
    )


def pressures_that_a_plug_reaches(run: Rehearsal) -> list[PartPressure]:
    """List all parts that see the pump's pressure when the regulator or a tube is plugged.

    With the outlet shut nothing flows and the profile is flat, so the cell downstream of the column
    sees as much as the pump: every part of the train, the columns and both pumps.
    """
    found = list(run.ask(part_pressures))
    at_pump = run.pump_pressure
    for number, loaded in zip(run.train.columns, run.plan.columns, strict=True):
        column = loaded.model
        rating = column.pressure_rating.si if column.pressure_rating else None
        pressure = run.inlet_pressure_of(number)
        path: Path = ("pressure_rating",)
        found.append(PartPressure(loaded.name, "column", loaded, path, rating, pressure))
    instrument = run.plan.instrument
    assert instrument is not None
    card = instrument.model
    for key, name, pump in (
        ("co2_pump", "CO2 pump", card.co2_pump),
        ("modifier_pump", "modifier pump", card.modifier_pump),
    ):
        if pump is not None:
            limit = pump.pressure_rating.si if pump.pressure_rating else None
            place: Path = (key, "pressure_rating")
            found.append(PartPressure(name, name, instrument, place, limit, at_pump))
    return found


def makeup_passes_train(run: Rehearsal) -> bool:
    """Whether makeup joins ahead of the regulator, so that a plug there lets it flow back."""
    makeup = run.plan.method_model.makeup
    return makeup is not None and makeup.tee != "after the regulator"


@dataclass(frozen=True, eq=False)
class PumpLimit:
    """What one pump reaches over R times, each at its own flow.

    Attributes
    ----------
    name, key
        Name in words; key of the instrument card.
    path
        Where its limit is or would be written.
    flow
        Own flow [m3/s], shape (R,).
    pressure
        Highest pressure at that flow [Pa], (R,): infinite where it does not flow, 0 above its
        highest flow; None if the card gives none or contradicts itself.
    reason
        Why there is none.
    """

    name: str
    key: str
    path: Path
    flow: FloatArray
    pressure: FloatArray | None
    reason: str = ""


def pump_limits(run: Rehearsal) -> list[PumpLimit]:
    """List the pumps of the mobile phase that this run needs."""
    loaded = run.plan.instrument
    assert loaded is not None
    card = loaded.model
    co2_flow = run.set_flow * (1.0 - run.pumped_share)
    found = [_pump(card.co2_pump, "CO2 pump", "co2_pump", co2_flow)]
    if run.plan.modifier_name:
        liquid_flow = run.set_flow * run.pumped_share
        found.append(_pump(card.modifier_pump, "modifier pump", "modifier_pump", liquid_flow))
    return found


def _pump(pump: Pump | None, name: str, key: str, flow: FloatArray) -> PumpLimit:
    flat = pump is not None and not pump.envelope and pump.pressure_rating is not None
    field = "pressure_rating" if flat else "envelope"
    path: Path = (key, field)
    try:
        envelope = _envelope(pump) if pump is not None else None
    except ValueError as error:
        return PumpLimit(name, key, path, flow, None, str(error))
    if envelope is None:
        return PumpLimit(name, key, path, flow, None, f"what the {name} reaches is not given")
    return PumpLimit(
        name, key, path, flow, np.where(flow > 0.0, envelope.pressure_limit(flow), np.inf)
    )


def _envelope(pump: Pump) -> Envelope | None:
    """Envelope of a pump, never above its rating, which holds at every flow without points."""
    if pump.envelope:
        rating = pump.pressure_rating.si if pump.pressure_rating is not None else np.inf
        return Envelope(
            tuple((point.flow.si, min(point.pressure.si, rating)) for point in pump.envelope)
        )
    if pump.pressure_rating is not None:
        highest = pump.highest_flow.si if pump.highest_flow else np.inf
        return Envelope(((highest, pump.pressure_rating.si),))
    return None


def regulator_mass_flow(run: Rehearsal) -> FloatArray | None:
    """Mass flow through the regulator, makeup that joins before it included.

    Returns
    -------
    ndarray or None
        [kg/s], shape (R,); None if the density of the makeup liquid is not known.
    """
    total = run.co2_mass_flow + run.modifier_mass_flow
    makeup = run.plan.method_model.makeup
    if run.plan.makeup_flow <= 0.0 or makeup is None:
        return total
    density = 0.0
    for name, share in components_of(makeup):
        liquid = find_liquid(name)
        if liquid is None or liquid.density is None:
            return None
        density += share * float(liquid.density(AMBIENT))
    return total + run.plan.makeup_flow * density
