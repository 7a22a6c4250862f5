"""Fractions of a preparative sequence: when the valve is open, how much runs into a vessel."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from methodlint.documents.kinds.instrument import Collector
from methodlint.documents.kinds.method import Method
from methodlint.rehearsal.batch.lines import Batch
from methodlint.rehearsal.run.peaks import PeakWidth
from methodlint.rehearsal.run.rehearsal import Rehearsal

__all__ = [
    "PACKING_DENSITY",
    "Collected",
    "Overlap",
    "StackWindow",
    "bed_mass",
    "collected",
    "collected_in",
    "delay_to_valve",
    "peak_window",
    "stack_overlaps",
]

PACKING_DENSITY = 600.0
"""Silica packing per volume of column [kg/m3]; common practice, no source (0.5 to 0.7 g/mL)."""


@dataclass(frozen=True, slots=True)
class Collected:
    """One fraction of every injection.

    Attributes
    ----------
    index
        Its number in the method's collection.
    begins, ends
        At the fraction valve, from the injection [s].
    liquid
        Modifier and added liquid per injection [m3]; what the gas carries away is not taken off.
    added
        The part of it that is added at the collector [m3].
    injections
        That are collected.
    """

    index: int
    begins: float
    ends: float
    liquid: float
    added: float
    injections: int

    @property
    def total(self) -> float:
        """Liquid of all injections [m3]."""
        return self.liquid * self.injections


def collected(run: Rehearsal, method: Method, injections: int) -> tuple[Collected, ...]:
    """Liquid of every fraction, from what arrives at the end of the train in its window.

    Parameters
    ----------
    run
        A rehearsal; nothing is collected that is known of one without flows.
    method
        The typed method.
    injections
        Number of collected injections.
    """
    if method.collection is None or not run.time.size:
        return ()
    added = method.collection.makeup.si if method.collection.makeup is not None else 0.0
    arriving = run.share[:, -1] if run.share.size else run.pumped_share
    found = []
    for index, fraction in enumerate(method.collection.fractions):
        begins, ends = fraction.begins.si, fraction.ends.si
        times = np.unique(np.concatenate([run.time, [begins, ends]]))
        times = times[(times >= begins) & (times <= ends)]
        rate = np.interp(times, run.time, run.set_flow * arriving) + added
        liquid = float(np.sum(np.diff(times) * (rate[1:] + rate[:-1]) / 2.0))
        extra = added * max(ends - begins, 0.0)
        found.append(Collected(index, begins, ends, max(liquid, 0.0), extra, injections))
    return tuple(found)


def collected_in(batch: Batch, name: str, run: Rehearsal, method: Method) -> tuple[Collected, ...]:
    """Fractions of all sample injections of one method of a sequence."""
    lines = [line for line in batch.lines if line.method == name and line.line.kind == "sample"]
    injections = sum(line.injections for line in lines)
    return collected(run, method, injections) if injections else ()


def delay_to_valve(run: Rehearsal, collector: Collector | None, time: float) -> float:
    """Time from the triggering cell to the fraction valve [s]: its volume at the local flow.

    The flow is mass flow over the density at the end of the train, 0 without a delay volume.
    """
    if collector is None or collector.delay_volume is None or not run.done:
        return 0.0
    row = int(np.argmin(np.abs(run.time - time)))
    flow = float(run.mass_flow[row, -1])
    return collector.delay_volume.si * float(run.density[row, -1]) / flow if flow > 0.0 else 0.0


@dataclass(frozen=True, slots=True)
class Overlap:
    """Two windows of stacked injections that fall on each other.

    Attributes
    ----------
    first, second
        What they belong to, in words.
    time
        How long they overlap in each interval [s].
    """

    first: str
    second: str
    time: float


@dataclass(frozen=True, slots=True)
class StackWindow:
    """A span of time after each injection.

    Attributes
    ----------
    name
        In words.
    begins, ends
        [s] from the injection.
    kept
        Whether it is collected: nothing else may fall on it.
    """

    name: str
    begins: float
    ends: float
    kept: bool


def stack_overlaps(windows: Sequence[StackWindow], every: float) -> Iterator[Overlap]:
    """Overlaps with collected windows that repeat at an interval [s], each pair once.

    One that ends before it begins has no length; what is wrong with it is reported elsewhere.
    """
    windows = [one for one in windows if one.begins < one.ends]
    for number, one in enumerate(windows):
        if one.kept and one.ends - one.begins > every:
            yield Overlap(one.name, one.name, one.ends - one.begins - every)
        for other in windows[number + 1 :]:
            if not (one.kept or other.kept):
                continue
            least = math.floor((one.begins - other.ends) / every)
            most = math.ceil((one.ends - other.begins) / every)
            shared = max(
                min(one.ends, other.ends + k * every) - max(one.begins, other.begins + k * every)
                for k in range(least, most + 1)
            )
            if shared > 1e-9:
                yield Overlap(one.name, other.name, shared)


def bed_mass(length: float, inner_diameter: float) -> float:
    """Packing of a column [kg] from its length and inner diameter [m]."""
    return PACKING_DENSITY * math.pi / 4.0 * inner_diameter**2 * length


def peak_window(peak: PeakWidth, sigmas: float) -> tuple[float, float]:
    """Begin and end of a peak, so many standard deviations on either side [s]."""
    middle = peak.retention_time or 0.0
    return max(middle - sigmas * peak.sigma, 0.0), middle + sigmas * peak.sigma
