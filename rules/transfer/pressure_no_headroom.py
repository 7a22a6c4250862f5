"""A transferred method leaves a tenth of every pump envelope and rating unused.

Reason
    Columns age and filters clog: a method that starts at the limit stops in its first month.
    A transfer is the moment to see that, because flow and times can still be scaled together.

Unsound
    kind: method
    transferred_from: assay-on-strong-bench
    flow: 1.5 mL/min  # <- here
    ---
    kind: method
    x-name: assay-on-strong-bench
    runs_on: [strong-bench]
    ---
    kind: instrument
    x-name: strong-bench
    ---
    kind: instrument
    co2_pump: {pressure_rating: 310 bar, envelope: [{flow: 5 mL/min, pressure: 310 bar}]}

Sound
    kind: method
    transferred_from: assay-on-strong-bench
    ---
    kind: method
    x-name: assay-on-strong-bench
    runs_on: [strong-bench]
    ---
    kind: instrument
    x-name: strong-bench
    ---
    kind: instrument
    co2_pump: {pressure_rating: 420 bar, envelope: [{flow: 5 mL/min, pressure: 420 bar}]}

Remedy
    Lower the flow and lengthen every time by the same factor, or take a shorter column. Silent
    where the source itself ran that high and the target withstands at least as much.

Source
    Nine tenths: common practice, no source. Limits: instrument and column card.
"""

from collections.abc import Iterator

from methodlint.judging.ask.pressure import slower_and_longer
from methodlint.judging.ask.rule import Finding, RunCase, When, bar, show
from methodlint.judging.ask.transfer import loads_beyond, loads_of

SUBJECT = "run"
CLASSES = ("fault",)
NEEDS = ("run", "source.run")
CAUSES = ("pressure.pump-envelope-exceeded", "pressure.component-rating-exceeded")

_FACTORS = (0.95, 0.9, 0.85, 0.8, 0.7, 0.6, 0.5)


def applies(case: RunCase) -> bool:
    """Only transfers are asked for headroom; every run is asked for its ratings elsewhere."""
    return case.transferred


def judge(case: RunCase) -> Iterator[Finding]:
    """Hold the worst moment of every part against nine tenths of what it stands."""
    assert case.source is not None
    beyond = loads_beyond(loads_of(case.run), loads_of(case.source.run))
    near = [(load, allowed) for load, allowed in beyond if load.pressure <= load.limit]
    if not near:
        return
    load, allowed = near[0]
    factor = (allowed - load.floor) / max(load.pressure - load.floor, 1.0)
    length = case.comparison.beds[1].length
    column = case.get("column.length")
    shorter = f", or a column of {show(length * factor, 'length', 'mm')}" if column else ""
    yield case.finding(
        "method.flow" if case.get("method.flow") is not None else "method.programme",
        "fault",
        f"{load.name} sees {show(load.pressure, 'pressure')} (band +{show(load.band, 'pressure')}) at "
        f"{show(load.time, 'time', 'min')}, it withstands {show(load.limit, 'pressure')}; "
        f"{show(allowed, 'pressure')} keeps nine tenths and the band",
        found=bar(load.pressure),
        limit=bar(allowed),
        band=bar(load.band),
        when=When(load.time, load.time),
        remedy=f"run at about {100 * factor:.0f} % of the flow with times x {1.0 / factor:.2f}{shorter}",
        candidates=[slower_and_longer(case, part) for part in _FACTORS if part <= factor * 1.02],
        cautions=("pressure",),
    )
