"""Vessels of flammable fractions are kept under gas that does not burn, or are not in the room.

Reason
    While CO2 runs it fills the head of a vessel. When a vessel is changed or the run has ended air
    comes in, and above its flash point a solvent gives a mixture that burns.

Unsound
    kind: method
    purpose: preparative
    collection: {fractions: [{begins: 2 min, ends: 3 min}]}
    ---
    kind: instrument
    collector: {kind: open bed, vessel_capacity: 250 mL, inerted: false}  # <- here

Sound
    kind: method
    purpose: preparative
    collection: {fractions: [{begins: 2 min, ends: 3 min}]}
    ---
    kind: instrument
    collector: {kind: open bed, vessel_capacity: 250 mL, inerted: true}

Remedy
    Keep the vessels under CO2 or nitrogen until they are closed with a vented cap, earth metal
    vessels, keep sources of ignition away. Local codes decide.

Source
    Flash points as given with each liquid. Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.liquids import components_of, find_liquid
from methodlint.judging.ask.rule import BatchCase, Finding, celsius, show

SUBJECT = "batch"
CLASSES = ("caution",)
NEEDS = ("instrument.collector.inerted", "room.highest_temperature")


def applies(case: BatchCase) -> bool:
    """Fractions are collected."""
    methods = [run.method for run in case.runs.values()]
    return any(method is not None and method.collection is not None for method in methods)


def judge(case: BatchCase) -> Iterator[Finding]:
    """Compare the lowest flash point of the modifiers with the warmest room."""
    if case.get("instrument.collector.inerted"):
        return
    warmest = case.get("room.highest_temperature").si
    found = []
    for run in case.runs.values():
        modifier = run.method_liquid()
        for name, _ in components_of(modifier) if modifier is not None else ():
            liquid = find_liquid(name)
            if liquid is not None and liquid.flash_point is not None:
                found.append((liquid.flash_point, liquid.name))
    lowest = min(found, default=None)
    if lowest is None or lowest[0] > warmest:
        return
    yield case.finding(
        "instrument.collector.inerted",
        "caution",
        f"fractions of {lowest[1]} (flash point {show(lowest[0], 'temperature')}) stand open in a "
        f"room of up to {show(warmest, 'temperature')}: with air above them they can be lit",
        found=celsius(warmest),
        limit=celsius(lowest[0]),
        remedy="keep the vessels under CO2 or nitrogen until they are closed",
        cautions=("flammable",),
    )
