"""A pressure over the run against a limit: where, when, by how much, and at what flow not."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from methodlint.documents.quantities.format import show
from methodlint.hydraulics.drop_band import DropBand
from methodlint.judging.case import RunCase
from methodlint.judging.finding import At, Candidate, Change, Grade, When
from methodlint.judging.shared.bands import Judgement, judge_limit
from methodlint.judging.shared.scaled_times import slower_and_longer, times_behind
from methodlint.rehearsal.run.extreme import pressure_band_words
from methodlint.rehearsal.run.part_pressures import pressures_that_a_plug_reaches
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.tube_losses import losses_behind_column

FloatArray = npt.NDArray[np.float64]

CLOSE = 0.9
"""Share of a rating above which a pressure is a caution. Common practice, no source."""

_MEASURE = (
    "measure one pressure on this column at a lower flow and write it under `measured_pressures`: "
    "it narrows the band"
)

_PLATEAU = 2e-4
"""Relative: what two rows of one state may differ by after a march."""

_LOWER_FLOWS = (0.9, 0.8, 0.7, 0.6, 0.5, 0.4)
_WELL_BELOW, _WELL_ABOVE = 0.95, 1.15
"""Where a low and a high limit stay clear of the pressures of a changed run."""
_LOWER_PRESSURES = (150, 140, 130, 120, 110, 100)


@dataclass(frozen=True, slots=True)
class Excess:
    """Where a pressure comes closest to its limit, and the class it earns.

    Attributes
    ----------
    verdict
        Class, and whether only the band reaches the limit.
    row
        Row of the rehearsal at which it is worst: of a plateau, the one that it begins with.
    value, limit
        [Pa] at the worst.
    band, below
        How far above and below it the true pressure may lie [Pa].
    when
        From the first to the last moment of it.
    """

    verdict: Judgement
    row: int
    value: float
    limit: float
    band: float
    below: float
    when: When

    @property
    def close_only(self) -> bool:
        """Whether even the band stays below the limit: the caution near a rating."""
        return self.value + self.band <= self.limit

    def words(self, run: Rehearsal) -> str:
        """Figure, band and time, for a message."""
        reach = "reaches" if self.close_only or not self.verdict.possible else "may reach"
        band = pressure_band_words(self.below, self.band)
        value = self.value if reach == "reaches" else self.value + self.band
        at = "" if run.plan.steady else f" at {show(float(run.time[self.row]), 'time', 'min')}"
        return f"{reach} {show(value, 'pressure')} ({band}){at}"

    def measure_first(self, run: Rehearsal) -> str:
        """What to measure where the band decides and no measured pressure has narrowed it yet."""
        if self.close_only or not self.verdict.possible or run.plan.calibrations:
            return ""
        return _MEASURE

    def margin(self) -> str:
        """Signed margin in words."""
        left = self.limit - self.value
        return f"{show(abs(left), 'pressure')} {'left' if left >= 0 else 'too much'}"


def worst_against(
    run: Rehearsal,
    pressure: FloatArray,
    limit: float | FloatArray,
    grade: Grade,
    *,
    protected: bool = False,
    band: DropBand | None = None,
) -> Excess | None:
    """Judge a pressure over the whole cycle against its limit, and against nine tenths of it.

    Parameters
    ----------
    run
        The rehearsal.
    pressure, limit
        [Pa], shape (R,). Where a limit is zero, nothing is allowed, and any pressure exceeds it.
    grade
        Class when the limit is crossed.
    protected
        A trip or relief at or below the limit protects the part.
    band
        Band of the pressure [Pa], each (R,); by default that of all losses between the place and
        the regulator.

    Returns
    -------
    Excess or None
        None if the pressure stays below nine tenths of the limit and the band below the limit.
    """
    known = run.pressure_band(pressure) if band is None else band
    width = known.above
    if isinstance(limit, float):
        highest = float(pressure.max())
        # Mostly everything is far below, and nothing more need be known.
        if highest <= CLOSE * limit and highest + float(width.max()) <= limit:
            return None
        limits = np.full(pressure.shape, limit)
    else:
        limits = limit
    possible = limits > 0.0
    load = np.where(possible, pressure / np.where(possible, limits, 1.0), np.inf)
    worst = int(np.argmax(load))
    at, top, half = float(pressure[worst]), float(limits[worst]), float(width[worst])
    below = float(known.below[worst])
    verdict = judge_limit(at, top, half, grade, protected=protected, favourable=below)
    excess = pressure - limits if at > top else pressure + width - limits
    if verdict is None:
        verdict = judge_limit(at, CLOSE * top, 0.0, "caution")
        excess = pressure - CLOSE * limits
    if verdict is None:
        return None
    row = int(np.argmax((limits == top) & (pressure >= at * (1.0 - _PLATEAU))))
    spans = run.windows(excess)
    when = When(spans[0][0], spans[-1][1]) if spans else When(float(run.time[row]))
    return Excess(verdict, row, at, top, half, below, when)


def cut_off(case: RunCase) -> tuple[float, At] | None:
    """Lowest pressure [Pa] at which the pumps stop by themselves, and where it is written."""
    found: list[tuple[float, At]] = []
    stops = case.get("instrument.trips.stops")
    if stops is not None and not {"CO2 pump", "modifier pump"} <= set(stops):
        return None  # a limit that leaves a pump running is none
    for where in ("method.pressure_limits.high", "instrument.trips.high_pressure"):
        value = case.get(where)
        if value is not None:
            found.append((value.si, case.at(where)))
    return min(found, key=lambda item: item[0]) if found else None


def cut_off_protects(case: RunCase, rating: float) -> bool:
    """Whether the pumps stop at or below a rating [Pa]: nothing in the train sees more."""
    limit = cut_off(case)
    return limit is not None and limit[0] <= rating


def slower(case: RunCase, when: When) -> list[Candidate]:
    """Candidates with a lower flow: of the whole method, or of the rows that offend.

    Rows of a programme that state a flow of their own are lowered only where they have a part
    in the time `when`; a row that would inherit a lowered flow keeps the one it had.
    """
    method, flow = case.method, case.get("method.flow")
    if method is None:
        return []
    rows = method.programme
    if all(row.flow is None for row in rows):
        if flow is None:
            return []
        scaled = [slower_and_longer(case, part, way="flow") for part in _LOWER_FLOWS]
        texts = [show(flow.si * part, "volume flow", "mL/min") for part in _LOWER_FLOWS]
        # Where the night has no room for longer runs, the flow alone is still a way.
        alone = [
            case.candidate(f"set the flow to {t}", case.change("method.flow", t), way="flow")
            for t in texts
        ]
        return scaled + alone
    return [
        found
        for longer in (True, False)
        for part in _LOWER_FLOWS
        if (found := _slower_rows(case, when, part, longer=longer))
    ]


def _slower_rows(case: RunCase, when: When, part: float, *, longer: bool) -> Candidate | None:
    assert case.method is not None
    rows, given = case.method.programme, case.method.flow
    flows: list[float | None] = []
    for row in rows:
        before = flows[-1] if flows else (given.si if given else None)
        flows.append(row.flow.si if row.flow is not None else before)
    times = [row.time.si for row in rows] + [float("inf")]
    begins, ends = when.start or 0.0, when.end if when.end is not None else float("inf")
    changes: list[Change] = []
    said: list[str] = []
    lowered = list(flows)
    lowered_before = False
    for index, row in enumerate(rows):
        own = flows[index]
        reached_from = times[index] if row.step or index == 0 else times[index - 1]
        offends = reached_from <= ends and times[index + 1] > begins and times[index] <= ends
        if own is not None and (offends or (lowered_before and row.flow is None)):
            text = show(own * (part if offends else 1.0), "volume flow", "mL/min")
            changes.append(case.change(f"method.programme[{index}].flow", text))
            if offends:
                lowered[index] = own * part
                said.append(f"{text} at {show(row.time.si, 'time', 'min')}")
        lowered_before = offends
    if not said:
        return None
    text = f"lower the flow in the programme: {', '.join(said)}"
    if longer:
        known = [(old, new) for old, new in zip(flows, lowered, strict=True) if old and new]
        if len(known) < len(rows):
            return None
        behind = times_behind(case, *zip(*known, strict=True))
        end = next((one.value for one in behind if one.at.path == ("run_length",)), "")
        text += ", and make that time longer for the same volume"
        text += f" (run length {end})" if end else ""
        changes += behind
    return case.candidate(text, *changes, way="flow")


def limits_moved(case: RunCase, by: float, drop: float = 1.0) -> tuple[list[Change], str]:
    """Pressure limits of the method moved along with the outlet pressure, where they have to be.

    Parameters
    ----------
    by
        Change of the outlet pressure [Pa].
    drop
        What is left of the drop over the train, as a ratio.

    Returns
    -------
    list of Change, str
        Changes, and words to put behind what else is changed; both may be empty.
    """
    run = case.rehearsal
    if run is None or not run.done:
        return [], ""
    outlet = run.outlet_pressure
    pump = outlet + by + drop * (run.pump_pressure - outlet)
    changes: list[Change] = []
    said: list[str] = []
    low, high = case.get("method.pressure_limits.low"), case.get("method.pressure_limits.high")
    setting = float(outlet.max()) + by
    if low is not None and not setting <= low.si <= _WELL_BELOW * float(pump.min()):
        # What no part is rated to is no limit, however high the pressure would be.
        middle = 0.5 * (setting + min(float(pump.min()), _highest_sound_limit(case, run)))
        text = f"{math.floor(middle / 1e5):g} bar"
        changes.append(case.change("method.pressure_limits.low", text))
        said.append(f"the low limit to {text}")
    if high is not None and high.si < _WELL_ABOVE * float(pump.max()):
        wanted = math.ceil(_WELL_ABOVE * float(pump.max()) / 1e6) * 1e6
        # A limit above what a plug may do to a part protects nothing.
        wanted = max(high.si, min(wanted, _highest_sound_limit(case, run)))
        if wanted <= high.si:
            return changes, "".join(f", {words}" for words in said)
        text = f"{math.floor(wanted / 1e5):g} bar"
        changes.append(case.change("method.pressure_limits.high", text))
        said.append(f"the high limit to {text}")
    return changes, "".join(f", {words}" for words in said)


def _highest_sound_limit(case: RunCase, run: Rehearsal) -> float:
    """Lowest rating [Pa] of what a plug reaches unprotected, or the instrument's own limit."""
    ratings = [
        part.rating
        for part in pressures_that_a_plug_reaches(run)
        if part.rating is not None and not part.protected
    ]
    trip = case.get("instrument.trips.high_pressure")
    return min([*ratings, trip.si] if trip is not None else ratings, default=math.inf)


