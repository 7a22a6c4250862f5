"""The regulator gets the heat that expanding CO2 takes from it.

Reason
    From 150 bar and 40 degC CO2 alone expands to far below the freezing point of water, and to
    solid CO2 below 5.2 bar. A lean mobile phase then blocks the needle with ice, solid CO2 or
    with what was dissolved: the outlet pressure jumps. Modifier brings warmth along; above 30 %
    it is enough.

Unsound
    kind: instrument
    regulator: {heated: false, heater: null}  # <- here

Sound
    kind: instrument
    regulator: {heated: true, heater: 20 W}

Sound, because there is modifier enough
    kind: method
    programme: []
    mobile_phase: {modifier: {liquid: methanol, line: modifier-1}, modifier_share: 45 % v/v}
    ---
    kind: instrument
    regulator: {heated: false, heater: null}

Remedy
    Heat the regulator with the watts that the message gives. Frost on the vent line alone does no
    harm.

Source
    Enthalpies of CO2: Span and Wagner 1996. 10 % and 30 % of modifier: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import Finding, Grade, Measure, NotChecked, RunCase, When, show
from methodlint.judging.ask.supply import RegulatorLoad

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("run", "instrument.regulator.heated")

_ENOUGH_MODIFIER = 0.30
_LEAN = 0.10


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare the heat that the leanest, coldest moment needs with the heater."""
    load = case.run.heater_load
    if load is None:
        yield case.not_checked("method.outlet_pressure", "outside the property model of CO2")
        return
    if load.least_share >= _ENOUGH_MODIFIER or load.watts <= 0.0:
        return
    heated = case.get("instrument.regulator.heated")
    heater = case.get("instrument.regulator.heater")
    if not heated:
        grade: Grade = "fault" if load.least_share < _LEAN else "caution"
        yield _finding(case, load, grade, 0.0, "the regulator is not heated")
    elif heater is None:
        if case.get("instrument.regulator.temperature") is None:
            yield case.not_checked("instrument.regulator", "instrument.regulator.heater")
    elif load.watts > heater.si:
        said = f"the heater gives {show(heater.si, 'power')}"
        yield _finding(case, load, "caution", heater.si, said)


def _finding(case: RunCase, load: RegulatorLoad, grade: Grade, has: float, said: str) -> Finding:
    at = "instrument.regulator.heater" if has else "instrument.regulator.heated"
    solid = " and forms solid" if load.solid else ""
    watts = _rounded_up(load.watts + load.band)
    changes = (
        case.change("instrument.regulator.heated", True),
        case.change("instrument.regulator.heater", f"{watts} W"),
    )
    return case.finding(
        at,
        grade,
        f"the regulator needs {show(load.watts, 'power')} (band {show(load.band, 'power')}) at "
        f"{show(load.time, 'time', 'min')}, with {100 * load.share:.0f} % modifier: {said}: "
        f"{show(load.watts - has, 'power')} short; CO2 alone cools to "
        f"{show(load.end_temperature, 'temperature')}{solid} there, with its modifier to "
        f"{show(load.mixed_end_temperature, 'temperature')}",
        found=Measure(load.watts, "W"),
        limit=Measure(has, "W"),
        band=Measure(load.band, "W"),
        when=When(load.time, load.time),
        remedy=f"heat the regulator with {watts} W or more",
        candidates=[case.candidate(f"heat the regulator with {watts} W or more", *changes)],
        also=(case.at("method.outlet_pressure"),),
        cautions=("cold",),
    )


def _rounded_up(watts: float) -> int:
    """Next five watts."""
    return 5 * (int(watts // 5) + 1)
