"""Traces, peaks, and what reaches a detector."""

from __future__ import annotations

from methodlint.documents.contents.train_order import ULTRAVIOLET, train_faults, why_not_recorded
from methodlint.documents.kinds.method import Detector
from methodlint.judging.shared.traces import (
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
from methodlint.rehearsal.bench.ion_source import (
    SourceLoad,
    source_load,
    split_drift,
    splitter_of,
    uses_mass_spectrometer,
)
from methodlint.rehearsal.plan.makeup_tee import tee_behind_splitter
from methodlint.rehearsal.run.absorbance import (
    least_absorbance,
    row_absorbance,
    unpublished_absorber,
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
from methodlint.rehearsal.run.detector_delay import delay_to_source
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
