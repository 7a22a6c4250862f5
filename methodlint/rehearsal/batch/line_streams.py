"""What the pumps deliver in lines of a sequence that state a flow of their own."""

from __future__ import annotations

from dataclasses import dataclass

from methodlint.rehearsal.batch.lines import Batch, LineRun
from methodlint.rehearsal.plan.line_settings import co2_flows, step_flow
from methodlint.rehearsal.run.rehearsal import Rehearsal

__all__ = ["LineStream", "line_streams"]


@dataclass(frozen=True, slots=True)
class LineStream:
    """The flows of one line.

    Attributes
    ----------
    line
        The line.
    field
        Key that states the flow.
    total, co2, modifier
        Set flow and the greatest part of each pump [m3/s].
    """

    line: LineRun
    field: str
    total: float
    co2: float
    modifier: float


def line_streams(batch: Batch) -> list[LineStream]:
    """List the lines whose flow is not that of their method, with the part of each pump.

    An injection keeps the shares of its method's programme; a step without one runs at its
    starting share, with the CO2 off on the modifier pump alone. Where a step does not say whether
    CO2 flows, each pump has the greater part.
    """
    found = []
    for line in batch.lines:
        written = line.line
        run = batch.runs.get(line.method)
        key = "flow" if written.flow is not None else "flush_volume"
        if getattr(written, key) is None or (key == "flush_volume" and line.ends <= line.begins):
            continue
        flow = step_flow(written, 0.0)
        co2, modifier = _parts(line, run)
        found.append(LineStream(line, key, flow, flow * co2, flow * modifier))
    return found


def _parts(line: LineRun, run: Rehearsal | None) -> tuple[float, float]:
    """Greatest part of the flow that each pump delivers."""
    flows = True if line.injects else co2_flows(line.line)
    if flows is False:
        return 0.0, 1.0
    if run is None or not run.metered:
        return 1.0, 1.0
    shares = run.pumped_share if line.injects else run.pumped_share[:1]
    return 1.0 - float(shares.min()), float(shares.max()) if flows else 1.0
