"""A low pressure limit stops the pumps when CO2 runs out or leaks away.

Reason
    A regulator holds its set pressure while CO2 leaks upstream of it, so a limit a little below
    the setting sees nothing. What falls is the pressure at the pumps: the limit belongs between
    the regulator's setting and the lowest pressure of a sound run, armed after the start. Where
    the column costs too little for that, a low limit detects an empty cylinder only.

Unsound
    kind: method
    pressure_limits: {high: 340 bar, low: null}  # <- here

Unsound, because the regulator holds 150 bar while CO2 leaks
    kind: method
    pressure_limits: {high: 340 bar, low: 130 bar}  # <- here

Sound
    kind: method
    pressure_limits: {high: 340 bar, low: 160 bar}

Remedy
    Type the low limit that the message gives: 0.8 of the lowest pump pressure after settling, or
    a little more where that lies below the regulator's setting.

Source
    0.8 of the lowest pump pressure; 5 bar above the regulator's setting where that is at most 0.95
    of the lowest pressure; 0.7 of the setting at least: common practice, no source.
"""

import math
from collections.abc import Iterator

from methodlint.judging.ask.pressure import pressure_band_words
from methodlint.judging.ask.rule import Finding, RunCase, When, bar, show

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("run",)

_OF_LOWEST = 0.8
_CLOSEST = 0.95
_ABOVE_SETTING = 5e5
_BELOW_SETTING = 0.7


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare the limit with the regulator's setting and the lowest pump pressure."""
    run = case.run
    flowing = run.set_flow > 0.0
    if not flowing.any():
        return
    pump = run.pump_pressure.copy()
    pump[~flowing] = math.inf
    row = int(pump.argmin())
    lowest = float(pump[row])
    below, above = (float(side[row]) for side in run.pressure_band(run.pump_pressure))
    setting = float(run.outlet_pressure[flowing].max())
    sees_leaks = setting + _ABOVE_SETTING <= _CLOSEST * lowest
    wanted = _OF_LOWEST * lowest
    if sees_leaks:
        wanted = max(wanted, setting + _ABOVE_SETTING)
    given = case.get("method.pressure_limits.low")
    in_bar = math.floor(wanted / 1e5 + 1e-6)
    # Where the regulator is programmed, its highest setting may lie above the lowest pump pressure.
    least = min(_BELOW_SETTING * setting, in_bar * 1e5)
    said = _what_is_wrong(given.si if given else None, lowest, setting, least, sees_leaks)
    if said is None:
        return
    text = f"{in_bar} bar"
    leaks = "" if sees_leaks else _no_leaks(case)
    yield case.finding(
        "method.pressure_limits.low",
        "caution",
        f"{said}; the lowest pressure at the pumps is {show(lowest, 'pressure')} ("
        f"{pressure_band_words(below, above)}) at {show(float(run.time[row]), 'time', 'min')}, the regulator "
        f"holds {show(setting, 'pressure')}{leaks}",
        found=bar(given.si) if given else None,
        limit=bar(wanted),
        band=bar(above),
        band_below=bar(below),
        when=When(float(run.time[row]), float(run.time[row])),
        candidates=[
            case.candidate(
                f"set the low pressure limit to {text}, armed after the start",
                case.change("method.pressure_limits.low", text),
            )
        ],
        also=(case.at("method.outlet_pressure"),),
    )


def _what_is_wrong(
    given: float | None, lowest: float, setting: float, least: float, sees_leaks: bool
) -> str | None:
    if given is None:
        return "no low limit stops the pumps when CO2 runs out or leaks"
    limit = show(given, "pressure")
    if given > lowest:
        return f"the low limit of {limit} stops every run ({show(given - lowest, 'pressure')} high)"
    if sees_leaks and given < setting:
        return (
            f"the low limit of {limit} lies {show(setting - given, 'pressure')} below the "
            f"regulator's setting and sees no leak"
        )
    if given < least:
        return f"the low limit of {limit} is less than 0.7 of the regulator's setting"
    return None


def _no_leaks(case: RunCase) -> str:
    words = "; so little above it that a low limit detects an empty cylinder only"
    return words if case.get("instrument.trips.leak_sensor") else f"{words}: a leak needs a sensor"
