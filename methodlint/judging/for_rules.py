"""Everything a rule file may import, in one place.

A rule states a condition and a sentence. Physics, liquids and places come from here, so that a
rule never computes physics of its own.
"""

from __future__ import annotations

from methodlint.documents.contents.column_spans import COLUMN_SPANS
from methodlint.documents.contents.contradictions import contradictions
from methodlint.documents.contents.cylinder_fill import LIQUID as FILL_OF_LIQUID
from methodlint.documents.contents.cylinder_fill import PERMITTED as FILL_PERMITTED
from methodlint.documents.contents.cylinder_fill import SURELY_OVER as FILL_SURELY_OVER
from methodlint.documents.contents.cylinder_fill import can_hold, overfills
from methodlint.documents.contents.implausible import implausible_values
from methodlint.documents.contents.liquid_names import liquid_names
from methodlint.documents.contents.placeholders import placeholders
from methodlint.documents.contents.train_order import ULTRAVIOLET, train_faults, why_not_recorded
from methodlint.documents.contents.values_hash import EDITION as HASH_EDITION
from methodlint.documents.contents.values_hash import part_hashes, values_hash
from methodlint.documents.kinds.base import Deviation, Liquid
from methodlint.documents.kinds.column import Column
from methodlint.documents.kinds.lab import Lab
from methodlint.documents.kinds.sequence import Line
from methodlint.documents.kinds.sequence import Sequence as SequenceModel
from methodlint.documents.kinds.solvents import Bottle
from methodlint.documents.loading import Loaded
from methodlint.documents.quantities.format import counted, number, show
from methodlint.documents.quantities.number_findings import is_placeholder
from methodlint.documents.quantities.quantity import Quantity
from methodlint.documents.text.names import nearest
from methodlint.documents.text.places import path_text
from methodlint.documents.text.visible import has_letters, visible
from methodlint.fluids.additives.known import Additive, concentration, find_additive, same_level
from methodlint.fluids.co2 import properties as co2
from methodlint.fluids.liquids.known import find_liquid, similar_liquids
from methodlint.fluids.liquids.liquid_classes import is_in, known_on_a_list
from methodlint.fluids.liquids.wetted_materials import attack, attacks_anything, find_material
from methodlint.fluids.miscibility.blends import bridge_for, miscible_blend
from methodlint.fluids.miscibility.incompatible import clashes
from methodlint.fluids.water_limit import LEAST_WATER_AT, water_by_table
from methodlint.hydraulics.columns import hold_up_volume
from methodlint.judging.ask.bands import Judgement, judge_limit
from methodlint.judging.ask.cylinder_words import balance_words, change_words, cylinder_end_words
from methodlint.judging.ask.figures import (
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
from methodlint.judging.ask.flowing import additives_in_flow
from methodlint.judging.ask.held_liquids import (
    additives_of,
    lasting,
    liquid_difference,
    liquid_words,
    same_liquids,
)
from methodlint.judging.ask.lines_of_method import (
    follows_itself,
)
from methodlint.judging.ask.looser import looser
from methodlint.judging.ask.not_miscible import (
    Pairing,
    blend_advice,
    judge_contact,
    named,
    parts_by_itself,
)
from methodlint.judging.ask.overpressure import (
    CLOSE,
    Excess,
    cut_off,
    cut_off_protects,
    lower_outlet,
    slower,
    worst_against,
)
from methodlint.judging.ask.salts import salt_findings
from methodlint.judging.ask.small_streams import (
    flow_that_meters,
    larger_share_helps,
    more_for_pump,
    stream_of,
)
from methodlint.judging.ask.supply_end import bookings_of_others, others_draw, others_sharing
from methodlint.judging.ask.traces import (
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
from methodlint.judging.ask.two_phases import (
    Parting,
    cooler,
    higher_outlet,
    parting,
    parting_in_cells,
    settings_at,
)
from methodlint.judging.ask.vial_fills import fill_advised, full_vial, vial_advice
from methodlint.judging.case import BatchCase, Case, DocumentCase, RunCase
from methodlint.judging.change_case import ChangeCase
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
from methodlint.judging.water import (
    less_water,
    more_modifier,
    mostly_acetonitrile,
    water_in_modifier,
)
from methodlint.rehearsal.batch.bench_state import differences, said_state, state_left
from methodlint.rehearsal.batch.bottles import BottleUse, bottle_uses
from methodlint.rehearsal.batch.data_files import DataFile, PatternWrong, data_files
from methodlint.rehearsal.batch.data_files import duplicates as duplicate_files
from methodlint.rehearsal.batch.diluent_strength import diluent_limit, is_strong, tray_temperature
from methodlint.rehearsal.batch.injected import (
    Injected,
    lines_of,
    liquid_strength,
)
from methodlint.rehearsal.batch.injected import injected as injected_by
from methodlint.rehearsal.batch.left_on_column import (
    TO_CLEAN,
    TO_CLEAN_WELL,
    TO_STORE,
    Left,
    has_additive,
    left_on_columns,
    persistent_additives,
    washed_before,
)
from methodlint.rehearsal.batch.line_facts import (
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
from methodlint.rehearsal.batch.line_streams import LineStream, line_streams
from methodlint.rehearsal.batch.lines import BLANKS, LineRun
from methodlint.rehearsal.batch.liquid_paths import Arrival, arrivals
from methodlint.rehearsal.batch.loop_span import LoopSpan, loop_span
from methodlint.rehearsal.batch.positions import (
    Geometry,
    Place,
    geometry_of,
    nearest_places,
    read_place,
)
from methodlint.rehearsal.batch.tray import Tray, tray_of
from methodlint.rehearsal.batch.vials import VialAccount, vial_accounts
from methodlint.rehearsal.batch.waiting import (
    NotYetThere,
    TrayTrouble,
    Wait,
    not_yet_there,
    tray_troubles,
    waits_on_tray,
)
from methodlint.rehearsal.batch.washes import (
    Wash,
    calibration_span,
    dissolves,
    salt_thrown_out,
    washes_of,
)
from methodlint.rehearsal.batch.waste import DEFAULT_FILL, waste_fills
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
from methodlint.rehearsal.bench.cylinder_weight import (
    age_in_days,
    days_after_the_run,
    weight_doubt,
)
from methodlint.rehearsal.bench.ion_source import (
    SourceLoad,
    source_load,
    split_drift,
    splitter_of,
    uses_mass_spectrometer,
)
from methodlint.rehearsal.bench.locked_liquid import (
    Locked,
    Parked,
    locked_line,
    locked_section,
    parked_columns,
)
from methodlint.rehearsal.bench.pump_head import delivered_change, subcooling
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
)
from methodlint.rehearsal.bench.vent_line import gas_litres_per_minute, vent_loss
from methodlint.rehearsal.bench.vent_vapour import (
    steady_vapour_fraction,
)
from methodlint.rehearsal.bench.vents import (
    CO2_OUTLETS,
    air_changes_during,
    co2_into_room,
    highest_co2_flow,
    outlets_with,
    unlisted_vent,
)
from methodlint.rehearsal.contacts.contacts_between import waste_contents
from methodlint.rehearsal.contacts.dissolved import (
    Dissolved,
    dissolved_in,
    level_of,
    salt_limit_in,
    water_share,
)
from methodlint.rehearsal.contacts.in_a_run import (
    Contact,
    Meeting,
    bottles_of,
    coldest_place,
    makeup_of,
    modifier_bottles,
)
from methodlint.rehearsal.plan.additive_tolerance import (
    AdditiveLimit,
    additive_limit,
    highest_share,
    level_in,
)
from methodlint.rehearsal.plan.makeup_flow import makeup_flow_at, mean_makeup_flow
from methodlint.rehearsal.plan.phase_tolerance import (
    COATED,
    USUAL_TEMPERATURE_LIMIT,
    cards,
    replacement,
    tolerance,
)
from methodlint.rehearsal.plan.run_plan import components_of
from methodlint.rehearsal.plan.scouting import LeftOut
from methodlint.rehearsal.plan.set_points import (
    FilledRow,
    filled_rows,
    last_to_be_seen,
    missing_setting,
)
from methodlint.rehearsal.run.absorbance import (
    least_absorbance,
    row_absorbance,
)
from methodlint.rehearsal.run.acquisition import (
    Busy,
    busy_spans,
    dwell_for_cycle,
    fewest_points,
    missing_of_cycle,
    span_of,
    switches_of,
)
from methodlint.rehearsal.run.along_column import (
    column_ends,
    denser_when_cooled,
    greatest_cooling,
    outlet_compressibility_band,
    steepest_rise,
)
from methodlint.rehearsal.run.arrival import (
    TIME_BAND,
    arrival_at_detector,
    delivered_slope,
    unretained_time,
)
from methodlint.rehearsal.run.equilibration import (
    column_volumes_wanted,
    equilibration_volume,
    holds_additive,
    pumped_after,
    return_to_start,
)
from methodlint.rehearsal.run.part_pressures import (
    PartPressure,
    PumpLimit,
    part_pressures,
    pressures_that_a_plug_reaches,
    pump_limits,
    regulator_mass_flow,
)
from methodlint.rehearsal.run.peaks import (
    PeakWidth,
    first_peak,
    hold_up_time_at,
    peak_widths,
    plate_loss,
    plug_of_variance,
    plug_variance,
    volume_sigma,
)
from methodlint.rehearsal.run.phase_places import (
    band_words,
    highest_boundary,
    places_before_regulator,
    thinnest_place,
    warmest_before_regulator,
)
from methodlint.rehearsal.run.regulator import RegulatorLoad
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.states import Extreme, FloatArray
from methodlint.rehearsal.run.tube_losses import losses_behind_column, tubes_of_unknown_loss
from methodlint.rehearsal.water_in_modifier import volume_share_of_water, water_closest_to_limit
from methodlint.scaling.allowances import Allowance, allowance_set, lab_allowances
from methodlint.scaling.comparison import Comparison
from methodlint.scaling.density_match import common_setting
from methodlint.scaling.geometry import flow_ratio, length_span, plate_ratio, volume_ratio
from methodlint.scaling.headroom import loads_of
from methodlint.scaling.headroom import within as loads_beyond
from methodlint.scaling.metering import modifier_density_of, share_for_mass_fraction
from methodlint.scaling.rounding import significant
