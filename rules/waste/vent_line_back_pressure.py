"""The vent line is wide enough for the gas of all instruments on it.

Reason
    Pressure in the vent line pushes liquid out of the separator, shifts the source of a mass
    spectrometer and can lift a cap. A low loop in which liquid collects does the same in bursts.

Unsound
    kind: instrument
    vent_line: {length: 5 m, bore: 1 mm}  # <- here

Sound
    kind: instrument
    vent_line: {length: 3 m, bore: 8 mm}

Remedy
    Use a wider or shorter line, without low loops; the message gives the bore.

Source
    Isothermal flow of gas in a tube: Perry's Chemical Engineers' Handbook, section 6. 0.3 bar:
    common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.room import vent_loss
from methodlint.judging.ask.rule import Candidate, Finding, RunCase, bar, number, show

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("flows", "instrument.vent_line")

_LIMIT = 0.3e5
_BORES = (3, 4, 6, 8, 10, 12, 15, 20, 25)


def judge(case: RunCase) -> Iterator[Finding]:
    """Compute the loss at the highest flow of CO2, other instruments on the line included."""
    line = case.get("instrument.vent_line")
    own = float(case.run.co2_mass_flow.max())
    other = line.others.si if line.others is not None else 0.0
    if line.length.si <= 0.0 or line.bore.si <= 0.0:
        return
    lost = vent_loss(own + other, line.length.si, line.bore.si)
    if lost.loss > _LIMIT:
        shared = f", {show(other, 'mass flow')} of it from other instruments" if other else ""
        yield case.finding(
            "instrument.vent_line.bore",
            "caution",
            f"{show(own + other, 'mass flow')} of CO2 gas{shared} "
            f"({number(lost.gas_flow * 6e4, 2)} L/min) loses {'at least ' if lost.choked else ''}"
            f"{show(lost.loss, 'pressure')} in "
            f"{show(line.length.si, 'length')} of {show(line.bore.si, 'length', 'mm')} bore, "
            f"{show(_LIMIT, 'pressure')} are usual: {show(lost.loss - _LIMIT, 'pressure')} too much"
            + ("; at the open end it chokes at the speed of sound" if lost.choked else ""),
            found=bar(lost.loss),
            limit=bar(_LIMIT),
            remedy="use a wider or shorter vent line",
            candidates=_candidates(case, own + other, line.length.si, line.bore.si),
        )
    elif line.collects_liquid:
        yield case.finding(
            "instrument.vent_line.collects_liquid",
            "caution",
            "liquid collects in a low loop of the vent line and blocks the gas until it is "
            "pushed out in a burst",
            remedy="lay the line so that it falls all the way",
            candidates=[
                case.candidate(
                    "lay the line so that it falls all the way",
                    case.change("instrument.vent_line.collects_liquid", False),
                )
            ],
        )


def _candidates(case: RunCase, flow: float, length: float, bore: float) -> list[Candidate]:
    found = []
    for wide in _BORES:
        if wide * 1e-3 > bore and vent_loss(flow, length, wide * 1e-3).loss <= _LIMIT:
            change = case.change("instrument.vent_line.bore", f"{wide} mm")
            found.append(case.candidate(f"replace the vent line by one of {wide} mm bore", change))
    return found[:2]
