"""What a mass spectrometer has to do at its busiest moment, and how fast it does it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from methodlint.documents.kinds.method import Detector, Transition
from methodlint.rehearsal.run.peaks import PeakWidth, narrowest_peak


@dataclass(frozen=True, slots=True)
class Busy:
    """A span of time in which the same transitions are measured.

    Attributes
    ----------
    begins, ends
        [s]; `ends` is infinite for a span without an end.
    transitions
        Indices of the transitions that are measured.
    cycle
        Time to measure each of them once [s].
    switches
        Changes of polarity in a cycle.
    """

    begins: float
    ends: float
    transitions: tuple[int, ...]
    cycle: float
    switches: int


def span_of(transition: Transition) -> tuple[float, float]:
    """Begin and end of a transition's window [s]; without one it is measured all the time."""
    begins = transition.begins.si if transition.begins is not None else 0.0
    ends = transition.ends.si if transition.ends is not None else math.inf
    return begins, ends


def switches_of(detector: Detector, transitions: tuple[int, ...]) -> int:
    """Changes of polarity in one cycle: there and back, or none."""
    own = detector.polarity
    seen = {detector.transitions[index].polarity or own for index in transitions}
    both = {"positive", "negative"} <= seen or "both" in seen
    return 2 if both else 0


def busy_spans(detector: Detector, pause: float, switch: float) -> tuple[Busy, ...]:
    """Divide the run where windows begin and end.

    Parameters
    ----------
    detector
        A mass spectrometer with transitions.
    pause
        Time between two transitions [s].
    switch
        Time that a change of polarity takes [s].

    Returns
    -------
    tuple of Busy
        In order of time; spans in which nothing is measured are left out.
    """
    windows = [span_of(transition) for transition in detector.transitions]
    edges = sorted({edge for window in windows for edge in window} | {0.0, math.inf})
    found = []
    for begins, ends in pairwise(edges):
        inside = tuple(
            index for index, (opens, shuts) in enumerate(windows) if opens <= begins < shuts
        )
        if not inside:
            continue
        switches = switches_of(detector, inside)
        dwell = sum(detector.transitions[index].dwell.si for index in inside)
        cycle = dwell + pause * len(inside) + switch * switches
        found.append(Busy(begins, ends, inside, cycle, switches))
    return tuple(found)


def busiest(spans: tuple[Busy, ...], begins: float, ends: float) -> Busy | None:
    """The span with the longest cycle among those that touch begins..ends [s]."""
    near = [span for span in spans if span.begins <= ends and begins < span.ends]
    return max(near, key=lambda span: span.cycle, default=None)


def fewest_points(
    spans: tuple[Busy, ...], peaks: tuple[PeakWidth, ...]
) -> tuple[PeakWidth, Busy] | None:
    """The peak that gets the fewest points, and the moment under it.

    Every peak with a retention time is taken with the busiest moment under its base. The busiest
    moment of all, if no expected peak lies in it, is taken with the narrowest peak: its windows
    are there for a peak that nobody listed.

    Returns
    -------
    tuple of PeakWidth and Busy, or None
        None without peaks or without transitions.
    """
    pairs: list[tuple[PeakWidth, Busy]] = []
    for peak in peaks:
        if peak.retention_time is not None:
            half = 0.5 * peak.width
            span = busiest(spans, peak.retention_time - half, peak.retention_time + half)
            if span is not None:
                pairs.append((peak, span))
    top = busiest(spans, 0.0, math.inf)
    narrowest = narrowest_peak(peaks)
    if top is not None and narrowest is not None and all(span is not top for _, span in pairs):
        pairs.append((narrowest, top))
    pairs = [pair for pair in pairs if pair[1].cycle > 0.0]
    return min(pairs, key=lambda pair: pair[0].width / pair[1].cycle, default=None)


def missing_of_cycle(detector: Detector) -> str:
    """Name the first figure of a detector without which its cycle is not known, or nothing."""
    every = tuple(range(len(detector.transitions)))
    if not every:
        return "rate" if detector.rate is None else ""
    if detector.pause is None and len(every) > 1:
        return "pause"
    if detector.polarity_switch is None and switches_of(detector, every):
        return "polarity_switch"
    return ""


def dwell_for_cycle(detector: Detector, busy: Busy, cycle: float) -> float:
    """Dwell time [s], the same for each transition of a moment, that makes a cycle [s].

    Not above 0 if pauses and changes of polarity alone take as long.
    """
    dwell = sum(detector.transitions[index].dwell.si for index in busy.transitions)
    return (cycle - (busy.cycle - dwell)) / len(busy.transitions)
