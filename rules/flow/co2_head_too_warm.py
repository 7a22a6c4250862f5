"""The head of the CO2 pump is cold enough to meter a liquid.

Reason
    A pump that meters by volume delivers the mass that its head's temperature allows: about
    0.5 % less for each degree at 150 bar. A warm head also comes near to boiling on the suction
    stroke. Less CO2 at the same modifier flow is a richer mobile phase: retention shortens.

Unsound
    kind: instrument
    co2_pump: {head_temperature: 18 degC}  # <- here

Sound
    kind: instrument
    co2_pump: {head_temperature: 8 degC}

Sound, because the volume follows the density at the head
    kind: instrument
    co2_pump: {head_temperature: 18 degC, metering: compensated}

Remedy
    Set the chiller to 5 to 10 degC and wait for it before the run.

Source
    Density of CO2: Span and Wagner 1996. Limits of 12 degC and of 5 degC below saturation:
    common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import (
    Candidate,
    Finding,
    Measure,
    NotChecked,
    RunCase,
    celsius,
    judge_limit,
    number,
    show,
)
from methodlint.judging.ask.supply import (
    delivered_change,
    pressure_needed,
    store_pressure,
    store_temperature,
    subcooling,
)

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("instrument.co2_pump.head_temperature",)

_WARMEST = 273.15 + 12.0
_BOOKED = 273.15 + 10.0
_SUBCOOLING = 5.0
_USUAL_PRESSURE = 150e5
_HIGHEST_LIQUID = 304.0


def applies(case: RunCase) -> bool:
    """Not with metering by mass or by density, nor with a booster before the metering stage."""
    pump = case.instrument.co2_pump if case.instrument is not None else None
    return pump is None or (pump.metering == "volume" and not pump.booster)


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare the head's temperature with 12 degC, and with saturation at the inlet."""
    head = case.get("instrument.co2_pump.head_temperature").si
    near = list(_near_boiling(case, head))
    if head > _WARMEST + 1e-6 and not any(isinstance(one, Finding) for one in near):
        yield _warm(case, head)
    yield from near


def _warm(case: RunCase, head: float) -> Finding:
    run = case.rehearsal
    done = run is not None and run.done
    pressure = float(run.pump_pressure[0]) if run is not None and done else _USUAL_PRESSURE
    error = delivered_change(head, _BOOKED, pressure)
    change = case.change("instrument.co2_pump.head_temperature", "8 degC")
    return case.finding(
        "instrument.co2_pump.head_temperature",
        "caution",
        f"the CO2 pump's head is at {show(head, 'temperature')}, "
        f"{show(_WARMEST, 'temperature')} is the warmest that meters well "
        f"({number(head - _WARMEST, 2)} K too warm): at {show(pressure, 'pressure')} it delivers "
        f"{-100.0 * error:.1f} % less CO2 than with a head at {show(_BOOKED, 'temperature')}; the "
        "mobile phase is richer than set and retention shortens",
        found=celsius(head),
        limit=celsius(_WARMEST),
        remedy="cool the head to 8 degC",
        candidates=[case.candidate("cool the head to 8 degC", change)],
    )


def _near_boiling(case: RunCase, head: float) -> Iterator[Finding | NotChecked]:
    supply = case.supply
    if supply is None or supply.padded or supply.booster or supply.withdrawal == "bulk":
        return
    store = store_temperature(supply)
    if store is None or supply.line_loss is None:
        lacks = "supply.store_temperature" if store is None else "supply.line_loss"
        yield case.not_checked("supply", lacks, "how far the head is below boiling is not known")
        return
    if store.highest >= _HIGHEST_LIQUID:
        return
    sent, loss = store_pressure(supply, store.expected), supply.line_loss.si
    if sent is None or sent < pressure_needed(head, loss):
        return  # boils in the head: supply.pump-inlet-flashes says so
    inlet = sent - loss
    below = subcooling(head, inlet)
    band = 0.5 * (store.highest - store.lowest)
    verdict = judge_limit(below, _SUBCOOLING, band, "fault", above=False)
    if verdict is None or (verdict.possible and below >= _SUBCOOLING):
        return
    yield case.finding(
        "instrument.co2_pump.head_temperature",
        verdict.grade,
        f"the CO2 pump's head at {show(head, 'temperature')} is {number(below, 2)} K below boiling "
        f"at the inlet ({show(inlet, 'pressure')}), {_SUBCOOLING:.0f} K are recommended "
        f"({below - _SUBCOOLING:+.1f} K, band {number(band, 2)} K)",
        found=Measure(below, "K"),
        limit=Measure(_SUBCOOLING, "K"),
        band=Measure(band, "K"),
        possible=verdict.possible,
        remedy=f"cool the head by {_SUBCOOLING - below + band:.0f} K",
        candidates=_cooler(case, head, _SUBCOOLING - below),
        also=(case.at("supply.store_temperature"),),
    )


def _cooler(case: RunCase, head: float, by: float) -> list[Candidate]:
    text = f"{head - 273.15 - by - 0.5:.0f} degC"
    change = case.change("instrument.co2_pump.head_temperature", text)
    return [case.candidate(f"cool the head to {text}", change)]
