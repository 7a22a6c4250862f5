"""The warmest day of the store does not press the cylinder beyond its weakest part.

Reason
    A cylinder filled with 0.75 kg per litre is full of liquid at about 22 degC. From there on
    the pressure climbs by 4 bar for every degree: 92 bar at 30 degC, 133 bar at 40 degC, 175 bar
    at 50 degC. The disc, the hose or the line is the first to let go. What counts is the greatest of
    the filling ratio and of mass over water capacity.

Unsound
    kind: supply
    store_temperature: {lowest: 15 degC, highest: 45 degC}  # <- here
    filling_ratio: 0.75 g/mL
    rated_parts:
      - {part: hose, pressure_rating: 140 bar}

Sound
    kind: supply
    store_temperature: {lowest: 15 degC, highest: 28 degC}
    filling_ratio: 0.75 g/mL
    rated_parts:
      - {part: hose, pressure_rating: 140 bar}

Unsound, because 37.5 kg in 40 litres are more than the filling ratio says
    kind: supply
    store_temperature: {lowest: 15 degC, highest: 30 degC}  # <- here
    water_capacity: 40 L
    full_mass: 37.5 kg
    filling_ratio: 0.75 g/mL

Sound, because it holds no more than 68 % of its water capacity
    kind: supply
    store_temperature: {lowest: 15 degC, highest: 45 degC}
    full_mass: 34 kg
    filling_ratio: 0.68 g/mL
    rated_parts:
      - {part: hose, pressure_rating: 140 bar}

Remedy
    Shade the store, order cylinders with the lower fill, or exchange the weakest part. An
    overfilled cylinder goes back.

Source
    Span and Wagner, J. Phys. Chem. Ref. Data 25, 1509 (1996), at constant density.
"""

import math
from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, NotChecked, bar, show
from methodlint.judging.ask.supply import (
    cylinder_pressure,
    mean_density,
    overfills,
    store_temperature,
    temperature_at_pressure,
    weakest_part,
)

SUBJECT = "batch"
CLASSES = ("stop",)
NEEDS = ("supply.store_temperature",)
CAUSES = ("supply.no-liquid-in-cylinder",)


def applies(case: BatchCase) -> bool:
    """A bulk tank is no cylinder: it is cold and blows off by design."""
    return case.supply is None or case.supply.withdrawal != "bulk"


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Compare the pressure at the highest store temperature with the weakest part."""
    supply = case.supply
    assert supply is not None
    store, weakest = store_temperature(supply), weakest_part(supply)
    density = mean_density(supply, fresh=True)
    assert store is not None
    if weakest is None:
        yield case.not_checked("supply", "supply.rated_parts")
        return
    if density is None:
        yield case.not_checked("supply", "supply.filling_ratio")
        return
    pressure = cylinder_pressure(store.highest, density)
    if pressure <= weakest.rating:
        return
    reached = temperature_at_pressure(density, weakest.rating)
    stated = supply.filling_ratio
    by_mass = stated is not None and density > stated.si
    filled = show(density, "density", "g/mL")
    if by_mass and stated is not None:
        filled = f"mass and water capacity make {filled}, the card states {stated.text}"
    else:
        filled = f"{filled} filled"
    limit = show(weakest.rating, "pressure")
    at = f", reached at {show(reached, 'temperature')}" if reached is not None else ""
    candidates = []
    too_full = bool(overfills(supply))
    if reached is not None and not too_full:
        cooler = f"{math.floor(reached - 273.15) - 1} degC"
        lowest = min(store.lowest, reached - 2.0)
        span = {"lowest": show(lowest, "temperature"), "highest": cooler}
        candidates.append(
            case.candidate(
                f"keep the store at {cooler} or below, or exchange the {weakest.name} for one of "
                f"{math.ceil(pressure / 1e5)} bar or more",
                case.change("supply.store_temperature", span),
            )
        )
    yield case.finding(
        "supply.store_temperature",
        "stop",
        f"at {show(store.highest, 'temperature')} the cylinder is at "
        f"{show(pressure, 'pressure')} ({filled}), its weakest "
        f"part, the {weakest.name}, withstands {limit}{at} (margin "
        f"{show(weakest.rating - pressure, 'pressure')})",
        found=bar(pressure),
        limit=bar(weakest.rating),
        remedy="keep it cool and send it back: no other part makes up for an overfilled cylinder"
        if too_full
        else f"shade the store, or exchange the {weakest.name}",
        candidates=candidates,
        also=(case.at(case.documents["supply"], weakest.path),),
        cautions=("pressure", "asphyxiation"),
    )
