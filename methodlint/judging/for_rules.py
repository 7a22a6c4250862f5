"""Everything a rule file may import, in one place.

A rule states a condition and a sentence. Physics, liquids and places come from here, so that a
rule never computes physics of its own.
"""

from __future__ import annotations

from methodlint.documents.format import show
from methodlint.documents.kinds.base import Liquid
from methodlint.documents.loading import Loaded
from methodlint.documents.places import path_text
from methodlint.documents.quantity import Quantity
from methodlint.fluids import co2
from methodlint.fluids.additives import Additive, concentration, find_additive
from methodlint.fluids.liquids import find_liquid
from methodlint.fluids.miscibility import bridge_for, miscible_blend
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
from methodlint.rehearsal.arrival import (
    TIME_BAND,
    arrival_at_column,
    arrival_at_detector,
    delivered_slope,
)
from methodlint.rehearsal.batch import BLANKS, INJECTING, STANDARDS, LineRun
from methodlint.rehearsal.co2_supply import (
    cylinder_end,
    store_temperature,
    usable_liquid,
    vapour_left,
)
from methodlint.rehearsal.contacts import Contact, Meeting
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
from methodlint.rehearsal.liquid_paths import Arrival, arrivals
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
from methodlint.rehearsal.positions import Geometry, Place, geometry_of, nearest_places, read_place
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
from methodlint.rehearsal.vials import VialAccount, vial_accounts

__all__ = [
    "AMBIENT",
    "BLANKS",
    "INJECTING",
    "STANDARDS",
    "TIME_BAND",
    "Additive",
    "Arrival",
    "At",
    "BatchCase",
    "Busy",
    "Candidate",
    "Case",
    "Change",
    "Contact",
    "DocumentCase",
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
    "Measure",
    "Meeting",
    "NotChecked",
    "PeakWidth",
    "Place",
    "Quantity",
    "Rehearsal",
    "RunCase",
    "Tray",
    "VialAccount",
    "When",
    "arrival_at_column",
    "arrival_at_detector",
    "arrivals",
    "bar",
    "base_width",
    "bridge_for",
    "busiest",
    "busy_spans",
    "celsius",
    "co2",
    "column_flow_at",
    "column_volumes_wanted",
    "components_of",
    "concentration",
    "cylinder_end",
    "delivered_slope",
    "effective_volume",
    "equilibration_volume",
    "filled_rows",
    "find_additive",
    "find_liquid",
    "first_peak",
    "geometry_of",
    "grams",
    "hold_up_time_at",
    "holds_additive",
    "injected_by",
    "judge_limit",
    "kilograms",
    "last_to_be_seen",
    "least_absorbance",
    "lines_of",
    "liquid_strength",
    "litres",
    "mass_for_fraction",
    "microlitres",
    "millilitres",
    "minutes",
    "miscible_blend",
    "ml_per_min",
    "mobile_phase_absorbance",
    "mobile_phase_strength",
    "narrowest_peak",
    "nearest_places",
    "path_text",
    "peak_widths",
    "percent",
    "plate_loss",
    "plug_of_variance",
    "plug_variance",
    "ppm",
    "pumped_after",
    "read_place",
    "release_fraction",
    "return_to_start",
    "show",
    "span_of",
    "steady_fraction",
    "store_temperature",
    "switches_of",
    "tray_of",
    "usable_liquid",
    "vapour_left",
    "vial_accounts",
    "volume_sigma",
]
