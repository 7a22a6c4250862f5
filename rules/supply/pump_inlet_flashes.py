"""The store's pressure keeps CO2 liquid all the way into the pump head.

Reason
    Liquid CO2 from a cylinder is at its saturation pressure. Where it meets a place that is
    warmer than the store, or loses pressure on the way, it boils; a pump that takes bubbles
    delivers less CO2 than it says. A cold yard and a cool head are a common pair: 37.7 bar from a
    store at 3 degC against 42.8 bar in a head at 8 degC.

Unsound
    kind: supply
    store_temperature: 3 degC  # <- here

Sound
    kind: supply
    store_temperature: 15 degC

Sound, because a booster lifts the pressure
    kind: supply
    store_temperature: 3 degC
    booster: true

Remedy
    Cool the pump head further, or keep the cylinder in a place that is warm enough by itself;
    insulate or cool a line that passes through a warmer room. Never warm a cylinder.

Source
    Saturation pressures: Span and Wagner, J. Phys. Chem. Ref. Data 25, 1509 (1996). 3 bar above
    saturation in the head: common practice, no source.
"""

import math
from collections.abc import Iterator

from methodlint.judging.ask.phase import co2
from methodlint.judging.ask.rule import (
    BatchCase,
    Candidate,
    Finding,
    NotChecked,
    bar,
    judge_limit,
    show,
)
from methodlint.judging.ask.supply import (
    head_temperature_needed,
    pressure_needed,
    store_pressure,
    store_temperature,
    store_temperature_needed,
)

SUBJECT = "batch"
CLASSES = ("fault", "caution")
NEEDS = ("supply.store_temperature", "instrument.co2_pump.head_temperature")


def applies(case: BatchCase) -> bool:
    """A supply under helium, or lifted by a booster, does not stand at saturation."""
    supply, instrument = case.supply, case.instrument
    pump = instrument.co2_pump if instrument is not None else None
    lifted = supply is not None and (supply.padded or supply.booster)
    return not lifted and not (pump is not None and pump.booster)


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Compare the store's pressure with saturation in the head, and in the warmest line."""
    supply = case.supply
    assert supply is not None
    store = store_temperature(supply)
    assert store is not None
    head = case.get("instrument.co2_pump.head_temperature").si
    middle, least = store_pressure(supply, store.expected), store_pressure(supply, store.lowest)
    if middle is None or least is None:
        yield case.not_checked("supply", "supply.net_mass", "the store is above 31.0 degC")
        return
    loss = supply.line_loss.si if supply.line_loss is not None else 0.0
    needed = pressure_needed(head, loss)
    verdict = judge_limit(middle, needed, middle - least, "fault", above=False)
    if verdict is not None:
        candidates = _candidates(case, head, least, loss)
        yield case.finding(
            "supply.store_temperature",
            verdict.grade,
            f"CO2 {'may boil' if verdict.possible else 'boils'} on its way into the pump: "
            f"{show(middle, 'pressure')} from a store at {show(store.expected, 'temperature')}, "
            f"{show(needed, 'pressure')} needed: {show(needed - loss - 3e5, 'pressure')} "
            f"saturation in a head at {show(head, 'temperature')}, 3 bar above it and "
            f"{show(loss, 'pressure')} lost in the line (margin "
            f"{show(middle - needed, 'pressure')}, band {show(middle - least, 'pressure')})",
            found=bar(middle),
            limit=bar(needed),
            band=bar(middle - least),
            possible=verdict.possible,
            remedy=candidates[0].text if candidates else "lift the pressure with a booster",
            candidates=candidates,
            also=(case.at("instrument.co2_pump.head_temperature"),),
            cautions=("cold",),
        )
        return
    if supply.line_loss is None:
        yield case.not_checked("supply", "supply.line_loss")
    yield from _warm_line(case, store.highest, middle - loss)


def _warm_line(case: BatchCase, store: float, arriving: float) -> Iterator[Finding]:
    warm = case.get("supply.line_temperature")
    if warm is None or warm.si <= store or case.get("supply.withdrawal") == "vapour":
        return
    gone = warm.si >= co2.CRITICAL_TEMPERATURE
    boiling = co2.CRITICAL_PRESSURE if gone else float(co2.saturation_pressure(warm.si))
    if arriving < boiling:
        yield case.finding(
            "supply.line_temperature",
            "caution",
            f"CO2 boils in the line: {show(arriving, 'pressure')} reaches a place of "
            f"{show(warm.si, 'temperature')}, where it boils below {show(boiling, 'pressure')}; "
            "the pump's cooler has to condense what has boiled",
            found=bar(arriving),
            limit=bar(boiling),
            remedy=f"insulate or cool the line to {show(store, 'temperature')} or less",
            candidates=[
                case.candidate(
                    f"insulate or cool the line to {show(store, 'temperature')} or less",
                    case.change("supply.line_temperature", show(store, "temperature")),
                )
            ],
        )


def _candidates(case: BatchCase, head: float, least: float, loss: float) -> list[Candidate]:
    """Serve the cold end of the store, not its middle."""
    found = []
    cooler, store = head_temperature_needed(least, loss), store_temperature_needed(head, loss)
    if cooler is not None and cooler > 263.15:
        value = f"{math.floor(cooler - 273.15)} degC"
        change = case.change("instrument.co2_pump.head_temperature", value)
        other = (
            ""
            if store is None
            else (
                f", or keep the cylinder where it stays at {math.ceil(store - 273.15)} degC or more"
            )
        )
        found.append(case.candidate(f"cool the pump head to {value}{other}", change))
    if store is not None:
        lowest = f"{math.ceil(store - 273.15)} degC"
        span = {"lowest": lowest, "highest": f"{math.ceil(store - 273.15) + 4} degC"}
        text = f"keep the cylinder where it stays at {lowest} or more by itself"
        found.append(case.candidate(text, case.change("supply.store_temperature", span)))
    return found
