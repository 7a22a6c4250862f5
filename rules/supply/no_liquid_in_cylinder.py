"""A cylinder that is to give liquid holds liquid at the temperature of its store.

Reason
    Above 31.0 degC there is no liquid CO2 at any pressure, and a nearly empty cylinder holds gas
    alone. A dip tube then draws a fluid whose density changes with every degree, and a pump that
    meters volume meters another mass.

Unsound
    kind: supply
    store_temperature: 34 degC  # <- here

Unsound, because what is left is gas
    kind: supply
    net_mass: 5 kg  # <- here

Sound
    kind: supply
    store_temperature: 22 degC

Remedy
    Move the cylinder to a cooler place, give the pump a cooler for the heat that the warm fluid
    brings, or change an empty cylinder. Never cool or warm a cylinder by force.

Source
    Critical temperature 304.13 K and densities: Span and Wagner, J. Phys. Chem. Ref. Data 25,
    1509 (1996). Share of a cooler that is counted on, 0.8: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.phase import co2
from methodlint.judging.ask.room import highest_co2_flow
from methodlint.judging.ask.rule import (
    BatchCase,
    Candidate,
    Finding,
    Measure,
    celsius,
    judge_limit,
    kilograms,
    show,
)
from methodlint.judging.ask.supply import (
    COOLER_SHARE,
    cooler_heat_per_mass,
    cylinder_pressure,
    draws_vapour,
    mean_density,
    store_temperature,
    vapour_left,
)

SUBJECT = "batch"
CLASSES = ("fault", "caution")
NEEDS = ("supply.store_temperature",)
CAUSES = ("supply.cylinder-runs-out", "supply.chiller-overloaded", "supply.pump-inlet-flashes")


def applies(case: BatchCase) -> bool:
    """Only a store that gives liquid has to hold some."""
    supply = case.supply
    return supply is None or (supply.withdrawal != "bulk" and not draws_vapour(supply))


def judge(case: BatchCase) -> Iterator[Finding]:
    """Compare the store with the critical temperature, then the fill with vapour alone."""
    supply = case.supply
    assert supply is not None
    store = store_temperature(supply)
    assert store is not None
    limit = co2.CRITICAL_TEMPERATURE
    verdict = judge_limit(store.expected, limit, store.highest - store.expected, "fault")
    density = mean_density(supply)
    if verdict is not None:
        cooled = _cooled(case)
        says = "may be" if verdict.possible else "is"
        pressure = ""
        if density is not None and store.highest > limit:
            reached = cylinder_pressure(store.highest, density)
            pressure = f", {show(reached, 'pressure')} at {show(density, 'density')}"
        yield case.finding(
            "supply.store_temperature",
            "caution" if cooled else verdict.grade,
            f"liquid withdrawal {says} impossible: above 31.0 degC there is no liquid CO2, the "
            f"store reaches {show(store.highest, 'temperature')}{pressure}"
            + ("; the pump's cooler is rated for the heat" if cooled else ""),
            found=celsius(store.expected),
            limit=celsius(limit),
            band=Measure(store.highest - store.expected, "K"),
            possible=verdict.possible,
            remedy="keep the cylinder in a place that stays below 29 degC",
            candidates=_cooler_place(case),
        )
    elif density is not None and supply.net_mass is not None:
        vapour = vapour_left(supply, store.expected)
        held = supply.net_mass.si - (
            supply.used_since_weighed.si if supply.used_since_weighed else 0.0
        )
        if vapour is not None and held < vapour:
            yield case.finding(
                "supply.net_mass",
                "fault",
                f"the cylinder holds gas alone: {show(held, 'mass', 'kg')} is less than the "
                f"{show(vapour, 'mass', 'kg')} of vapour that fill it at "
                f"{show(store.expected, 'temperature')}; there is no liquid to draw",
                found=kilograms(held),
                limit=kilograms(vapour),
                remedy="change the cylinder before the start",
            )


def _cooler_place(case: BatchCase) -> list[Candidate]:
    """A cooler store, and one for a warm line as well."""
    store = case.change("supply.store_temperature", {"value": "25 degC", "tolerance": "2 K"})
    line = case.change("supply.line_temperature", "25 degC")
    words = "in a place of 25 degC or less, 27 degC at most"
    return [
        case.candidate(f"keep the cylinder {words}", store),
        case.candidate(f"keep the cylinder and its line {words}", store, line),
    ]


def _cooled(case: BatchCase) -> bool:
    """Whether the pump's cooler takes the heat that the warm fluid brings."""
    rated = case.get("instrument.co2_pump.chiller_capacity")
    head = case.get("instrument.co2_pump.head_temperature")
    supply = case.supply
    if rated is None or head is None or supply is None:
        return False
    heat = cooler_heat_per_mass(supply, head.si, case.batch.co2_demand)
    flow = highest_co2_flow(case.batch)
    return heat is not None and 0.0 < flow * heat <= COOLER_SHARE * rated.si
