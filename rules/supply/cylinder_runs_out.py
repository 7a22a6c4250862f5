"""The liquid in the CO2 cylinder is enough for the sequence.

Reason
    A scale shows all the CO2, but a dip tube draws liquid only: when the last liquid is gone the
    cylinder is still full of dense vapour, 9.7 kg of it in 50 L at 20 degC. From then on the
    pump meters vapour, retention drifts and the pressure falls. The warmer the store, the more
    stays behind. The pressure gauge shows nothing of this: it stands still until the liquid ends.

Unsound
    kind: supply
    store_temperature: {value: 20 degC, tolerance: 1 K}
    net_mass: 10.5 kg  # <- here

Sound
    kind: supply
    store_temperature: {value: 20 degC, tolerance: 1 K}
    net_mass: 14 kg

Sound, because a condensing pump draws vapour down to a lower pressure
    kind: supply
    withdrawal: vapour
    dip_tube: false
    net_mass: 10.5 kg
    ---
    kind: instrument
    co2_pump: {inlet: vapour}

Remedy
    Change to a full cylinder before the start, or after the injection that the message names:
    it is the last that is served even if scale, store and pump all err on the wrong side.

Source
    Density of saturated vapour: Span and Wagner, J. Phys. Chem. Ref. Data 25, 1509 (1996). Where
    the card gives none, tolerances are 1 K for the store, 0.05 kg for the scale and 1 % for the
    pump: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import (
    BatchCase,
    Candidate,
    Finding,
    NotChecked,
    When,
    judge_limit,
    kilograms,
    show,
)
from methodlint.judging.ask.supply import (
    CylinderEnd,
    balance_words,
    can_hold,
    change_words,
    cylinder_end,
    cylinder_end_words,
    draws_vapour,
    gas_alone,
    pressure_needed,
)

SUBJECT = "batch"
CLASSES = ("fault", "caution")
NEEDS = ("batch", "supply.net_mass", "supply.water_capacity", "supply.store_temperature")


def applies(case: BatchCase) -> bool:
    """Not for a bulk tank, and not where another cylinder takes over by itself."""
    supply = case.supply
    return supply is None or (supply.withdrawal != "bulk" and supply.changeover != "automatic")


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Draw the sequence's CO2 from what is usable, at the middle and in the worst case."""
    supply = case.supply
    assert supply is not None and supply.net_mass is not None
    vapour = draws_vapour(supply)
    if vapour is None:
        yield case.not_checked("supply", "supply.withdrawal")
        return
    lowest = None
    if vapour:
        head = case.get("instrument.co2_pump.head_temperature")
        if head is None:
            yield case.not_checked("supply", "instrument.co2_pump.head_temperature")
            return
        lowest = pressure_needed(head.si, supply.line_loss.si if supply.line_loss else 0.0)
    elif gas_alone(supply):  # said by supply.no-liquid-in-cylinder
        return
    kept = case.policy.cylinder_heel
    end = cylinder_end(case.documents["supply"], case.batch, kept.si if kept else 0.0, lowest)
    if end is None:  # why is said by supply.overfilled
        reason = f"{_kg(supply.net_mass.si)} is more than a cylinder of this size is filled with"
        yield case.not_checked(case.at("supply.net_mass"), "supply.net_mass", reason)
        return
    band = end.short_at_worst - end.short
    verdict = judge_limit(end.demand, end.usable.expected, band, "fault")
    if verdict is None:
        return
    yield case.finding(
        "supply.net_mass",
        verdict.grade,
        f"{cylinder_end_words(case.batch, end, vapour=vapour)}: the sequence takes {_kg(end.demand)}, but of the "
        f"{_kg(supply.net_mass.si)} in it {_kg(max(end.usable.expected, 0.0))} can be drawn "
        f"{'as vapour' if vapour else 'as liquid'}, {_kg(end.usable.vapour)} stays behind as "
        f"vapour; {balance_words(end)} (band {_kg(band)})",
        found=kilograms(end.demand),
        limit=kilograms(end.usable.expected),
        band=kilograms(band),
        when=When(injection=end.expected_first or end.not_before, last_injection=end.expected_last),
        possible=verdict.possible,
        remedy=change_words(case.batch, end),
        candidates=_candidates(case, end),
        also=(case.at("supply.store_temperature"), case.at("sequence.lines")),
    )


def _kg(mass: float) -> str:
    return show(mass, "mass", "kg")


def _candidates(case: BatchCase, end: CylinderEnd) -> list[Candidate]:
    supply = case.supply
    assert supply is not None
    fresh = supply.spare_mass if supply.cylinders <= 1 else None
    fresh = fresh or supply.full_mass
    if fresh is None or not can_hold(supply, fresh.si):
        return []
    mass = _kg(fresh.si)
    changes = [case.change("supply.net_mass", mass)]
    if supply.used_since_weighed is not None:
        changes.append(case.change("supply.used_since_weighed", None))
    gives = fresh.si - end.usable.vapour - (supply.heel.si if supply.heel else 0.0)
    to = f" for a full one ({mass}, of which {_kg(gives)} can be drawn)"
    return [case.candidate(change_words(case.batch, end, to), *changes)]
