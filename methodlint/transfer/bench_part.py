"""Injection, detectors, makeup, pressure limits and expected peaks of the proposed method."""

from __future__ import annotations

import math
from dataclasses import dataclass

from methodlint.documents.contents.train_order import same_detector
from methodlint.documents.kinds.method import Detector
from methodlint.documents.quantities.format import number, show
from methodlint.rehearsal.run.peaks import plate_loss
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.scaling.geometry import plate_ratio
from methodlint.scaling.rounding import at_most, significant
from methodlint.transfer.draft import Draft
from methodlint.transfer.entry import How
from methodlint.transfer.injection_part import draft_injection
from methodlint.transfer.limits_part import draft_limits
from methodlint.transfer.sides import Sides
from methodlint.transfer.text_edits import as_scalar
from methodlint.transfer.time_map import TimeMap

__all__ = ["Widths", "draft_bench", "peak_table"]

POINTS_PER_PEAK = 20.0
"""Common practice; 20 to 30 in the guidance of detector makers."""

FILTER_SHARE = 0.1
"""Time constant of a filter over the base width (common practice, no source)."""

_USUAL_RATES = (1.0, 2.0, 2.5, 5.0, 10.0, 20.0, 25.0, 40.0, 50.0, 80.0, 100.0, 160.0, 200.0)


@dataclass(frozen=True, slots=True)
class Widths:
    """A peak on both systems [s]; None where nobody gives plates or a width."""

    name: str
    time: float
    target_time: float
    width: float | None
    target_width: float | None
    plates: float | None
    target_plates: float | None
    extra_loss: float | None


def peak_table(sides: Sides, times: TimeMap, run: Rehearsal) -> list[Widths]:
    """Expected peaks of the source and where they are expected on the target."""
    ratio = plate_ratio(sides.source.bed, sides.target.bed)
    found = []
    for peak in sides.typed.expected_peaks:
        if peak.retention_time is None or peak.retention_time.si <= 0.0:
            continue
        time = peak.retention_time.si
        moved = times.at(time)
        plates = peak.plates or sides.source.column.plates
        width = peak.width.si if peak.width else None
        if width is None and plates is not None:
            width = 4.0 * time / math.sqrt(plates)
        target_width = None if width is None else width * moved / time / math.sqrt(ratio)
        loss = None
        sigma = sides.target.card.extra_column_sigma
        if target_width is not None and sigma is not None and run.done:
            hold_up = float(run.hold_up_time[0])
            own = target_width / 4.0 * run.hold_up_volume / hold_up
            loss = plate_loss(sigma.si**2, own**2)
        found.append(
            Widths(
                peak.name,
                time,
                moved,
                width,
                target_width,
                plates,
                plates * ratio if plates else None,
                loss,
            )
        )
    return found


def draft_bench(draft: Draft, sides: Sides, times: TimeMap, run: Rehearsal) -> list[Widths]:
    """Write everything around the programme; give the table of peaks."""
    peaks = peak_table(sides, times, run)
    narrowest = min((p.target_width for p in peaks if p.target_width), default=None)
    draft_injection(draft, sides)
    for index in range(len(sides.typed.detectors)):
        _detector(draft, sides, times, index, narrowest)
    _makeup(draft, sides, times, run)
    draft_limits(draft, sides, run)
    _peaks(draft, sides, peaks)
    return peaks


def _detector(
    draft: Draft, sides: Sides, times: TimeMap, index: int, narrowest: float | None
) -> None:
    detector = sides.typed.detectors[index]
    at = ("detectors", index)
    label = f"{detector.type} "
    cells = [p for p in sides.target.card.train if p.part == "cell" and not p.bypassed]
    if detector.cell is not None and not any(p.name == detector.cell for p in cells):
        other = next(
            (
                p.name
                for p in cells
                if p.name and p.detector and same_detector(p.detector, detector.type)
            ),
            None,
        )
        if other is not None:
            draft.words(
                f"{label}cell", (*at, "cell"), detector.cell, as_scalar(other), "derived",
                "the cell of this instrument",
            )  # fmt: skip
    if detector.wavelength is not None:
        draft.kept(f"{label}wavelength", (*at, "wavelength"), detector.wavelength.text)
    _rate_and_filter(draft, detector, index, times.first_factor, narrowest)
    for key in ("begins", "ends"):
        given = getattr(detector, key)
        if given is not None:
            draft.quantity(
                f"{label}{key}", (*at, key), given, _two(times.at(given.si)),
                why="scaled like the programme",
            )  # fmt: skip
    for number_, transition in enumerate(detector.transitions):
        for key in ("begins", "ends"):
            given = getattr(transition, key)
            if given is not None:
                draft.quantity(
                    f"window of transition {number_ + 1}, {key}",
                    (*at, "transitions", number_, key), given, _two(times.at(given.si)),
                    why="scaled like the programme",
                )  # fmt: skip


