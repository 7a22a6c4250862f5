"""Everything a rule file may import, in one place.

A rule states a condition and a sentence. Physics, liquids and places come from here, so that a
rule never computes physics of its own.
"""

from __future__ import annotations

from methodlint.documents.column_spans import COLUMN_SPANS
from methodlint.documents.contradictions import contradictions
from methodlint.documents.format import counted, number, show
from methodlint.documents.implausible import implausible_values
from methodlint.documents.kinds.base import Deviation, Liquid
from methodlint.documents.kinds.column import Column
from methodlint.documents.kinds.lab import Lab
from methodlint.documents.kinds.sequence import Line
from methodlint.documents.kinds.sequence import Sequence as SequenceModel
from methodlint.documents.loading import Loaded
from methodlint.documents.names import nearest
from methodlint.documents.placeholders import placeholders
from methodlint.documents.places import path_text
from methodlint.documents.quantity import Quantity
from methodlint.documents.unit_findings import is_placeholder
from methodlint.documents.values_hash import EDITION as HASH_EDITION
from methodlint.documents.values_hash import part_hashes, values_hash
from methodlint.documents.visible import visible
from methodlint.fluids import co2
from methodlint.fluids.additives import Additive, concentration, find_additive, same_level
from methodlint.fluids.incompatible import clashes
from methodlint.fluids.liquids import find_liquid
from methodlint.fluids.miscibility import bridge_for, miscible_blend
from methodlint.fluids.wetted_materials import attack, attacks_anything, find_material
from methodlint.hydraulics.columns import hold_up_volume
from methodlint.judging.bands import Judgement, judge_limit
from methodlint.judging.case import BatchCase, Case, DocumentCase, RunCase
from methodlint.judging.cylinder_words import balance_words, change_words, cylinder_end_words
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
    severity,
)
from methodlint.judging.flowing import additives_in_flow, makeup_liquid
from methodlint.judging.lines_of_method import (
    follows_itself,
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
from methodlint.judging.traces import (
    ANALOGUE,
    GUESS_BAND,
    ULTRAVIOLET,
    cell_of,
    judge_points,
    makeup_in_cell,
    narrowest,
    no_width,
    traces,
    widths,
)
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
    row_absorbance,
)
from methodlint.rehearsal.acquisition import (
    Busy,
    busiest,
    busy_spans,
    dwell_for_cycle,
    fewest_points,
    missing_of_cycle,
    span_of,
    switches_of,
)
from methodlint.rehearsal.additive_tolerance import (
    AdditiveLimit,
    additive_limit,
    highest_share,
    level_in,
)
from methodlint.rehearsal.along_column import (
    ColumnEnds,
    column_ends,
    greatest_cooling,
    outlet_compressibility_band,
    steepest_rise,
)
from methodlint.rehearsal.arrival import (
    TIME_BAND,
    arrival_at_column,
    arrival_at_detector,
    delivered_slope,
)
from methodlint.rehearsal.batch import BLANKS, INJECTING, STANDARDS, LineRun
from methodlint.rehearsal.bottles import BottleUse, bottle_uses
from methodlint.rehearsal.chiller import USABLE_SHARE as COOLER_SHARE
from methodlint.rehearsal.chiller import cooler_heat_per_mass
from methodlint.rehearsal.co2_store import (
    WeakestPart,
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
from methodlint.rehearsal.co2_supply import (
    CylinderEnd,
    cylinder_end,
    draws_vapour,
    store_temperature,
    usable_liquid,
    vapour_left,
)
from methodlint.rehearsal.contacts import Contact, Meeting, bottles_of, coldest_place, makeup_of
from methodlint.rehearsal.contacts_between import waste_contents
from methodlint.rehearsal.cylinder_weight import (
    age_in_days,
    weight_doubt,
)
from methodlint.rehearsal.data_files import DataFile, PatternWrong, data_files
from methodlint.rehearsal.data_files import duplicates as duplicate_files
from methodlint.rehearsal.diluent_strength import diluent_limit, is_strong, tray_temperature
from methodlint.rehearsal.dissolved import (
    Dissolved,
    dissolved_in,
    level_of,
    salt_limit_in,
    water_share,
)
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
    split_drift,
    splitter_of,
    uses_mass_spectrometer,
)
from methodlint.rehearsal.left_on_column import (
    TO_CLEAN,
    TO_CLEAN_WELL,
    TO_STORE,
    Left,
    has_additive,
    left_on_columns,
    persistent_additives,
    washed_before,
)
from methodlint.rehearsal.line_facts import (
    FLUSHES,
    Span,
    Switch,
    clock_at,
    count_of,
    ends_of_highest,
    flush_volume,
    is_blank,
    levels,
    lines_in_words,
    residue_volume,
    spans_between_standards,
    switches,
    time_to_settle,
)
from methodlint.rehearsal.liquid_paths import Arrival, arrivals
from methodlint.rehearsal.locked_liquid import (
    Locked,
    Parked,
    locked_line,
    locked_section,
    parked_columns,
)
from methodlint.rehearsal.loop_span import LoopSpan, loop_span
from methodlint.rehearsal.makeup_flow import makeup_flow_at
from methodlint.rehearsal.part_pressures import (
    PartPressure,
    PumpLimit,
    part_pressures,
    pressures_that_a_plug_reaches,
    pump_limits,
    regulator_mass_flow,
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
from methodlint.rehearsal.phase_tolerance import (
    COATED,
    USUAL_ADDITIVE_SHARE,
    USUAL_TEMPERATURE_LIMIT,
    cards,
    replacement,
    tolerance,
)
from methodlint.rehearsal.positions import Geometry, Place, geometry_of, nearest_places, read_place
from methodlint.rehearsal.regulator import RegulatorLoad, worst_regulator_load
from methodlint.rehearsal.rehearsal import (
    Extreme,
    FloatArray,
    Rehearsal,
)
from methodlint.rehearsal.room_air import (
    AT_ONCE_DANGEROUS,
    OUTDOOR_CO2,
    OXYGEN_LEAST,
    WORTH_A_CAUTION,
    air_changes_for_fraction,
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
from methodlint.rehearsal.room_exposure import RoomExposure, room_exposure, vented_vapours
from methodlint.rehearsal.run_plan import AMBIENT, components_of
from methodlint.rehearsal.scouting import LeftOut
from methodlint.rehearsal.set_points import (
    FilledRow,
    filled_rows,
    last_to_be_seen,
    missing_setting,
)
from methodlint.rehearsal.staffed_hours import (
    clock_words,
    unstaffed_spans,
)
from methodlint.rehearsal.tray import Tray, tray_of
from methodlint.rehearsal.tube_losses import TubeLoss, losses_behind_column
from methodlint.rehearsal.vent_line import gas_litres_per_minute, vent_loss
from methodlint.rehearsal.vent_vapour import (
    steady_vapour_fraction,
    vapour_flows,
)
from methodlint.rehearsal.vents import (
    CO2_OUTLETS,
    AirChange,
    air_changes_during,
    co2_into_room,
    highest_co2_flow,
    outlets_with,
)
from methodlint.rehearsal.vials import VialAccount, vial_accounts
from methodlint.rehearsal.waiting import TrayTrouble, Wait, tray_troubles, waits_on_tray
from methodlint.rehearsal.washes import (
    Wash,
    calibration_span,
    dissolves,
    salt_thrown_out,
    washes_of,
)
from methodlint.rehearsal.waste import DEFAULT_FILL, waste_fills
from methodlint.scaling.allowances import Allowance, allowance_set, lab_allowances
from methodlint.scaling.comparison import Comparison
from methodlint.scaling.density_match import common_setting
from methodlint.scaling.geometry import flow_ratio, length_span, plate_ratio, volume_ratio
from methodlint.scaling.headroom import loads_of
from methodlint.scaling.headroom import within as loads_beyond
from methodlint.scaling.metering import modifier_density_of, share_for_mass_fraction
from methodlint.scaling.rounding import significant

__all__ = [
    "AMBIENT",
    "ANALOGUE",
    "AT_ONCE_DANGEROUS",
    "BLANKS",
    "CLOSE",
    "CO2_OUTLETS",
    "COATED",
    "COLUMN_SPANS",
    "COOLER_SHARE",
    "DEFAULT_FILL",
    "FLUSHES",
    "GUESS_BAND",
    "HASH_EDITION",
    "INJECTING",
    "OUTDOOR_CO2",
    "OXYGEN_LEAST",
    "STANDARDS",
    "TIME_BAND",
    "TO_CLEAN",
    "TO_CLEAN_WELL",
    "TO_STORE",
    "ULTRAVIOLET",
    "USUAL_ADDITIVE_SHARE",
    "USUAL_TEMPERATURE_LIMIT",
    "WORTH_A_CAUTION",
    "Additive",
    "AdditiveLimit",
    "AirChange",
    "Allowance",
    "Arrival",
    "At",
    "BatchCase",
    "BottleUse",
    "Busy",
    "Candidate",
    "Case",
    "Change",
    "Column",
    "ColumnEnds",
    "Comparison",
    "Contact",
    "CylinderEnd",
    "DataFile",
    "Deviation",
    "Dissolved",
    "DocumentCase",
    "Excess",
    "Extreme",
    "FilledRow",
    "Finding",
    "FloatArray",
    "Geometry",
    "Grade",
    "Injected",
    "Judgement",
    "Lab",
    "Left",
    "LeftOut",
    "Line",
    "LineRun",
    "Liquid",
    "Loaded",
    "Locked",
    "LoopSpan",
    "Measure",
    "Meeting",
    "NotChecked",
    "Pairing",
    "Parked",
    "PartPressure",
    "Parting",
    "PatternWrong",
    "PeakWidth",
    "Place",
    "PumpLimit",
    "Quantity",
    "RegulatorLoad",
    "Rehearsal",
    "RoomExposure",
    "RunCase",
    "SequenceModel",
    "SourceLoad",
    "Span",
    "Switch",
    "Tray",
    "TrayTrouble",
    "TubeLoss",
    "VialAccount",
    "Wait",
    "Wash",
    "WeakestPart",
    "When",
    "additive_limit",
    "additives_in_flow",
    "age_in_days",
    "air_changes_during",
    "air_changes_for_fraction",
    "allowance_set",
    "arrival_at_column",
    "arrival_at_detector",
    "arrivals",
    "attack",
    "attacks_anything",
    "balance_words",
    "bar",
    "base_width",
    "bottle_uses",
    "bottles_of",
    "bridge_for",
    "busiest",
    "busy_spans",
    "calibration_span",
    "cards",
    "cell_of",
    "celsius",
    "change_words",
    "clashes",
    "clock_at",
    "clock_words",
    "co2",
    "co2_into_room",
    "coldest_place",
    "column_ends",
    "column_flow_at",
    "column_volumes_wanted",
    "common_setting",
    "components_of",
    "concentration",
    "contradictions",
    "cooler",
    "cooler_heat_per_mass",
    "count_of",
    "counted",
    "cut_off",
    "cut_off_protects",
    "cylinder_end",
    "cylinder_end_words",
    "cylinder_pressure",
    "data_files",
    "delivered_slope",
    "diluent_limit",
    "dissolved_in",
    "dissolves",
    "draws_vapour",
    "duplicate_files",
    "dwell_for_cycle",
    "effective_volume",
    "ends_of_highest",
    "equilibration_volume",
    "fewest_points",
    "filled_rows",
    "find_additive",
    "find_liquid",
    "find_material",
    "first_peak",
    "flow_for_fraction",
    "flow_ratio",
    "flush_volume",
    "follows_itself",
    "foreign_gas_at_oxygen",
    "gas_alone",
    "gas_litres_per_minute",
    "geometry_of",
    "grams",
    "greatest_cooling",
    "has_additive",
    "head_temperature_needed",
    "higher_outlet",
    "highest_boundary",
    "highest_co2_flow",
    "highest_share",
    "hold_up_time_at",
    "hold_up_volume",
    "holds_additive",
    "implausible_values",
    "injected_by",
    "is_blank",
    "is_placeholder",
    "is_strong",
    "judge_contact",
    "judge_limit",
    "judge_points",
    "kilograms",
    "lab_allowances",
    "last_to_be_seen",
    "least_absorbance",
    "left_on_columns",
    "length_span",
    "level_in",
    "level_of",
    "levels",
    "lines_in_words",
    "lines_of",
    "liquid_strength",
    "litres",
    "loads_beyond",
    "loads_of",
    "locked_line",
    "locked_section",
    "loop_span",
    "losses_behind_column",
    "lower_outlet",
    "makeup_flow_at",
    "makeup_in_cell",
    "makeup_liquid",
    "makeup_of",
    "mass_for_fraction",
    "mean_density",
    "microlitres",
    "millilitres",
    "minutes",
    "miscible_blend",
    "missing_of_cycle",
    "missing_setting",
    "ml_per_min",
    "mobile_phase_strength",
    "modifier_density_of",
    "narrowest",
    "narrowest_peak",
    "nearest",
    "nearest_places",
    "no_width",
    "number",
    "outlet_compressibility_band",
    "outlets_with",
    "oxygen_left",
    "oxygen_with_vented_gas",
    "parked_columns",
    "part_hashes",
    "part_pressures",
    "parting",
    "parting_in_cells",
    "path_text",
    "peak_widths",
    "percent",
    "persistent_additives",
    "placeholders",
    "places_before_regulator",
    "plate_loss",
    "plate_ratio",
    "plug_of_variance",
    "plug_variance",
    "ppm",
    "pressure_needed",
    "pressures_that_a_plug_reaches",
    "pump_limits",
    "pumped_after",
    "read_place",
    "regulator_mass_flow",
    "release_fraction",
    "released_into_room",
    "replacement",
    "residue_volume",
    "return_to_start",
    "room_exposure",
    "row_absorbance",
    "salt_findings",
    "salt_limit_in",
    "salt_thrown_out",
    "same_level",
    "settings_at",
    "severity",
    "share_for_mass_fraction",
    "show",
    "significant",
    "slower",
    "source_load",
    "span_of",
    "spans_between_standards",
    "split_drift",
    "splitter_of",
    "steady_fraction",
    "steady_vapour_fraction",
    "steepest_rise",
    "store_pressure",
    "store_temperature",
    "store_temperature_needed",
    "switches",
    "switches_of",
    "temperature_at_pressure",
    "time_to_settle",
    "tolerance",
    "traces",
    "tray_of",
    "tray_temperature",
    "tray_troubles",
    "unstaffed_spans",
    "usable_liquid",
    "uses_mass_spectrometer",
    "values_hash",
    "vapour_flows",
    "vapour_left",
    "vent_loss",
    "vented_vapours",
    "vial_accounts",
    "visible",
    "volume_ratio",
    "volume_sigma",
    "waits_on_tray",
    "warmest_before_regulator",
    "washed_before",
    "washes_of",
    "waste_contents",
    "waste_fills",
    "water_share",
    "weakest_part",
    "weight_doubt",
    "widths",
    "worst_against",
    "worst_regulator_load",
]
