"""The injected volume of the proposed method, as far as loop and autosampler allow."""

from __future__ import annotations

import math

from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.quantities.format import number, show
from methodlint.scaling.geometry import volume_ratio
from methodlint.scaling.rounding import significant
from methodlint.transfer.draft import Draft, in_unit_of
from methodlint.transfer.entry import How
from methodlint.transfer.sides import Sides

__all__ = ["draft_injection"]


def draft_injection(draft: Draft, sides: Sides) -> None:
    """Scale the injection by column volume, then through the autosampler."""
    injection = sides.typed.injection
    if injection is None or injection.volume is None:
        return
    geometry = injection.volume.si * volume_ratio(sides.source.bed, sides.target.bed)
    wanted = injection.volume.si * volume_ratio(sides.source.bed, sides.target.bed, hold_up=True)
    one, two = sides.source.bed, sides.target.bed
    why = (
        f"by column volume, x {number(wanted / injection.volume.si, 4)} = "
        f"({number(two.length * 1e3)} x {number(two.inner_diameter * 1e3)}^2) / "
        f"({number(one.length * 1e3)} x {number(one.inner_diameter * 1e3)}^2)"
    )
    card = sides.target.card.autosampler
    limit = ""
    value = (
        wanted
        if abs(wanted / injection.volume.si - 1.0) < 1e-9
        else significant(wanted * 1e9) / 1e9
    )
    if card is not None:
        top, top_words = _largest_injection(sides.target.card, injection.mode)
        if value > top * (1.0 + 1e-9):
            value, limit = top, top_words
        if card.lowest_volume is not None and value < card.lowest_volume.si:
            value, limit = card.lowest_volume.si, "the least volume that the autosampler injects"
        if injection.mode == "filled loop" and card.loop is not None and value < card.loop.si:
            part = card.largest_part_fill.si if card.largest_part_fill else 0.5
            if value <= part * card.loop.si * (1.0 + 1e-9):
                draft.words(
                    "injection mode", ("injection", "mode"), injection.mode, "part-filled loop",
                    "derived", f"the loop of {show(card.loop.si, 'volume')} is larger than needed",
                )  # fmt: skip
            else:
                value, limit = card.loop.si, "the loop, which is injected whole"
    how: How = "limited by" if limit else "derived"
    if limit:
        why = f"needed {show(wanted, 'volume')}, {why}"
    draft.quantity(
        "injection volume", ("injection", "volume"), injection.volume, value, how=how, limit=limit,
        why=why, geometry=in_unit_of(injection.volume, geometry, 3), digits=3,
    )  # fmt: skip


def _largest_injection(card: Instrument, mode: str | None) -> tuple[float, str]:
    sampler = card.autosampler
    assert sampler is not None
    tops = [(math.inf, "")]
    if sampler.highest_volume is not None and mode != "filled loop":
        tops.append((sampler.highest_volume.si, "the largest volume that the autosampler injects"))
    if sampler.loop is not None and not sampler.flow_through_needle:
        part = 1.0
        if mode == "part-filled loop":
            part = sampler.largest_part_fill.si if sampler.largest_part_fill else 0.5
        tops.append((part * sampler.loop.si, f"the loop of {show(sampler.loop.si, 'volume')}"))
    return min(tops, key=lambda item: item[0])