def _two(seconds: float) -> float:
    return round(seconds / 60.0, 2) * 60.0


def _rate_and_filter(
    draft: Draft, detector: Detector, index: int, factor: float, narrowest: float | None
) -> None:
    at = ("detectors", index)
    if detector.rate is not None:
        rate = detector.rate.si
        if narrowest is not None:
            needed, basis = (
                POINTS_PER_PEAK / narrowest,
                f"peak of {show(narrowest, 'time', 's')} at its base",
            )
        else:
            needed, basis = rate / factor, f"times x {number(factor, 4)}, no peak width is known"
        value = rate
        if needed > rate * 1.001:
            value = next((r for r in _USUAL_RATES if r >= needed), needed)
        why = f"{POINTS_PER_PEAK:.0f} points over the narrowest {basis} need {show(needed, 'frequency')}"
        draft.quantity(
            f"{detector.type} data rate", (*at, "rate"), detector.rate, value, why=why,
            geometry=show(rate / factor, "frequency"),
        )  # fmt: skip
    if detector.filter is not None:
        constant = detector.filter.si
        most = FILTER_SHARE * narrowest if narrowest is not None else constant * factor
        value = constant if constant <= most * 1.001 else at_most(most)
        why = f"at most a tenth of the narrowest peak, {show(most, 'time', 's')}"
        if narrowest is None:
            why = f"times x {number(factor, 4)}, no peak width is known"
        draft.quantity(
            f"{detector.type} filter", (*at, "filter"), detector.filter, value, why=why,
            geometry=show(constant * factor, "time", "s"),
        )  # fmt: skip


def _makeup(draft: Draft, sides: Sides, times: TimeMap, run: Rehearsal) -> None:
    makeup = sides.typed.makeup
    if makeup is None:
        return
    limit = sides.target.card.ms.highest_liquid_flow if sides.target.card.ms else None
    modifier = float((run.set_flow * run.pumped_share).max()) if run.done else 0.0
    room = limit.si - modifier if limit is not None else math.inf
    split = any(part.part == "splitter" and not part.bypassed for part in sides.target.card.train)
    if makeup.flow is not None:
        how: How = "copied"
        value, words = makeup.flow.si, ""
        why = "the ion source sees what the source method gave it"
        if limit is not None and not split:
            why = f"with {show(modifier, 'volume flow')} modifier at most {show(limit.si, 'volume flow')} in the source"
            if value > room > 0.0:
                value, how = at_most(room * 6e7) / 6e7, "limited by"
                words = "what the source takes as liquid"
        draft.quantity(
            "makeup flow", ("makeup", "flow"), makeup.flow, value, how=how, limit=words, why=why,
            geometry=makeup.flow.text,
        )  # fmt: skip
    for index, row in enumerate(makeup.programme):
        draft.quantity(
            f"makeup, time of row {index + 1}", ("makeup", "programme", index, "time"), row.time,
            _two(times.at(row.time.si)), why="scaled like the programme",
        )  # fmt: skip


def _peaks(draft: Draft, sides: Sides, peaks: list[Widths]) -> None:
    by_name = {peak.name: peak for peak in peaks}
    for index, peak in enumerate(sides.typed.expected_peaks):
        moved = by_name.get(peak.name)
        at = ("expected_peaks", index)
        if moved is None or peak.retention_time is None:
            continue
        draft.quantity(
            f"expected time of {peak.name}", (*at, "retention_time"), peak.retention_time,
            _two(moved.target_time), why="same hold-up volumes; predicted, verify",
        )  # fmt: skip
        if peak.width is not None and moved.target_width is not None:
            draft.quantity(
                f"expected width of {peak.name}", (*at, "width"), peak.width,
                significant(moved.target_width), why="same reduced plate height",
            )  # fmt: skip
        if peak.plates is not None and moved.target_plates is not None:
            plates = significant(moved.target_plates)
            source, proposed = f"{peak.plates:g}", f"{plates:g}"
            if abs(plates / peak.plates - 1.0) < 1e-3:
                proposed = source
            draft.words(
                f"expected plates of {peak.name}", (*at, "plates"), source, proposed, "derived",
                "plates go with L/dp",
            )  # fmt: skip
    first = next((p for p in peaks if p.extra_loss is not None), None)
    if first is not None and first.extra_loss is not None:
        sigma = sides.target.card.extra_column_sigma
        assert sigma is not None
        draft.figure(
            f"plates of {first.name} lost outside the column", "", "",
            show(first.extra_loss, "share"), "derived",
            f"extra-column standard deviation {sigma.text}",
        )  # fmt: skip
