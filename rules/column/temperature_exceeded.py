"""The oven stays below the temperature that the column withstands.

Reason
    Heat lifts a coated selector off its silica and dissolves silica itself; how much heat a column
    withstands depends on the liquid that flows through it.

Unsound
    kind: column
    temperature_limit: 35 degC  # <- here

Unsound
    kind: column
    temperature_limit: 60 degC
    temperature_limits:
      - {temperature: 35 degC, liquids: [methanol]}  # <- here

Sound
    kind: column
    temperature_limit: 60 degC
    temperature_limits:
      - {temperature: 35 degC, liquids: [water]}

Remedy
    Lower the oven temperature to the limit, and look at the phase boundary again.

Source
    The column card. Usual limits, which are reported but never judged by: 40 to 50 degC for coated
    polysaccharides, 60 to 90 degC for silica and hybrid phases: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.judging.ask.column import COATED, USUAL_TEMPERATURE_LIMIT, cards
from methodlint.judging.ask.flow import arrivals
from methodlint.judging.ask.liquids import is_in
from methodlint.judging.ask.rule import (
    Finding,
    Loaded,
    NotChecked,
    RunCase,
    When,
    celsius,
    judge_limit,
    show,
)

SUBJECT = "run"
CLASSES = ("stop", "fault", "caution")
NEEDS = ("method.oven_temperature", "column")

_STREAMS = ("modifier", "residue", "flush")


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare the hottest moment with each card's limits."""
    assert case.method is not None
    hottest, path, band, time = _hottest(case)
    for loaded, card in cards(case.columns):
        limits = _limits(case, loaded)
        if not limits:
            usual = USUAL_TEMPERATURE_LIMIT.get(card.phase or "")
            words = " to ".join(show(value, "temperature") for value in usual) if usual else ""
            reason = f"usual for {card.phase}: {words}" if usual else ""
            yield case.not_checked(case.at(loaded), "column.temperature_limit", reason)
            continue
        limit, where, holds = min(limits)
        worst = "stop" if card.phase == COATED else "fault"
        verdict = judge_limit(hottest, limit, band, "stop" if worst == "stop" else "fault")
        if verdict is None:
            continue
        certain = "may reach" if verdict.possible else "reaches"
        text = show(limit, "temperature")
        change = case.change(f"method.{path}", text)
        yield case.finding(
            case.at(loaded, where),
            verdict.grade,
            f"the oven {certain} {show(hottest, 'temperature')}, {loaded.name} is rated to {text}"
            f"{holds}: {show(abs(hottest - limit), 'temperature difference')} "
            f"{'too hot' if hottest > limit else 'left'}",
            found=celsius(hottest),
            limit=celsius(limit),
            when=When(time, time),
            possible=verdict.possible,
            remedy=f"set the oven to {text}",
            candidates=[case.candidate(f"set the oven to {text}", change)],
            also=(case.at(f"method.{path}"),),
        )


def _hottest(case: RunCase) -> tuple[float, str, float, float]:
    """Highest temperature of the programme [K], its path, its tolerance [K], its time [s]."""
    oven = case.get("method.oven_temperature")
    found = [(oven.si, "oven_temperature", oven.tolerance or 0.0, 0.0)]
    for index, row in enumerate(case.get("method.programme")):
        if row.temperature is not None:
            path = f"programme[{index}].temperature"
            band = row.temperature.tolerance or 0.0
            found.append((row.temperature.si, path, band, row.time.si))
    return max(found, key=lambda item: item[0] + item[2])


def _limits(case: RunCase, loaded: Loaded) -> list[tuple[float, str, str]]:
    """Limits that hold here [K], with their path and the liquid that they hold for.

    Where every liquid that flows has a limit of its own, the general one does not count.
    """
    card = next(card for other, card in cards(case.columns) if other is loaded)
    found: list[tuple[float, str, str]] = []
    covered: set[str] = set()
    flowing = {
        name
        for arrival in arrivals(case.documents, (), case.neighbours)
        if arrival.role in _STREAMS
        for name, _ in arrival.components
    }
    for index, entry in enumerate(card.temperature_limits):
        for name in sorted(flowing):
            if is_in(name, entry.liquids):
                path = f"temperature_limits[{index}].temperature"
                found.append((entry.temperature.si, path, f" with {name}"))
                covered.add(name)
    if card.temperature_limit is not None and (not flowing or flowing - covered):
        found.append((card.temperature_limit.si, "temperature_limit", ""))
    return found
