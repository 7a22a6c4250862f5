"""Everything a rule file may import, in one place.

A rule states a condition and a sentence. Physics, liquids and places come from here, so that a
rule never computes physics of its own.
"""

from __future__ import annotations

from methodlint.documents.contradictions import contradictions
from methodlint.documents.format import show
from methodlint.documents.implausible import implausible_values
from methodlint.documents.kinds.base import Deviation, Liquid
from methodlint.documents.loading import Loaded
from methodlint.documents.names import nearest
from methodlint.documents.placeholders import placeholders
from methodlint.documents.places import path_text
from methodlint.documents.quantity import Quantity
from methodlint.documents.values_hash import EDITION as HASH_EDITION
from methodlint.documents.values_hash import part_hashes, values_hash
from methodlint.documents.visible import visible
from methodlint.fluids import co2
from methodlint.fluids.additives import Additive, concentration, find_additive, same_level
from methodlint.fluids.incompatible import clashes
from methodlint.fluids.liquids import find_liquid
from methodlint.fluids.miscibility import bridge_for, miscible_blend
from methodlint.fluids.wetted_materials import attack, find_material
from methodlint.judging.bands import Judgement, judge_limit
from methodlint.judging.case import BatchCase, Case, DocumentCase, RunCase
from methodlint.judging.figures import (
    bar,
    celsius,
    grams,
    kilograms,
    litres,
    microlitres,
    millilitres,
    minutes,
    ml_per_min,
    percent,
    ppm,
)
from methodlint.judging.finding import (
    At,
    Candidate,
    Change,
    Finding,
    Grade,
    Measure,
    NotChecked,
    When,
)
from methodlint.judging.not_miscible import Pairing, judge_contact
from methodlint.judging.overpressure import (
    CLOSE,
    Excess,
    cut_off,
    cut_off_protects,
    lower_outlet,
    slower,
    worst_against,
)
from methodlint.judging.salts import salt_findings
from methodlint.judging.two_phases import (
    Parting,
    cooler,
    higher_outlet,
    parting,
    parting_in_cells,
    settings_at,
)
from methodlint.rehearsal.absorbance import (
    least_absorbance,
    mobile_phase_absorbance,
)
from methodlint.rehearsal.acquisition import (
    Busy,
    busiest,
    busy_spans,
    span_of,
    switches_of,
)
from methodlint.rehearsal.along_column import (
    ColumnEnds,
    column_ends,
    greatest_cooling,
    outlet_compressibility_band,
)
from methodlint.rehearsal.arrival import (
    TIME_BAND,
    arrival_at_column,
    arrival_at_detector,
    delivered_slope,
)
from methodlint.rehearsal.batch import BLANKS, INJECTING, STANDARDS, LineRun
from methodlint.rehearsal.bottles import BottleUse, bottle_uses
from methodlint.rehearsal.co2_supply import (
    cylinder_end,
    store_temperature,
    usable_liquid,
    vapour_left,
)
from methodlint.rehearsal.contacts import Contact, Meeting, bottles_of, coldest_place, makeup_of
from methodlint.rehearsal.diluent_strength import diluent_limit, is_strong, tray_temperature
from methodlint.rehearsal.dissolved import Dissolved, dissolved_in, level_of, water_share
from methodlint.rehearsal.equilibration import (
    column_volumes_wanted,
    equilibration_volume,
    holds_additive,
    pumped_after,
    return_to_start,
)
from methodlint.rehearsal.injected import (
    Injected,
    lines_of,
    liquid_strength,
    mobile_phase_strength,
)
from methodlint.rehearsal.injected import injected as injected_by
from methodlint.rehearsal.ion_source import (
    SourceLoad,
    source_load,
    splitter_of,
    uses_mass_spectrometer,
)
from methodlint.rehearsal.liquid_paths import Arrival, arrivals
from methodlint.rehearsal.loop_span import LoopSpan, loop_span
from methodlint.rehearsal.makeup_flow import makeup_flow_at
from methodlint.rehearsal.part_pressures import (
    PartPressure,
    envelope_of,
    part_pressures,
    pressures_that_a_plug_reaches,
)
from methodlint.rehearsal.peaks import (
    PeakWidth,
    base_width,
    column_flow_at,
    first_peak,
    hold_up_time_at,
    narrowest_peak,
    peak_widths,
    plate_loss,
    plug_of_variance,
    plug_variance,
    volume_sigma,
)
from methodlint.rehearsal.phase_places import (
    highest_boundary,
    places_before_regulator,
    warmest_before_regulator,
)
from methodlint.rehearsal.positions import Geometry, Place, geometry_of, nearest_places, read_place
from methodlint.rehearsal.regulator import worst_regulator_load
from methodlint.rehearsal.rehearsal import Extreme, Rehearsal
from methodlint.rehearsal.room_air import (
    effective_volume,
    mass_for_fraction,
    release_fraction,
    steady_fraction,
)
from methodlint.rehearsal.run_plan import AMBIENT, components_of
from methodlint.rehearsal.set_points import (
    FilledRow,
    filled_rows,
    last_to_be_seen,
)
from methodlint.rehearsal.tray import Tray, tray_of
from methodlint.rehearsal.tube_losses import TubeLoss, losses_behind_column
from methodlint.rehearsal.vent_line import vent_loss
from methodlint.rehearsal.vials import VialAccount, vial_accounts
from methodlint.rehearsal.waste import DEFAULT_FILL, waste_fills

