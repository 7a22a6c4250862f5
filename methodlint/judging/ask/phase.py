"""Where the mobile phase may part, and how far it is from that."""

from __future__ import annotations

from methodlint.fluids.co2 import properties as co2
from methodlint.fluids.mixtures.water_limit import LEAST_WATER_AT, water_by_table
from methodlint.judging.shared.two_phases import (
    TwoPhaseRegion,
    cooler,
    higher_outlet,
    parting,
    parting_in_cells,
    settings_at,
)
from methodlint.judging.shared.water import (
    less_water,
    more_modifier,
    mostly_acetonitrile,
    water_in_modifier,
)
from methodlint.rehearsal.run.phase_at_settings import OutletBySettings
from methodlint.rehearsal.run.phase_places import (
    band_words,
    highest_boundary,
    places_before_regulator,
    thinnest_place,
    warmest_before_regulator,
)
from methodlint.rehearsal.run.water_in_modifier import volume_share_of_water, water_closest_to_limit
