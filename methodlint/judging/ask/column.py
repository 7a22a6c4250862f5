"""What a column is, bears, holds and is left with."""

from __future__ import annotations

from methodlint.documents.contents.column_spans import COLUMN_SPANS
from methodlint.documents.kinds.column import Column, InjectionLog
from methodlint.hydraulics.columns import hold_up_volume
from methodlint.rehearsal.batch.diluent_strength import diluent_limit, is_strong, tray_temperature
from methodlint.rehearsal.batch.injected import Injected, lines_of, liquid_strength
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
from methodlint.rehearsal.plan.additive_tolerance import (
    ToleratedAdditive,
    additive_limit,
    highest_share,
    level_in,
)
from methodlint.rehearsal.plan.phase_tolerance import (
    COATED,
    USUAL_TEMPERATURE_LIMIT,
    cards,
    replacement,
    tolerance,
)
from methodlint.rehearsal.run.along_column import (
    column_ends,
    denser_when_cooled,
    greatest_cooling,
    outlet_compressibility_band,
    steepest_rise,
)
from methodlint.rehearsal.run.equilibration import (
    column_volumes_wanted,
    equilibration_volume,
    holds_additive,
    pumped_after,
    return_to_start,
)
