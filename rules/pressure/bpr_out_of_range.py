"""The regulator is set to a pressure, and passes a flow, that it can control.

Reason
    Below its span a regulator hunts or stays open, above it it does not close. What flows
    through it is the mobile phase and any makeup liquid that joins before it; makeup that joins
    downstream of it does not count. A passive restrictor has no span.

Unsound
    kind: method
    outlet_pressure: 70 bar  # <- here
    programme: [{time: 0 min, modifier_share: 20 % v/v}]

Sound
    kind: method
    outlet_pressure: 110 bar
    programme: [{time: 0 min, modifier_share: 20 % v/v}]

Sound, because the restrictor is passive
    kind: method
    outlet_pressure: 70 bar
    programme: [{time: 0 min, modifier_share: 20 % v/v}]
    ---
    kind: instrument
    regulator: {kind: passive restrictor}

Remedy
    Set a pressure within the span, and well above the phase boundary.

Source
    Span: the instrument card. Usual lower ends of 80-100 bar: common practice, no source.
"""

from collections.abc import Iterator

import numpy as np

from methodlint.judging.ask.flow import filled_rows
from methodlint.judging.ask.phase import higher_outlet, highest_boundary, warmest_before_regulator
from methodlint.judging.ask.pressure import lower_outlet, regulator_mass_flow
from methodlint.judging.ask.rule import (
    Candidate,
    Finding,
    Measure,
    NotChecked,
    RunCase,
    When,
    bar,
    minutes,
    number,
    show,
)

SUBJECT = "run"
LINES = True
CLASSES = ("fault",)
_RELEASED = 2e5
NEEDS = ("instrument.regulator.lowest", "instrument.regulator.highest", "method.outlet_pressure")


def applies(case: RunCase) -> bool:
    """A declared passive restrictor has no span of its own."""
    regulator = case.instrument.regulator if case.instrument else None
    own = case.rehearsal is None or not case.rehearsal.plan.steady or _of_line(case) is not None
    return own and (regulator is None or regulator.kind != "passive restrictor")


def _of_line(case: RunCase) -> float | None:
    """Setting [Pa] of a line that has its own; a regulator that is released has none."""
    run = case.run
    setting = float(run.outlet_pressure[0]) if run.done else 0.0
    method = case.get("method.outlet_pressure")
    return setting if setting > _RELEASED and method and abs(setting - method.si) > 1.0 else None


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare every set pressure, and the mass flow if its span is given, with the card."""
    assert case.method is not None
    lowest = case.get("instrument.regulator.lowest").si
    highest = case.get("instrument.regulator.highest").si
    own = _of_line(case) if case.rehearsal and case.rehearsal.plan.steady else None
    for row in filled_rows(case.method):
        setting = own or row.outlet_pressure
        if setting is None or lowest - 1.0 <= setting <= highest + 1.0:
            continue
        low = setting < lowest
        limit, key = (lowest, "lowest") if low else (highest, "highest")
        candidates: list[Candidate] = higher_outlet(case) if low else lower_outlet(case)
        yield case.finding(
            row.places.get("outlet_pressure", "method.outlet_pressure"),
            "fault",
            f"the regulator is set to {show(setting, 'pressure')} at "
            f"{number(minutes(row.time).value, 3)} min; it controls {show(lowest, 'pressure')} to "
            f"{show(highest, 'pressure')} ({show(abs(setting - limit), 'pressure')} outside)"
            + _boundary(case),
            found=bar(setting),
            limit=bar(limit),
            when=When(row.time),
            remedy="set a pressure that the regulator controls",
            candidates=candidates,
            also=(case.at(f"instrument.regulator.{key}"),),
        )
        break
    if own is None:
        yield from _flow(case)


def _boundary(case: RunCase) -> str:
    if not case.run.done:
        return ""
    warmest = warmest_before_regulator(case.run)
    boundary = highest_boundary(case.run, warmest)
    if not boundary:
        return ""
    # The boundary of this run's own composition may lie lower, and other findings name that one.
    return (
        f"; at {show(warmest, 'temperature')} every composition has one phase from "
        f"{show(boundary, 'pressure')} on"
    )


def _flow(case: RunCase) -> Iterator[Finding | NotChecked]:
    if not case.run.done:
        return
    flow = regulator_mass_flow(case.run)
    for key, above in (("lowest_mass_flow", False), ("highest_mass_flow", True)):
        limit = case.get(f"instrument.regulator.{key}")
        if limit is None:
            continue
        if flow is None:
            yield case.not_checked("method.makeup", "method.makeup.liquid", "its density")
            return
        running = flow[flow > 0.0]
        if not running.size:
            return
        worst = float(running.max() if above else running.min())
        if worst <= limit.si if above else worst >= limit.si:
            continue
        beyond = flow - limit.si if above else np.where(flow > 0.0, limit.si - flow, -np.inf)
        spans = case.run.windows(beyond)
        yield case.finding(
            "method.flow",
            "fault",
            f"{show(worst, 'mass flow')} pass the regulator, makeup upstream of it counted; it "
            f"controls {'at most' if above else 'at least'} {show(limit.si, 'mass flow')}",
            found=Measure(worst * 6e4, "g/min"),
            limit=Measure(limit.si * 6e4, "g/min"),
            when=When(spans[0][0], spans[-1][1]) if spans else None,
            remedy=f"{'lower' if above else 'raise'} the flow",
            also=(case.at(f"instrument.regulator.{key}"),),
        )
