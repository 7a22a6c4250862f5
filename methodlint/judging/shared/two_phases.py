"""Where and when the mobile phase parts before the regulator, and what may keep it together.

Three rules share this: two phases at a constant setting, two phases in the middle of a gradient
whose ends are sound, and two phases on the way of a pressure or temperature programme. Each run
belongs to one of them, so that one cause gives one finding.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from methodlint.documents.quantities.format import show
from methodlint.judging.case import RunCase
from methodlint.judging.finding import At, Candidate, Change, When
from methodlint.judging.shared.bands import Judgement
from methodlint.judging.shared.overpressure import limits_moved
from methodlint.rehearsal.run.phase_places import PhasePlace, band_words, places_before_regulator
from methodlint.rehearsal.run.rehearsal import Rehearsal

Way = Literal["setting", "gradient", "programme"]

_PRESSURES = (100, 110, 120, 130, 150, 180, 200, 250)
_COOLER = (35, 40, 30)
_COOLER_WITH = 110
_COOLER_DROP = 1.3
"""By how much the drop may grow in a cooler, more viscous mobile phase."""
_DEGREES = 273.15


@dataclass(frozen=True, eq=False)
class TwoPhaseRegion:
    """Two phases, certain or within the model's band, at one place.

    Attributes
    ----------
    place
        The place; the column outlet unless only a place behind it parts.
    verdict
        Class, and whether only the band reaches the boundary.
    row
        Row of the rehearsal with the least margin.
    band
        How far above the computed boundary the true one may lie there [Pa].
    band_words
        The whole band in words.
    certain, doubtful
        Spans of time [s] in which the pressure is below the boundary, and in which it is below
        the upper end of the band (certain spans included).
    way
        What brings it about.
    """

    place: PhasePlace
    verdict: Judgement
    row: int
    band: float
    band_words: str
    certain: list[tuple[float, float]]
    doubtful: list[tuple[float, float]]
    way: Way

    @property
    def when(self) -> When:
        """From the first to the last moment of the doubtful time."""
        return When(self.doubtful[0][0], self.doubtful[-1][1])

    @property
    def longest(self) -> float:
        """Time with two phases for certain [s]."""
        return sum(ends - begins for begins, ends in self.certain)

    def window(self) -> str:
        """Time in words, the doubtful edge included."""
        spans = self.certain or self.doubtful
        begins, ends = spans[0][0], spans[-1][1]
        text = f"from {show(begins, 'time', 'min')} to {show(ends, 'time', 'min')}"
        early = self.doubtful[0][0]
        if self.certain and early < begins:
            text += f", perhaps from {show(early, 'time', 'min')}: the start is inside the band"
        return text

    def shares(self, run: Rehearsal) -> str:
        """Span of modifier share during that time, in words."""
        begins, ends = self.when.start, self.when.end
        assert begins is not None and ends is not None
        inside = self.place.share[(run.time >= begins) & (run.time <= ends)]
        edges = np.interp([begins, ends], run.time, self.place.share)
        shares = 100.0 * np.concatenate([inside, edges])
        low, high = float(shares.min()), float(shares.max())
        name = run.plan.modifier_name or "modifier"
        span = f"{low:.0f} %" if high - low < 0.5 else f"{low:.0f}-{high:.0f} %"
        return f"{span} {name}"


def parting(run: Rehearsal) -> TwoPhaseRegion | None:
    """Find two phases between column outlet and regulator, cells left out.

    Returns
    -------
    TwoPhaseRegion or None
        None if every composition at every moment stays above the boundary by its band.
    """
    places = [place for place in run.ask(places_before_regulator) if place.kind != "cell"]
    outlet, behind = places[0], places[1:]
    found = _at(run, outlet)
    others = [other for place in behind if (other := _at(run, place)) is not None]
    worse = min(others, key=lambda o: float(o.place.margin[o.row]), default=None)
    if worse is not None and (found is None or _rank(worse) < _rank(found)):
        return worse
    return found


def _rank(item: TwoPhaseRegion) -> int:
    return 0 if item.verdict.grade == "fault" else 1


def parting_in_cells(run: Rehearsal) -> list[TwoPhaseRegion]:
    """Find two phases inside detector cells before the regulator."""
    places = [place for place in run.ask(places_before_regulator) if place.kind == "cell"]
    return [found for place in places if (found := _at(run, place)) is not None]


def _at(run: Rehearsal, place: PhasePlace) -> TwoPhaseRegion | None:
    # Below the computed boundary is a fault, between it and the upper end of its band a caution.
    above = place.band.above
    row = int(np.argmin(place.margin - above))
    if float(np.min(place.margin)) < 0.0:
        row, verdict = int(np.argmin(place.margin)), Judgement("fault", possible=False)
    elif float(place.margin[row] - above[row]) < 0.0:
        verdict = Judgement("caution", possible=True)
    else:
        return None
    return TwoPhaseRegion(
        place=place,
        verdict=verdict,
        row=row,
        band=float(above[row]),
        band_words=band_words(run, float(place.w_modifier[row]), float(place.temperature[row])),
        certain=run.windows(-place.margin),
        doubtful=run.windows(above - place.margin),
        way=_way(run, place),
    )


def _way(run: Rehearsal, place: PhasePlace) -> Way:
    """What brings it about: programme and gradient only if their ends are sound."""
    sound = place.margin > place.band.above
    programmed = np.ptp(run.outlet_pressure) > 1e3 or np.ptp(run.programme.oven_temperature) > 0.05
    end = int(np.searchsorted(run.time, run.programme.run_length, side="right")) - 1
    if programmed and sound[0] and sound[end]:
        return "programme"
    lean, rich = int(np.argmin(place.share)), int(np.argmax(place.share))
    if not run.programme.isocratic and sound[lean] and sound[rich]:
        return "gradient"
    return "setting"


def settings_at(case: RunCase) -> At:
    """Place of the outlet pressure, or of the method where only its programme gives one."""
    method = case.method
    assert method is not None
    if method.outlet_pressure is None:
        for index, row in enumerate(method.programme):
            if row.outlet_pressure is not None:
                return case.at(f"method.programme[{index}].outlet_pressure")
    return case.at("method.outlet_pressure")


def higher_outlet(case: RunCase, above: float = 0.0) -> list[Candidate]:
    """Candidates with a higher outlet pressure.

    Parameters
    ----------
    above
        Only settings above this pressure [Pa].
    """
    method = case.method
    assert method is not None
    given = {"method.outlet_pressure": method.outlet_pressure}
    for index, row in enumerate(method.programme):
        given[f"method.programme[{index}].outlet_pressure"] = row.outlet_pressure
    settings = {where: value.si for where, value in given.items() if value is not None}
    found = []
    for value in _PRESSURES:
        changes = [
            case.change(where, f"{value} bar")
            for where, setting in settings.items()
            if setting < value * 1e5 - 1.0
        ]
        if changes and value * 1e5 > above:
            limits, words = _limits(case, value * 1e5)
            text = f"set the outlet pressure to {value} bar{words}"
            found.append(case.candidate(text, *changes, *limits, way="outlet"))
    return found


def cooler(case: RunCase) -> list[Candidate]:
    """Candidates with a cooler oven, and an outlet pressure that goes with it."""
    oven, setting = case.get("method.oven_temperature"), case.get("method.outlet_pressure")
    programme = case.method.programme if case.method else ()
    if oven is None or setting is None or any(row.temperature is not None for row in programme):
        return []
    found = []
    for value in _COOLER:
        if value + _DEGREES >= oven.si:
            continue
        changes = [case.change("method.oven_temperature", f"{value} degC")]
        text = f"set the oven to {value} degC"
        wanted = setting.si
        if setting.si < _COOLER_WITH * 1e5 - 1.0:
            wanted = _COOLER_WITH * 1e5
            changes.append(case.change("method.outlet_pressure", f"{_COOLER_WITH} bar"))
            text += f" with an outlet pressure of {_COOLER_WITH} bar"
        limits, words = _limits(case, wanted, _COOLER_DROP)
        found.append(case.candidate(text + words, *changes, *limits, way="oven"))
    return found


def _limits(case: RunCase, setting: float, drop: float = 1.0) -> tuple[list[Change], str]:
    if not case.run.done:
        return [], ""
    return limits_moved(case, setting - float(case.run.outlet_pressure.max()), drop)
