"""Which volumes an autosampler can inject in which mode."""

from __future__ import annotations

from dataclasses import dataclass

from methodlint.documents.kinds.instrument import Autosampler

#: Largest part of a loop that is filled without loss over its front where the card gives none:
#: usual, and the most that anybody accepts (common practice, no source).
USUAL_PART, LARGEST_PART = 0.5, 0.7

#: Loops that can be bought [m3] (common practice, no source).
LOOPS = tuple(microlitres * 1e-9 for microlitres in (1, 2, 5, 10, 20, 50, 100, 250, 500, 1000))

_SLACK = 1e-6


@dataclass(frozen=True, slots=True)
class LoopSpan:
    """Span of injection volumes in one mode.

    Attributes
    ----------
    lowest, highest
        Least and greatest volume [m3]; None if not known or without limit.
    tolerated
        Up to here [m3] the greatest volume is a matter of usage, not of the card.
    whole
        The loop is filled: it injects its own volume and no other.
    part
        Share of the loop that may be filled; None where no loop decides.
    missing
        Figures of the documents that are needed and not there.
    """

    lowest: float | None = None
    highest: float | None = None
    tolerated: float | None = None
    whole: bool = False
    part: float | None = None
    missing: tuple[str, ...] = ()

    def too_little(self, volume: float) -> bool:
        """Whether a volume [m3] lies below the span."""
        return self.lowest is not None and volume < self.lowest * (1.0 - _SLACK)

    def too_much(self, volume: float) -> bool:
        """Whether a volume [m3] lies above the span."""
        return self.highest is not None and volume > self.highest * (1.0 + _SLACK)

    def fitting_loop(self, volume: float) -> float | None:
        """Smallest usual loop [m3] with which a part-filled loop holds a volume [m3]."""
        if self.part is None or self.whole:
            return None
        wanted = volume * (1.0 - _SLACK)
        return next((loop for loop in LOOPS if loop * self.part >= wanted), None)


def loop_span(sampler: Autosampler, mode: str | None) -> LoopSpan:
    """Tell the span of a mode on an autosampler.

    Parameters
    ----------
    sampler
        The card. A needle in the flow has no loop: its modes are all metered.
    mode
        "part-filled loop", "filled loop", "metered"; None if the method does not say.
    """
    missing = [] if sampler.lowest_volume else ["instrument.autosampler.lowest_volume"]
    lowest = sampler.lowest_volume.si if sampler.lowest_volume else None
    highest = sampler.highest_volume.si if sampler.highest_volume else None
    if sampler.flow_through_needle or mode == "metered":
        if highest is None:
            missing.append("instrument.autosampler.highest_volume")
        return LoopSpan(lowest, highest, missing=tuple(missing))
    if mode is None:
        return LoopSpan(lowest, highest, missing=("method.injection.mode", *missing))
    if sampler.loop is None:
        return LoopSpan(lowest, highest, missing=("instrument.autosampler.loop", *missing))
    loop = sampler.loop.si
    if mode == "filled loop":
        return LoopSpan(loop, loop, whole=True, part=1.0)
    part = sampler.largest_part_fill.si if sampler.largest_part_fill else None
    upper = loop * (part if part is not None else USUAL_PART)
    tolerated = None if part is not None else loop * LARGEST_PART
    if highest is not None and highest < upper:
        upper, tolerated = highest, None
    elif highest is not None and tolerated is not None:
        tolerated = min(tolerated, highest)
    return LoopSpan(lowest, upper, tolerated, part=part or USUAL_PART, missing=tuple(missing))
