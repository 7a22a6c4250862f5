"""Both ovens of a transfer keep the column in the same kind of air.

Reason
    A mobile phase that expands cools. In still air the column is nearly adiabatic, and its outlet
    gets cooler than the oven; in forced air the wall keeps the oven's temperature while the axis
    cools, and peaks broaden. The same method then retains and separates differently.

Unsound
    kind: method
    transferred_from: assay
    oven_temperature: 60 degC
    outlet_pressure: 130 bar
    flow: 1.2 mL/min
    mobile_phase: {modifier_share: 3 % v/v}
    programme: []
    runs_on: [bench-two]
    ---
    kind: method
    x-name: assay
    oven_temperature: 60 degC
    outlet_pressure: 130 bar
    flow: 1.2 mL/min
    mobile_phase: {modifier_share: 3 % v/v}
    programme: []
    runs_on: [bench-one]
    ---
    kind: instrument
    x-name: bench-one
    oven: {air: still}
    ---
    kind: instrument
    x-name: bench-two
    oven: {air: forced}  # <- here

Sound
    kind: method
    transferred_from: assay
    runs_on: [bench-two]
    ---
    kind: method
    x-name: assay
    runs_on: [bench-one]
    ---
    kind: instrument
    x-name: bench-one
    oven: {air: still}
    ---
    kind: instrument
    x-name: bench-two
    oven: {air: still}

Remedy
    Raise the outlet pressure until the column hardly cools, or confirm resolution and plates in
    the ovens' other air.

Source
    Cooling by decompression, most at little modifier: De Pauw, Choikhet, Desmet and Broeckhoven,
    J. Chromatogr. A 1365 (2014) 212 (abstract only). Loss of plates in forced air: work on columns
    in different thermal environments (unverified). From 1 K of cooling on: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.column import greatest_cooling
from methodlint.judging.ask.rule import Finding, Measure, RunCase

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("run", "source.run")

_WORTH = 1.0


def applies(case: RunCase) -> bool:
    """Both cards say what air the column is in, and they differ."""
    if not case.transferred or case.source is None:
        return False
    here, there = case.get("instrument.oven.air"), case.source.get("instrument.oven.air")
    return here is not None and there is not None and here != there


def judge(case: RunCase) -> Iterator[Finding]:
    """Look how far the column cools where no heat comes in."""
    assert case.source is not None
    fall = max((greatest_cooling(one).value for one in (case.run, case.source.run)), default=0.0)
    if fall <= _WORTH:
        return
    yield case.finding(
        "instrument.oven.air",
        "caution",
        f"the column is in {case.get('instrument.oven.air')} air, that of the source in "
        f"{case.source.get('instrument.oven.air')} air, and the mobile phase cools by up to "
        f"{fall:.1f} K on its way: retention and plates differ (unverified)",
        found=Measure(fall, "K"),
        limit=Measure(_WORTH, "K"),
        remedy="confirm resolution and plates on this bench before it is used",
        also=(case.source.at("instrument.oven.air"),),
    )
