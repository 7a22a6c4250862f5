"""What rules on detectors share: which traces are meant, the narrowest peak, points over it."""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.documents.contents.train_order import same_detector
from methodlint.documents.kinds.base import Liquid
from methodlint.documents.kinds.method import Detector
from methodlint.judging.case import RunCase
from methodlint.judging.finding import NotChecked
from methodlint.judging.shared.bands import Judgement, judge_limit
from methodlint.rehearsal.run.peaks import PeakWidth, narrowest_peak, peak_widths

GUESS_BAND = 0.25
"""Relative half width of a peak width that is a guess; common practice, no source."""

ANALOGUE = ("UV", "PDA", "DAD", "ELSD", "CAD", "FID")
"""Detectors whose trace has a rate and a filter."""


def traces(case: RunCase, *types: str) -> Iterator[tuple[int, Detector]]:
    """Detectors of some types whose trace is evaluated, with their index in the method.

    A trace that only triggers a collector is not, nor is any trace of a preparative run.
    """
    if case.method is None or case.purpose == "preparative":
        return
    for index, detector in enumerate(case.method.detectors):
        if detector.type in types and detector.purpose != "trigger":
            yield index, detector


def widths(case: RunCase) -> tuple[PeakWidth, ...]:
    """Widths of the expected peaks of this method on this column."""
    return peak_widths(case.method, case.column) if case.method is not None else ()


def narrowest(case: RunCase) -> PeakWidth | None:
    """The narrowest expected peak in time."""
    return narrowest_peak(widths(case))


def no_width(case: RunCase) -> NotChecked:
    """Say which figure is missing for the width of the peaks."""
    reason = "without it the width of a peak is not known"
    if case.method is not None and case.method.expected_peaks:
        return case.not_checked("method.expected_peaks", "method.expected_peaks[0].width", reason)
    return case.not_checked("method", "method.expected_peaks", reason)


def judge_points(points: float, guessed: bool, few: float, enough: float) -> Judgement | None:
    """Judge points over a peak: a fault below `few`, a caution below `enough`.

    A guessed width that falls below `few` only within its band is a caution.
    """
    band = GUESS_BAND * points if guessed else 0.0
    if points < few:
        return judge_limit(points, few, band, "fault", above=False)
    return Judgement("caution", possible=False) if points < enough else None


def cell_of(case: RunCase, detector: Detector) -> int | None:
    """Index of a detector's cell in the instrument's train; None if none stands in the flow."""
    if case.instrument is None:
        return None
    for index, part in enumerate(case.instrument.train):
        if part.part != "cell" or part.bypassed:
            continue
        named = detector.cell is not None and part.name is not None
        alike = same_detector(part.detector, detector.type)
        if (named and part.name == detector.cell) or (not named and alike):
            return index
    return None


def makeup_in_cell(case: RunCase, cell: int | None) -> Liquid | None:
    """Makeup liquid if it joins the flow before a cell; None if it never passes it."""
    if case.method is None or case.method.makeup is None or case.instrument is None:
        return None
    if cell is None:
        return None
    train = case.instrument.train
    regulators = [index for index, part in enumerate(train) if part.part == "regulator"]
    joins = regulators[0] if regulators else len(train)
    tees = [index for index, part in enumerate(train) if part.part == "tee" and index < joins]
    if case.method.makeup.tee == "before the regulator" and tees:
        joins = tees[-1]
    return case.method.makeup if joins < cell else None
