"""A cyclone or separator withstands the pressure of its gas at the highest flow.

Reason
    A cyclone lets the gas out through a line. At the flow of a preparative run that line holds
    pressure back, and the vessel, often of glass or plastic, has it on its walls.

Unsound
    kind: instrument
    collector: {kind: cyclone, pressure_rating: 1.1 bar, vent_length: 4 m, vent_bore: 0.5 mm}  # <- here

Sound
    kind: instrument
    collector: {kind: cyclone, pressure_rating: 6 bar, vent_length: 4 m, vent_bore: 12 mm}

Remedy
    Use a wider or shorter gas line, or a vessel with a higher rating and a relief. Local codes on
    pressure equipment decide.

Source
    Isothermal flow of gas in a tube: Perry's Chemical Engineers' Handbook, section 6; a band of
    20 % of the loss: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.room import ATMOSPHERE, vent_loss
from methodlint.judging.ask.rule import Finding, RunCase, bar, judge_limit, number, show

SUBJECT = "run"
CLASSES = ("stop", "caution")
NEEDS = (
    "flows",
    "instrument.collector.pressure_rating",
    "instrument.collector.vent_length",
    "instrument.collector.vent_bore",
)

_BAND = 0.2


def applies(case: RunCase) -> bool:
    """A closed vessel parts gas and liquid; an open bed has no pressure."""
    collector = case.get("instrument.collector")
    return collector is not None and collector.kind != "open bed"


def judge(case: RunCase) -> Iterator[Finding]:
    """Compute the pressure ahead of the gas line at the highest flow of CO2."""
    collector = case.get("instrument.collector")
    if collector.vent_length.si <= 0.0 or collector.vent_bore.si <= 0.0:
        return
    flow = float(case.run.co2_mass_flow.max())
    lost = vent_loss(flow, collector.vent_length.si, collector.vent_bore.si)
    pressure, limit = ATMOSPHERE + lost.loss, collector.pressure_rating.si
    verdict = judge_limit(pressure, limit, _BAND * lost.loss, "stop")
    if verdict is None:
        return
    yield case.finding(
        "instrument.collector.pressure_rating",
        verdict.grade,
        f"at {show(flow, 'mass flow')} of CO2 the {collector.kind or 'collector'} is at "
        f"{'at least ' if lost.choked else ''}{show(pressure, 'pressure')} "
        f"({number(lost.gas_flow * 6e4, 2)} L/min of gas through "
        f"{show(collector.vent_bore.si, 'length', 'mm')} bore); it withstands "
        f"{show(limit, 'pressure')} (band {show(_BAND * lost.loss, 'pressure')})",
        found=bar(pressure),
        limit=bar(limit),
        band=bar(_BAND * lost.loss),
        possible=verdict.possible,
        remedy="use a wider or shorter gas line, or a vessel with a higher rating",
        also=(case.at("instrument.collector.vent_bore"),),
        cautions=("pressure",),
    )
