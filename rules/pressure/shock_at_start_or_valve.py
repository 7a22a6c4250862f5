"""The column is spared sudden rises of pressure.

Reason
    A bed of wide-pore or chiral particles is packed softly and cracks or settles when the
    pressure jumps: at the start of the flow, or at a step up of the flow in the programme. A
    step down is no harm.

Unsound
    kind: column
    phase: immobilised polysaccharide
    ---
    kind: method
    flow_ramp: 5 s  # <- here

Unsound, because the flow jumps in the programme
    kind: method
    programme:
      - {time: 0 min, modifier_share: 20 % v/v, flow: 0.4 mL/min}
      - {time: 2 min, modifier_share: 20 % v/v, flow: 1.6 mL/min, step: true}  # <- here

Sound
    kind: column
    phase: immobilised polysaccharide
    ---
    kind: method
    flow_ramp: 60 s

Sound, because the column card allows it
    kind: column
    phase: immobilised polysaccharide
    fast_pressurising: true

Remedy
    Let the flow rise by no more than 0.5 mL/min in 10 s on columns up to 4.6 mm, on wider ones
    by as much more as their cross-section is larger; make steps of the flow into ramps.

Source
    50 bar/s, a fifth of the rating, and 0.5 mL/min in 10 s on 4.6 mm: common practice, no source.
"""

import math
from collections.abc import Iterator

from methodlint.judging.ask.column import steepest_rise
from methodlint.judging.ask.flow import filled_rows
from methodlint.judging.ask.rule import Finding, NotChecked, RunCase, When, bar, show

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("run", "column.phase")

_SOFT = (
    "coated polysaccharide",
    "immobilised polysaccharide",
    "brush-type chiral",
    "macrocyclic chiral",
)
_STEP = 50e5
_OF_RATING = 0.2
_RAMP = 0.05 / 6e7
_ANALYTICAL = 4.6e-3
_SLACK = 1.0001


def applies(case: RunCase) -> bool:
    """A column whose card allows pressure steps needs no care."""
    return case.column is None or not case.column.fast_pressurising


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Look at the start of the flow and at steps inside the run."""
    yield from _start(case)
    yield from _steps(case)


def _start(case: RunCase) -> Iterator[Finding | NotChecked]:
    phase = case.get("column.phase")
    flow = float(case.run.set_flow[0])
    ramp = case.get("method.flow_ramp")
    rate = _RAMP * _wider(case)
    needed = flow / rate
    if phase not in _SOFT or flow <= 0.0:
        return
    if ramp is None:
        why = f"how fast the flow rises on a column of the phase '{phase}'"
        yield case.not_checked("method.flow_ramp", "method.flow_ramp", why)
        return
    if ramp.si * _SLACK >= needed:
        return
    text = f"{math.ceil(needed - 1e-6)} s"
    yield case.finding(
        "method.flow_ramp",
        "caution",
        f"the flow rises to {show(flow, 'volume flow', 'mL/min')} in "
        f"{show(ramp.si, 'time', 's')} on a column of the phase "
        f"'{phase}'; {show(10.0 * rate, 'volume flow', 'mL/min')} in 10 s take {text}",
        when=When(0.0, 0.0),
        remedy=f"let the flow rise over {text}",
        candidates=[
            case.candidate(f"let the flow rise over {text}", case.change("method.flow_ramp", text))
        ],
        also=(case.at("column.phase"),),
    )


def _wider(case: RunCase) -> float:
    # A bed bears the velocity, not the flow: a preparative column takes the flow of its area.
    diameter = case.get("column.inner_diameter")
    return max((diameter.si / _ANALYTICAL) ** 2, 1.0) if diameter is not None else 1.0


def _steps(case: RunCase) -> Iterator[Finding]:
    run = case.run
    rise = steepest_rise(run)
    rating = case.get("column.pressure_rating")
    limit = min(_STEP, _OF_RATING * rating.si) if rating else _STEP
    if rise.value <= limit or case.method is None:
        return
    rows = [row for row in filled_rows(case.method) if row.time <= rise.time + 1.0]
    index = rows[-1].index if rows else None
    where = "method.flow" if index is None else f"method.programme[{index}]"
    yield case.finding(
        where,
        "caution",
        f"the pressure at the column inlet rises by {show(rise.value, 'pressure')} within a "
        f"second at {show(rise.time, 'time', 'min')}; {show(limit, 'pressure')} are harmless",
        found=bar(rise.value),
        limit=bar(limit),
        band=bar(rise.band),
        when=When(rise.time, rise.time + 1.0),
        remedy="make the step into a ramp of half a minute",
        also=(case.at("column.pressure_rating"),),
    )
