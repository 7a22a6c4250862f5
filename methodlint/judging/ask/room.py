"""The room: CO2, vapour, vents, and the hours with nobody in it."""

from __future__ import annotations

from methodlint.documents.kinds.room import Monitor, Outlet
from methodlint.fluids.liquids.exposure_limits import is_listed, listed_limit
from methodlint.hydraulics.expansion import ATMOSPHERE
from methodlint.rehearsal.bench.room_air import (
    AT_ONCE_DANGEROUS,
    OUTDOOR_CO2,
    OXYGEN_LEAST,
    WORTH_A_CAUTION,
    air_changes_for_fraction,
    air_volume,
    effective_volume,
    flow_for_fraction,
    foreign_gas_at_oxygen,
    mass_for_fraction,
    oxygen_left,
    oxygen_with_vented_gas,
    release_fraction,
    released_into_room,
    steady_fraction,
)
from methodlint.rehearsal.bench.room_exposure import RoomExposure, room_exposure, vented_vapours
from methodlint.rehearsal.bench.staffed_hours import (
    clock_words,
    unstaffed_spans,
    weekend_not_stated,
)
from methodlint.rehearsal.bench.vent_line import gas_litres_per_minute, vent_loss
from methodlint.rehearsal.bench.vent_vapour import (
    flammable_dilution,
    steady_vapour_fraction,
    vapour_flows,
)
from methodlint.rehearsal.bench.vents import (
    CO2_OUTLETS,
    air_changes_during,
    co2_into_room,
    highest_co2_flow,
    liquid_flows,
    outlets_with,
    unlisted_vent,
    vents_of_others,
)
