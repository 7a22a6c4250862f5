"""What the pumps are told and deliver, and when it arrives."""

from __future__ import annotations

from methodlint.judging.shared.small_streams import (
    flow_that_meters,
    larger_share_helps,
    more_for_pump,
    stream_of,
)
from methodlint.rehearsal.batch.line_streams import LineStream, line_streams
from methodlint.rehearsal.batch.liquid_paths import Arrival, arrivals
from methodlint.rehearsal.plan.makeup_flow import makeup_flow_at, mean_makeup_flow
from methodlint.rehearsal.plan.set_points import (
    FilledRow,
    filled_rows,
    last_to_be_seen,
    missing_setting,
)
from methodlint.rehearsal.run.arrival import (
    TIME_BAND,
    arrival_at_detector,
    delivered_slope,
    unretained_time,
)
