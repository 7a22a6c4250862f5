"""CO2 from its store to the pump: pressure, amount, cooling, heat."""

from __future__ import annotations

from methodlint.documents.contents.cylinder_fill import LIQUID as FILL_OF_LIQUID
from methodlint.documents.contents.cylinder_fill import PERMITTED as FILL_PERMITTED
from methodlint.documents.contents.cylinder_fill import SURELY_OVER as FILL_SURELY_OVER
from methodlint.documents.contents.cylinder_fill import can_hold, overfills
from methodlint.documents.contents.cylinder_fill import permitted as fill_permitted
from methodlint.judging.shared.cylinder_words import balance_words, change_words, cylinder_end_words
from methodlint.judging.shared.supply_end import bookings_of_others, others_draw, others_sharing
from methodlint.rehearsal.bench.chiller import USABLE_SHARE as COOLER_SHARE
from methodlint.rehearsal.bench.chiller import cooler_heat_per_mass
from methodlint.rehearsal.bench.co2_store import (
    cylinder_pressure,
    gas_alone,
    head_temperature_needed,
    mean_density,
    pressure_needed,
    store_pressure,
    store_temperature_needed,
    temperature_at_pressure,
    weakest_part,
)
from methodlint.rehearsal.bench.co2_supply import (
    CylinderEnd,
    cylinder_end,
    draws_vapour,
    store_temperature,
    usable_liquid,
    vapour_left,
)
from methodlint.rehearsal.bench.cylinder_weight import age_in_days, days_after_the_run, weight_doubt
from methodlint.rehearsal.bench.locked_liquid import (
    Locked,
    Parked,
    locked_line,
    locked_section,
    parked_columns,
)
from methodlint.rehearsal.bench.pump_head import delivered_change, subcooling
from methodlint.rehearsal.run.regulator import RegulatorLoad
