"""What the pumps deliver in lines of a sequence that state a flow or a share of their own."""

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
        Key that states the flow, or the share where the flow is that of the method.
    total, co2, modifier
        Set flow and the greatest part of each pump [m3/s].
    mixed_share
        Modifier share that the line states, with CO2 beside it [-]; None where it states none.
    """

    line: LineRun
    field: str
    total: float
    co2: float
    modifier: float
    mixed_share: float | None = None


def line_streams(batch: Batch) -> list[LineStream]:
    """List the lines whose flow or share is not that of their method, with the part of each pump.

    An injection keeps the shares of its method's programme; a step without one runs at its own
    share or that at which its method starts, with the CO2 off on the modifier pump alone. Where a
    step does not say whether CO2 flows, each pump has the greater part.
    """
    found = []
    for line in batch.lines:
        written = line.line
        run = batch.runs.get(line.method)
        key = "flow" if written.flow is not None else "flush_volume"
        share = _mixed_share(line)
        if getattr(written, key) is None or (key == "flush_volume" and line.ends <= line.begins):
            if share is None:
                continue
            key = "modifier_share"
        start = float(run.set_flow[0]) if run is not None and run.metered else 0.0
        flow = step_flow(written, start if key == "modifier_share" else 0.0)
        co2, modifier = _parts(line, run)
        found.append(LineStream(line, key, flow, flow * co2, flow * modifier, share))
    return found


def _mixed_share(line: LineRun) -> float | None:
    """Modifier share that a step states and that may be mixed with CO2."""
    stated = line.line.modifier_share
    mixed = not line.injects and co2_flows(line.line) is not False
    return stated.si if stated is not None and mixed else None


def _parts(line: LineRun, run: Rehearsal | None) -> tuple[float, float]:
    """Greatest part of the flow that each pump delivers."""
    flows = True if line.injects else co2_flows(line.line)
    if flows is False:
        return 0.0, 1.0
    share = _mixed_share(line)
    if share is not None:
        return 1.0 - share, share if flows else 1.0
    if run is None or not run.metered:
        return 1.0, 1.0
    shares = run.pumped_share if line.injects else run.pumped_share[:1]
    return 1.0 - float(shares.min()), float(shares.max()) if flows else 1.0