__all__ = [
    "AMBIENT",
    "BLANKS",
    "CLOSE",
    "DEFAULT_FILL",
    "HASH_EDITION",
    "INJECTING",
    "STANDARDS",
    "TIME_BAND",
    "Additive",
    "Arrival",
    "At",
    "BatchCase",
    "BottleUse",
    "Busy",
    "Candidate",
    "Case",
    "Change",
    "ColumnEnds",
    "Contact",
    "Deviation",
    "Dissolved",
    "DocumentCase",
    "Excess",
    "Extreme",
    "FilledRow",
    "Finding",
    "Geometry",
    "Grade",
    "Injected",
    "Judgement",
    "LineRun",
    "Liquid",
    "Loaded",
    "LoopSpan",
    "Measure",
    "Meeting",
    "NotChecked",
    "Pairing",
    "PartPressure",
    "Parting",
    "PeakWidth",
    "Place",
    "Quantity",
    "Rehearsal",
    "RunCase",
    "SourceLoad",
    "Tray",
    "TubeLoss",
    "VialAccount",
    "When",
    "arrival_at_column",
    "arrival_at_detector",
    "arrivals",
    "attack",
    "bar",
    "base_width",
    "bottle_uses",
    "bottles_of",
    "bridge_for",
    "busiest",
    "busy_spans",
    "celsius",
    "clashes",
    "co2",
    "coldest_place",
    "column_ends",
    "column_flow_at",
    "column_volumes_wanted",
    "components_of",
    "concentration",
    "contradictions",
    "cooler",
    "cut_off",
    "cut_off_protects",
    "cylinder_end",
    "delivered_slope",
    "diluent_limit",
    "dissolved_in",
    "effective_volume",
    "envelope_of",
    "equilibration_volume",
    "filled_rows",
    "find_additive",
    "find_liquid",
    "find_material",
    "first_peak",
    "geometry_of",
    "grams",
    "greatest_cooling",
    "higher_outlet",
    "highest_boundary",
    "hold_up_time_at",
    "holds_additive",
    "implausible_values",
    "injected_by",
    "is_strong",
    "judge_contact",
    "judge_limit",
    "kilograms",
    "last_to_be_seen",
    "least_absorbance",
    "level_of",
    "lines_of",
    "liquid_strength",
    "litres",
    "loop_span",
    "losses_behind_column",
    "lower_outlet",
    "makeup_flow_at",
    "makeup_of",
    "mass_for_fraction",
    "microlitres",
    "millilitres",
    "minutes",
    "miscible_blend",
    "ml_per_min",
    "mobile_phase_absorbance",
    "mobile_phase_strength",
    "narrowest_peak",
    "nearest",
    "nearest_places",
    "outlet_compressibility_band",
    "part_hashes",
    "part_pressures",
    "parting",
    "parting_in_cells",
    "path_text",
    "peak_widths",
    "percent",
    "placeholders",
    "places_before_regulator",
    "plate_loss",
    "plug_of_variance",
    "plug_variance",
    "ppm",
    "pressures_that_a_plug_reaches",
    "pumped_after",
    "read_place",
    "release_fraction",
    "return_to_start",
    "salt_findings",
    "same_level",
    "settings_at",
    "show",
    "slower",
    "source_load",
    "span_of",
    "splitter_of",
    "steady_fraction",
    "store_temperature",
    "switches_of",
    "tray_of",
    "tray_temperature",
    "usable_liquid",
    "uses_mass_spectrometer",
    "values_hash",
    "vapour_left",
    "vent_loss",
    "vial_accounts",
    "visible",
    "volume_sigma",
    "warmest_before_regulator",
    "waste_fills",
    "water_share",
    "worst_against",
    "worst_regulator_load",
]
