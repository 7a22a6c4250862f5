"""The makeup pump can deliver against the pressure at its tee.

Reason
    In front of the regulator the makeup pump has to overcome the outlet pressure. If it cannot,
    or if no check valve stops it, CO2 runs backwards through the makeup line into the bottle.

Unsound
    kind: method
    makeup: {liquid: methanol, line: makeup, flow: 0.2 mL/min, tee: before the regulator}
    ---
    kind: instrument
    makeup_pump: {pressure_rating: 150 bar}  # <- here

Sound
    kind: method
    makeup: {liquid: methanol, line: makeup, flow: 0.2 mL/min, tee: before the regulator}

Sound, because downstream of the regulator there is no pressure
    kind: method
    makeup: {liquid: methanol, line: makeup, flow: 0.2 mL/min, tee: after the regulator}
    ---
    kind: instrument
    makeup_pump: {pressure_rating: 150 bar}

Remedy
    Use a makeup pump with a higher rating and a check valve at the tee, or put the tee downstream of
    the regulator.

Source
    0.9 of the rating: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import Finding, NotChecked, RunCase, When, bar, show

SUBJECT = "run"
CLASSES = ("fault",)
NEEDS = (
    "run",
    "method.makeup.tee",
    "instrument.makeup_pump.pressure_rating",
    "instrument.makeup_pump.check_valve",
)

_PART = 0.9


def applies(case: RunCase) -> bool:
    """Makeup joins upstream of the regulator, or the method does not say where."""
    makeup = case.method.makeup if case.method else None
    return makeup is not None and makeup.tee != "after the regulator"


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare the pressure at the tee with nine tenths of the makeup pump's rating."""
    run = case.run
    joins = run.plan.makeup_joins
    number = joins if joins is not None else run.train.regulator
    worst = run.highest(run.inlet_pressure_of(number))
    rating = case.get("instrument.makeup_pump.pressure_rating").si
    after = case.candidate(
        "put the makeup tee downstream of the regulator",
        case.change("method.makeup.tee", "after the regulator"),
    )
    if worst.value > _PART * rating:
        yield case.finding(
            "instrument.makeup_pump.pressure_rating",
            "fault",
            f"the makeup pump has to deliver against {show(worst.value, 'pressure')} at its tee "
            f"(from {show(worst.time, 'time', 'min')}), nine tenths of its rating of "
            f"{show(rating, 'pressure')} are {show(_PART * rating, 'pressure')}: "
            f"{show(worst.value - _PART * rating, 'pressure')} too much",
            found=bar(worst.value),
            limit=bar(_PART * rating),
            when=When(worst.time, worst.time),
            remedy="use a makeup pump with a higher rating, or put its tee downstream of the regulator",
            candidates=[after],
            also=(case.at("method.outlet_pressure"),),
        )
    elif not case.get("instrument.makeup_pump.check_valve"):
        yield case.finding(
            "instrument.makeup_pump.check_valve",
            "fault",
            f"no check valve holds the {show(worst.value, 'pressure')} at the makeup tee: CO2 runs "
            "back into the makeup line when its pump stops",
            remedy="fit a check valve at the tee",
            candidates=[after],
            also=(case.at("method.makeup.tee"),),
        )
