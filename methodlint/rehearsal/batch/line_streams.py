"""What the pumps deliver in lines of a sequence that state a flow of their own."""

from __future__ import annotations

from dataclasses import dataclass

from methodlint.rehearsal.batch.lines import Batch, LineRun
from methodlint.rehearsal.run.rehearsal import Rehearsal

__all__ = ["LineStream", "line_streams"]

_RESTING = ("shutdown", "idle")


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
    starting share, with the CO2 off on the modifier pump alone.
    """
    found = []
    for line in batch.lines:
        written = line.line
        run = batch.runs.get(line.method)
        if written.flow is not None:
            co2, modifier = _parts(line, run)
            flow = written.flow.si
            found.append(LineStream(line, "flow", flow, flow * co2, flow * modifier))
        elif written.flush_volume is not None and line.ends > line.begins:
            flow = written.flush_volume.si / (line.ends - line.begins)
            found.append(LineStream(line, "flush_volume", flow, 0.0, flow))
    return found


def _parts(line: LineRun, run: Rehearsal | None) -> tuple[float, float]:
    """Greatest part of the flow that each pump delivers."""
    written = line.line
    off = written.co2 == "off" or (written.kind in _RESTING and written.co2 != "on")
    if off and not line.injects:
        return 0.0, 1.0
    if run is None or not run.metered:
        return 1.0, 1.0
    shares = run.pumped_share if line.injects else run.pumped_share[:1]
    return 1.0 - float(shares.min()), float(shares.max())
