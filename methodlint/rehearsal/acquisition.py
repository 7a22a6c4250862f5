"""What a mass spectrometer has to do at its busiest moment, and how fast it does it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from methodlint.documents.kinds.method import Detector, Transition


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
