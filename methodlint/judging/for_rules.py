"""Everything a rule file may import, in one place.

A rule states a condition and a sentence. Physics, liquids and places come from here, so that a
rule never computes physics of its own.
"""

from __future__ import annotations

from methodlint.documents.column_spans import COLUMN_SPANS
from methodlint.documents.contradictions import contradictions
from methodlint.documents.cylinder_fill import LIQUID as FILL_OF_LIQUID
from methodlint.documents.cylinder_fill import PERMITTED as FILL_PERMITTED
from methodlint.documents.cylinder_fill import SURELY_OVER as FILL_SURELY_OVER
from methodlint.documents.cylinder_fill import can_hold, overfills
from methodlint.documents.format import counted, number, show
from methodlint.documents.implausible import implausible_values
from methodlint.documents.kinds.base import Deviation, Liquid
from methodlint.documents.kinds.column import Column
from methodlint.documents.kinds.lab import Lab
from methodlint.documents.kinds.sequence import Line
from methodlint.documents.kinds.sequence import Sequence as SequenceModel
from methodlint.documents.kinds.solvents import Bottle
from methodlint.documents.liquid_names import liquid_names
from methodlint.documents.loading import Loaded
from methodlint.documents.names import nearest
from methodlint.documents.number_findings import is_placeholder
from methodlint.documents.placeholders import placeholders
from methodlint.documents.places import path_text
from methodlint.documents.quantity import Quantity
from methodlint.documents.train_order import ULTRAVIOLET, train_faults, why_not_recorded
from methodlint.documents.values_hash import EDITION as HASH_EDITION
from methodlint.documents.values_hash import part_hashes, values_hash
from methodlint.documents.visible import has_letters, visible
from methodlint.fluids import co2
from methodlint.fluids.additives import Additive, concentration, find_additive, same_level
from methodlint.fluids.incompatible import clashes
from methodlint.fluids.liquid_classes import is_in, known_on_a_list
from methodlint.fluids.liquids import find_liquid, similar_liquids
from methodlint.fluids.miscibility import bridge_for, miscible_blend
from methodlint.fluids.wetted_materials import attack, attacks_anything, find_material
from methodlint.hydraulics.columns import hold_up_volume
from methodlint.judging.bands import Judgement, judge_limit
from methodlint.judging.case import BatchCase, Case, DocumentCase, RunCase
from methodlint.judging.change_case import ChangeCase
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
    guards_meaning,
    severity,
)
from methodlint.judging.flowing import additives_in_flow
from methodlint.judging.held_liquids import (
    additives_of,
    lasting,
    liquid_difference,
    liquid_words,
    same_liquids,
)
from methodlint.judging.lines_of_method import (
    follows_itself,
)
from methodlint.judging.looser import looser
from methodlint.judging.not_miscible import (
    Pairing,
    blend_advice,
    judge_contact,
    named,
    parts_by_itself,
)
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
from methodlint.judging.small_streams import (
    flow_that_meters,
    larger_share_helps,
    more_for_pump,
    stream_of,
)
from methodlint.judging.supply_end import bookings_of_others, others_draw, others_sharing
from methodlint.judging.traces import (
    ANALOGUE,
    GUESS_BAND,
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
from methodlint.judging.vial_fills import fill_advised, full_vial, vial_advice
from methodlint.rehearsal.absorbance import (
    least_absorbance,
    row_absorbance,
)
from methodlint.rehearsal.acquisition import (
    Busy,
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
    column_ends,
    denser_when_cooled,
    greatest_cooling,
    outlet_compressibility_band,
    steepest_rise,
)
from methodlint.rehearsal.arrival import (
    TIME_BAND,
    arrival_at_detector,
    delivered_slope,
    unretained_time,
)
from methodlint.rehearsal.batch import BLANKS, LineRun
from methodlint.rehearsal.bench_state import differences, said_state, state_left
from methodlint.rehearsal.bottles import BottleUse, bottle_uses
from methodlint.rehearsal.chiller import USABLE_SHARE as COOLER_SHARE
from methodlint.rehearsal.chiller import cooler_heat_per_mass
from methodlint.rehearsal.co2_store import (
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
from methodlint.rehearsal.contacts import (
    Contact,
    Meeting,
    bottles_of,
    coldest_place,
    makeup_of,
    modifier_bottles,
)
from methodlint.rehearsal.contacts_between import waste_contents
from methodlint.rehearsal.cylinder_weight import (
    age_in_days,
    days_after_the_run,
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
from methodlint.rehearsal.line_streams import LineStream, line_streams
from methodlint.rehearsal.liquid_paths import Arrival, arrivals
from methodlint.rehearsal.locked_liquid import (
    Locked,
    Parked,
    locked_line,
    locked_section,
    parked_columns,
)
from methodlint.rehearsal.loop_span import LoopSpan, loop_span
from methodlint.rehearsal.makeup_flow import makeup_flow_at, mean_makeup_flow
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
    first_peak,
    hold_up_time_at,
    peak_widths,
    plate_loss,
    plug_of_variance,
    plug_variance,
    volume_sigma,
)
from methodlint.rehearsal.phase_places import (
    band_words,
    highest_boundary,
    places_before_regulator,
    thinnest_place,
    warmest_before_regulator,
)
from methodlint.rehearsal.phase_tolerance import (
    COATED,
    USUAL_TEMPERATURE_LIMIT,
    cards,
    replacement,
    tolerance,
)
from methodlint.rehearsal.positions import Geometry, Place, geometry_of, nearest_places, read_place
from methodlint.rehearsal.pump_head import delivered_change, subcooling
from methodlint.rehearsal.regulator import RegulatorLoad
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
from methodlint.rehearsal.room_exposure import RoomExposure, room_exposure, vented_vapours
from methodlint.rehearsal.run_plan import components_of
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
from methodlint.rehearsal.tube_losses import losses_behind_column, tubes_of_unknown_loss
from methodlint.rehearsal.vent_line import gas_litres_per_minute, vent_loss
from methodlint.rehearsal.vent_vapour import (
    steady_vapour_fraction,
)
from methodlint.rehearsal.vents import (
    CO2_OUTLETS,
    air_changes_during,
    co2_into_room,
    highest_co2_flow,
    outlets_with,
    unlisted_vent,
)
from methodlint.rehearsal.vials import VialAccount, vial_accounts
from methodlint.rehearsal.waiting import (
    NotYetThere,
    TrayTrouble,
    Wait,
    not_yet_there,
    tray_troubles,
    waits_on_tray,
)
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
