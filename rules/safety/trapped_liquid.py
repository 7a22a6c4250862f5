"""A section of the supply line that two valves can shut has a relief.

Reason
    Liquid CO2 that fills a line between two shut valves has no room to expand. Shut in at
    10 degC and 60 bar it is at 124 bar at 20 degC and at 156 bar at 25 degC: about 6.5 bar
    for every degree, until something gives.

Unsound
    kind: supply
    line_sections:
      - {name: yard to bench, pressure_rating: 100 bar, filled_at: 10 degC}  # <- here

Sound
    kind: supply
    line_sections:
      - {name: yard to bench, pressure_rating: 100 bar, filled_at: 10 degC, relief: 90 bar}

Sound, because one of its valves lets the pressure back to the cylinder
    kind: supply
    line_sections:
      - {name: yard to bench, pressure_rating: 100 bar, filled_at: 10 degC, relieves_upstream: true}

Remedy
    Fit a relief valve or a bursting disc that opens below the rating and blows off outdoors, or
    a check valve that lets the pressure back to the cylinder.

Source
    Span and Wagner, J. Phys. Chem. Ref. Data 25, 1509 (1996), at constant density; rigid walls, so
    the pressure is an upper bound.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, NotChecked, bar, show
from methodlint.judging.ask.supply import locked_line

SUBJECT = "batch"
CLASSES = ("stop", "note")
NEEDS = ("supply.line_sections", "room.highest_temperature")


def applies(case: BatchCase) -> bool:
    """No liquid fills the line of a vapour withdrawal."""
    return case.supply is None or case.supply.withdrawal != "vapour"


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Warm every section without relief to the warmest place it can reach."""
    supply = case.supply
    assert supply is not None
    warmest = case.get("room.highest_temperature").si
    if supply.line_temperature is not None:
        warmest = max(warmest, supply.line_temperature.si)
    for index, section in enumerate(supply.line_sections):
        if section.relieves_upstream:
            continue
        place = f"supply.line_sections[{index}]"
        rating, relief = section.pressure_rating, section.relief
        if relief is not None and (rating is None or relief.si <= rating.si):
            continue
        if rating is None:
            yield case.not_checked(place, f"{place}.pressure_rating")
            continue
        locked = locked_line(supply, section, warmest)
        if locked is None:
            yield case.not_checked(place, f"{place}.filled_at")
            continue
        over = locked.pressure > rating.si
        least = "at least " if locked.at_least else ""
        lacks = "no relief" if relief is None else f"a relief at {show(relief.si, 'pressure')} only"
        limit = show(rating.si, "pressure")
        text = f"fit a relief that opens at {limit} or below and blows off outdoors"
        yield case.finding(
            place,
            "stop" if over else "note",
            f"'{section.name}' can be shut in with {lacks}: liquid CO2 closed in at "
            f"{show(locked.closed_temperature, 'temperature')} and "
            f"{show(locked.closed_pressure, 'pressure')} reaches {least}"
            f"{show(locked.pressure, 'pressure')} when it warms to {show(warmest, 'temperature')}; "
            f"rated {limit} (margin {show(rating.si - locked.pressure, 'pressure')})",
            found=bar(locked.pressure),
            limit=bar(rating.si),
            remedy=text,
            candidates=[case.candidate(text, case.change(f"{place}.relief", f"{limit}"))],
            also=(case.at("room.highest_temperature"),),
            cautions=("pressure", "cold"),
        )
