"""Lines, vials, bottles, waste and times of a sequence."""

from __future__ import annotations

from methodlint.judging.shared.lines_of_method import follows_itself
from methodlint.judging.shared.repeatability import highest_spread
from methodlint.judging.shared.vial_fills import fill_advised, full_vial, vial_advice
from methodlint.judging.shared.waste_of_case import fills_of, part_filled
from methodlint.rehearsal.batch.bench_state import differences, said_state, state_left
from methodlint.rehearsal.batch.bottles import BottleUse, bottle_uses
from methodlint.rehearsal.batch.data_files import DataFile, PatternWrong, data_files
from methodlint.rehearsal.batch.data_files import duplicates as duplicate_files
from methodlint.rehearsal.batch.line_facts import (
    FLUSHES,
    MEASURING,
    Span,
    Switch,
    clock_at,
    count_of,
    ends_of_highest,
    first_measured,
    flush_volume,
    is_blank,
    levels,
    lines_in_words,
    residue_volume,
    spans_between_standards,
    switches,
    time_to_settle,
)
from methodlint.rehearsal.batch.lines import BLANKS, LineRun
from methodlint.rehearsal.batch.loop_span import LoopSpan, loop_span
from methodlint.rehearsal.batch.positions import (
    Geometry,
    TrayPlace,
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
from methodlint.rehearsal.batch.waste import DEFAULT_FILL, waste_fills
from methodlint.rehearsal.plan.line_settings import co2_flows
from methodlint.rehearsal.plan.scouting import LeftOut
