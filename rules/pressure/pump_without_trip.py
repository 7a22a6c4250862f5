"""A pressure trip stops every pump that can fill the flow path.

Reason
    A trip protects only against pumps that it stops. A makeup pump that joins ahead of the
    regulator and goes on while a plug holds fills the train from the tee back to the cell and
    the column, up to its own highest pressure. A trip at a part is then no guard; a relief is.

Unsound
    kind: method
    makeup: {liquid: methanol, flow: 0.2 mL/min, tee: before the regulator}
    ---
    kind: instrument
    trips: {high_pressure: 345 bar, stops: [CO2 pump, modifier pump]}  # <- here

Sound
    kind: method
    makeup: {liquid: methanol, flow: 0.2 mL/min, tee: before the regulator}
    ---
    kind: instrument
    trips: {high_pressure: 345 bar, stops: [CO2 pump, modifier pump, makeup pump]}

Remedy
    Wire the makeup pump into the trip, or fit a relief at the weak part.

Source
    Ratings: the cards. What a trip stops: the instrument card; common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.pressure import makeup_passes_train, pressures_that_a_plug_reaches
from methodlint.judging.ask.rule import At, Finding, RunCase, bar, show

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("run",)


def applies(case: RunCase) -> bool:
    """The card says what its trips stop, the makeup pump is not among it, and it could fill."""
    stops = case.get("instrument.trips.stops")
    return stops is not None and "makeup pump" not in stops and makeup_passes_train(case.run)


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare what the makeup pump reaches with the weakest part without a relief."""
    pump = case.get("instrument.makeup_pump")
    rated = pressures_that_a_plug_reaches(case.run)
    reached = [part for part in rated if part.rating is not None and not part.relieved]
    if pump is None or not reached:
        return
    weakest = min(reached, key=lambda part: part.rating or 0.0)
    top, own = float(weakest.rating or 0.0), pump.pressure_rating
    if own is not None and own.si <= top:
        return
    reach = f"which reaches {show(own.si, 'pressure')}" if own else "of unknown highest pressure"
    yield case.finding(
        "instrument.trips.stops",
        "fault" if weakest.kind == "column" else "caution",
        f"no trip stops the makeup pump, {reach}; with a plugged regulator it fills the train back "
        f"to the {weakest.name}, rated {show(top, 'pressure')}",
        found=bar(own.si) if own else None,
        limit=bar(top),
        remedy="wire the makeup pump into the trip and add it to `stops`, or fit a relief and "
        f"write it as `relief:` of the {weakest.name}",
        also=(At(weakest.document, weakest.path),),
        cautions=("pressure",),
    )
