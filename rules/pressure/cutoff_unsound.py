"""The pressure at which the pumps stop lies between what the run needs and what the parts withstand.

Reason
    When the regulator or a tube plugs, the flow ends, the profile becomes flat and every part up
    to the plug sees the pressure of the pumps, the cell downstream of the column too. So the high limit
    belongs below the lowest rating of all parts that can be shut in, unless such a part has a
    trip or relief of its own; and a tenth above the highest pressure of the run, or it stops
    good runs. A trip protects only against pumps that it stops (`pressure.pump-without-trip`),
    and never against liquid that closed valves shut in (`safety.locked-in-liquid`).

Unsound
    kind: method
    pressure_limits: {high: null, low: 155 bar}  # <- here

Unsound, because the cell is shut in downstream of a plugged regulator
    kind: method
    pressure_limits: {high: 550 bar, low: 155 bar}  # <- here

Sound
    kind: method
    pressure_limits: {high: 340 bar, low: 155 bar}

Sound, because the instrument stops by itself inside the window
    kind: method
    pressure_limits: {high: null, low: 155 bar}
    ---
    kind: instrument
    trips: {high_pressure: 345 bar}

Remedy
    Type a high limit inside the window that the message gives. If the window is empty, fit a trip
    or a relief at the weak part, or lower the pressure of the run. One statement on the card,
    `trips: {high_pressure: ..., stops: [...]}`, serves all parts; `trip:` and `relief:` of a part
    are for a part with one of its own.

Source
    Ratings: the cards. 1.1 x the highest pressure: common practice, no source.
"""

import math
from collections.abc import Iterator

from methodlint.judging.ask.pressure import (
    PartPressure,
    cut_off,
    pressures_that_a_plug_reaches,
    slower,
)
from methodlint.judging.ask.rule import At, Candidate, Finding, Grade, RunCase, When, bar, show

SUBJECT = "run"
CLASSES = ("stop", "fault", "caution")
NEEDS = ("run",)

_ABOVE_HIGHEST = 1.1


def judge(case: RunCase) -> Iterator[Finding]:
    """Find the window of a sound high limit and compare the lowest limit with it."""
    grade: Grade
    run = case.run
    highest = run.highest(run.pump_pressure)
    bottom = _ABOVE_HIGHEST * highest.value
    rated = [part for part in pressures_that_a_plug_reaches(run) if part.rating is not None]
    open_parts = [part for part in rated if not part.protected]
    weakest = min(open_parts, key=lambda part: part.rating or 0.0, default=None)
    top = float(weakest.rating or 0.0) if weakest else math.inf
    limit = cut_off(case)
    empty = bottom > top
    if limit is not None and bottom <= limit[0] <= top:
        return
    if limit is not None and limit[0] <= top and _beyond_a_rating(rated):
        return  # that the limit stops such a run is right; the rating's own rule reports it
    typed = case.get("method.pressure_limits.high") is not None
    if typed and weakest is not None and _beyond_a_rating([weakest]):
        return  # the part is beyond its rating in every run, which its own rule reports
    if limit is None or (not typed and limit[0] > top):
        grade, said = "stop", "no high limit stops the pumps"
        if limit is not None:
            said += f" below the instrument's own {show(limit[0], 'pressure')}"
    elif limit[0] > top:
        beds = [part.rating or 0.0 for part in open_parts if part.kind == "column"]
        grade = "fault" if beds and limit[0] > min(beds) else "caution"
        said = f"the pumps stop at {show(limit[0], 'pressure')}"
        if grade == "fault":
            said += f", above the column's rating of {show(min(beds), 'pressure')}"
    else:
        certain = limit[0] < highest.value
        rows = run.pump_pressure >= min(limit[0], highest.value)
        when = show(float(run.time[int(rows.argmax())]), "time", "min")
        grade = "caution"
        said = f"the pumps stop at {show(limit[0], 'pressure')}" + (
            f" and abort every run at {when}"
            if certain
            else f", less than a tenth above the {show(highest.value, 'pressure')} at {when}"
        )
    part = f" (rating of the {weakest.name})" if weakest else ""
    window = (
        f"no limit is sound: the run needs {show(bottom, 'pressure')} and more, "
        f"{show(top, 'pressure')}{part} may be shut in"
        if empty
        else f"sound is {show(bottom, 'pressure')} to {show(top, 'pressure')}{part}"
    )
    value = limit[0] if limit else None
    nearest = bottom if value is not None and value < bottom else top
    also: list[At] = [At(weakest.document, weakest.path)] if weakest else []
    yield case.finding(
        "method.pressure_limits.high",
        grade,
        f"{said}; {window}; the run reaches {show(highest.value, 'pressure')} "
        f"({highest.band_words}) at {show(highest.time, 'time', 'min')}",
        found=bar(value) if value is not None else None,
        limit=bar(nearest) if math.isfinite(nearest) else None,
        band=bar(highest.band),
        band_below=None if highest.below is None else bar(highest.below),
        when=When(highest.time, highest.time),
        remedy=_words(open_parts, bottom),
        candidates=_candidates(case, bottom, top, highest.value)
        + (slower(case, When(highest.time, highest.time)) if empty else []),
        also=tuple(also),
        cautions=("pressure",),
    )


def _beyond_a_rating(rated: list[PartPressure]) -> bool:
    return any(part.rating is not None and part.pressure.max() > part.rating for part in rated)


def _words(open_parts: list[PartPressure], bottom: float) -> str:
    weak = [part for part in open_parts if (part.rating or 0.0) < bottom]
    if not weak:
        return "set a high limit inside that window"
    ratings = [part.rating or 0.0 for part in open_parts if part not in weak]
    window = f"from {show(bottom, 'pressure')}"
    window += f" to {show(min(ratings), 'pressure')}" if ratings else " on"
    at = " and ".join(f"the {part.name} at {show(part.rating or 0.0, 'pressure')}" for part in weak)
    return (
        f"fit a trip that stops every pump, or a relief, for {at} or below; when it is fitted, write "
        f"it as `trip:` or `relief:` of that part, and a high limit {window} is sound; or lower the "
        "pressure of the run"
    )


def _candidates(case: RunCase, bottom: float, top: float, highest: float) -> list[Candidate]:
    middle = min(1.2 * highest, top)
    values = [
        math.floor(middle / 1e6) * 10,
        math.ceil(bottom / 1e6) * 10,
        math.floor(min(top, 2 * bottom) / 1e5),
    ]
    texts = [f"{value:g} bar" for value in values if bottom <= value * 1e5 <= top]
    return [
        case.candidate(
            f"set the high pressure limit to {text}",
            case.change("method.pressure_limits.high", text),
        )
        for text in dict.fromkeys(texts)
    ]
