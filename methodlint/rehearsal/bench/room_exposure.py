"""What a room is exposed to: a release, the steady vents, and the solvents that they carry."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from methodlint.documents.kinds.method import Method
from methodlint.documents.kinds.room import Room
from methodlint.documents.kinds.solvents import Solvents
from methodlint.documents.kinds.supply import Supply
from methodlint.documents.loading import Loaded
from methodlint.rehearsal.batch.lines import Batch
from methodlint.rehearsal.bench.room_air import (
    OUTDOOR_CO2,
    air_volume,
    effective_volume,
    release_fraction,
    released_into_room,
    steady_fraction,
)
from methodlint.rehearsal.bench.staffed_hours import unstaffed_spans
from methodlint.rehearsal.bench.vent_vapour import vapour_flows
from methodlint.rehearsal.bench.vents import (
    AirChange,
    air_changes_during,
    co2_into_room,
    highest_co2_flow,
    liquid_flows,
    outlets_with,
)


@dataclass(frozen=True, slots=True)
class RoomExposure:
    """Volume fractions of CO2 in a room; None where a figure is missing.

    Attributes
    ----------
    release
        After the release of everything connected.
    steady
        With the vents at the slowest air change of the sequence.
    """

    release: float | None
    steady: float | None


def room_exposure(supply: Supply, room: Loaded[Room], batch: Batch) -> RoomExposure:
    """Compute both levels of one room."""
    mass, volume = released_into_room(supply), effective_volume(room)
    release = None if mass is None or volume is None else release_fraction(mass, volume)
    return RoomExposure(release, _steady(room.model, batch))


def _steady(room: Room, batch: Batch) -> float | None:
    outdoor = room.outdoor_co2.si if room.outdoor_co2 else OUTDOOR_CO2
    flow = co2_into_room(room, highest_co2_flow(batch), batch.typed.instrument)
    if flow <= 0.0:
        return outdoor
    unstaffed = unstaffed_spans(room, batch.typed.begins, batch.duration)
    rates = [
        air.rate
        for air in air_changes_during(room, unstaffed, batch.duration)
        if isinstance(air, AirChange)
    ]
    volume = air_volume(room)
    if volume is None or not rates:
        return None
    return steady_fraction(flow, volume, min(rates), outdoor)


def vented_vapours(
    batch: Batch,
    methods: Mapping[str, Method],
    solvents: Solvents | None,
    room: Room,
    temperature: float,
) -> dict[str, float | None]:
    """Solvent vapour that enters the room, the highest of all methods [mol/s], by liquid.

    Parameters
    ----------
    temperature
        At the outlets [K].

    Returns
    -------
    dict
        None where the vapour pressure of a liquid is not known; everything evaporates where
        the exhaust of a source is open.
    """
    open_ones = outlets_with(room, False)
    if not open_ones:
        return {}
    hot = any(outlet.of == "MS exhaust" for _, outlet in open_ones)
    found: dict[str, float | None] = {}
    for name, method in methods.items():
        run = batch.runs.get(name)
        if run is None or not run.metered:
            continue
        flows, unknown = liquid_flows(run, method, solvents)
        gas = float(run.co2_mass_flow.max())
        vapours = vapour_flows(flows, gas, temperature, all_evaporates=hot)
        for liquid, flow in {**dict.fromkeys(unknown), **vapours}.items():
            before = found.get(liquid, 0.0)
            found[liquid] = None if flow is None or before is None else max(flow, before)
    return found
