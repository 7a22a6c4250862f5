"""When a cylinder ends and when to change it, in words."""

from __future__ import annotations

from methodlint.documents.quantities.format import show
from methodlint.rehearsal.batch.lines import STANDARDS, Batch
from methodlint.rehearsal.bench.co2_supply import METERING_TOLERANCE, CylinderEnd
from methodlint.rehearsal.bench.staffed_hours import clock_words


def cylinder_end_words(batch: Batch, end: CylinderEnd, *, vapour: bool = False) -> str:
    """Say during which injections the CO2 ends, and before which it does not.

    Parameters
    ----------
    vapour
        The pump condenses vapour; there is no liquid to wait for.
    """
    what = "the vapour in the cylinder" if vapour else "the liquid in the cylinder"
    store = end.usable.store
    metering = METERING_TOLERANCE + batch.metering_band
    tolerances = (
        f"(store {show(store.lowest, 'temperature')} to {show(store.highest, 'temperature')}"
        f"{_worth(batch, end)}, scale {show(end.usable.weighing, 'mass', 'kg')}, pump {100 * metering:.0f} %)"
    )
    total, safe = batch.injections, end.not_before or 0
    if end.expected_first is None:
        return f"{what} may end from injection {safe + 1} of {total} on {tolerances}"
    if not end.expected_last:
        return f"{what} is expected to end before the first of {total} injections {tolerances}"
    first = max(end.expected_first, 1)
    span = f"{first}-{end.expected_last}" if end.expected_last > first else f"{first}"
    early = f"not before injection {safe + 1}" if safe else "in the worst case before the first one"
    return (
        f"{what} is expected to end during injection {span} of {total}"
        f"{clock_words(batch, end.clock, end.clock_last)}, {early} on these tolerances {tolerances}"
    )


def balance_words(end: CylinderEnd) -> str:
    """Say how much is short, or how little is left."""
    if end.short > 0.0:
        return f"short by {show(end.short, 'mass', 'kg')}"
    return (
        f"{show(-end.short, 'mass', 'kg')} in reserve, "
        f"{show(end.short_at_worst, 'mass', 'kg')} short in the worst case"
    )


def change_words(batch: Batch, end: CylinderEnd, to: str = "") -> str:
    """Say when to change the cylinder, reckoned from the early end."""
    safe = end.not_before or 0
    if safe < 1:
        return f"change the cylinder{to} before the start"
    standards = [
        line.last_injection
        for line in batch.lines
        if line.line.kind in STANDARDS and 0 < line.last_injection <= safe
    ]
    last = f" (the last standard up to there is injection {standards[-1]})" if standards else ""
    return (
        f"change the cylinder{to} before the start, or after injection {safe} at the latest{last}"
    )


def _worth(batch: Batch, end: CylinderEnd) -> str:
    """Say how many injections the span of the store temperature is worth, either way."""
    injecting = sum(line.co2 for line in batch.lines if line.injects)
    swing = (end.usable.most - end.usable.least) / 2.0 - end.usable.weighing
    if injecting <= 0.0 or batch.injections < 1:
        return ""
    return f" is +/-{swing / injecting * batch.injections:.0f} injections"