def lower_outlet(case: RunCase) -> list[Candidate]:
    """Candidates with a lower outlet pressure, where it is set once for the whole method."""
    setting = case.get("method.outlet_pressure")
    programme = case.method.programme if case.method else ()
    if setting is None or any(row.outlet_pressure is not None for row in programme):
        return []
    found = []
    for value in _LOWER_PRESSURES:
        if value < setting.si / 1e5:
            limits, words = limits_moved(case, value * 1e5 - setting.si)
            change = case.change("method.outlet_pressure", f"{value} bar")
            text = f"set the outlet pressure to {value} bar{words}"
            found.append(case.candidate(text, change, *limits, way="outlet"))
    return found


def wider_tube(case: RunCase, row: int, upstream: int = -1) -> list[Candidate]:
    """Candidate with the next wider bore for the tube that costs most of those downstream of the column.

    Parameters
    ----------
    row
        Row of the rehearsal.
    upstream
        Only tubes behind this part of the train.
    """
    tubes = [t for t in losses_behind_column(case.run, row) if (t.part or 0) > upstream]
    worst = max(tubes, key=lambda tube: tube.loss, default=None)
    if worst is None or worst.wider is None or worst.part is None:
        return []
    bore = show(worst.wider, "length", "mm")
    change = case.change(f"instrument.train[{worst.part}].bore", bore)
    text = f"replace the tube '{worst.name}' by one of {bore} bore"
    return [case.candidate(text, change, way="tube")]
