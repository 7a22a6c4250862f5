"""The pump with the smaller part of the flow still meters it accurately.

Reason
    Two per cent of 1 mL/min are 0.02 mL/min, the least that many pumps meter well; below it the
    composition wanders and retention with it. At 90 % modifier it is the CO2 pump that has the
    small part.

Unsound
    kind: method
    flow: 1.0 mL/min
    programme:
      - {time: 0 min, modifier_share: 1 % v/v}  # <- here
      - {time: 5 min, modifier_share: 40 % v/v}

Sound
    kind: method
    flow: 1.0 mL/min
    programme:
      - {time: 0 min, modifier_share: 3 % v/v}
      - {time: 5 min, modifier_share: 40 % v/v}

Sound, because a pump that stands still in a hold of pure CO2 has nothing to meter
    kind: method
    flow: 1.0 mL/min
    programme:
      - {time: 0 min, modifier_share: 0 % v/v}
      - {time: 5 min, modifier_share: 40 % v/v}

Put right
    Begin with a little more of the smaller stream, or raise the flow.

Source
    Limit: the instrument card. Customary spans 0.02 to 0.05 mL/min: common practice, no source.
"""

import math
from collections.abc import Iterator

from methodlint.judging.for_rules import (
    Candidate,
    FilledRow,
    Finding,
    NotChecked,
    RunCase,
    When,
    filled_rows,
    missing_setting,
    ml_per_min,
    number,
    show,
)

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("instrument",)

_TOLERANCE = 1e-9
_ROUND = 0.005  # shares are proposed in halves of a per cent


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Look at the least part that each pump has to meter at any row."""
    assert case.method is not None
    every = filled_rows(case.method)
    lacks = missing_setting(every, "flow", "modifier_share")
    if lacks is not None:
        yield case.not_checked("method", lacks)
    rows = [row for row in every if row.flow and row.share is not None]
    for name, card in (("modifier", "modifier_pump"), ("CO2", "co2_pump")):
        running = [row for row in rows if _part(name, row) > 0.0]
        if not running:
            continue
        hard = case.get(f"instrument.{card}.lowest_flow")
        accurate = case.get(f"instrument.{card}.lowest_accurate_flow") or hard
        if accurate is None:
            # Only the pump with the smaller part can be too slow in practice.
            if any(_part(name, row) < 0.5 * (row.flow or 0.0) for row in running):
                yield case.not_checked("instrument", f"instrument.{card}.lowest_accurate_flow")
            continue
        slow = [row for row in running if _part(name, row) < accurate.si * (1 - _TOLERANCE)]
        if slow:
            yield _too_slow(case, name, card, slow, accurate.si, hard.si if hard else 0.0)


def _part(name: str, row: FilledRow) -> float:
    share, flow = row.share or 0.0, row.flow or 0.0
    return flow * share if name == "modifier" else flow * (1.0 - share)


def _too_slow(
    case: RunCase, name: str, card: str, slow: list[FilledRow], accurate: float, hard: float
) -> Finding:
    row = min(slow, key=lambda row: _part(name, row))
    flow, total = _part(name, row), row.flow or 0.0
    beyond = flow < hard * (1 - _TOLERANCE)
    limit = hard if beyond else accurate
    said = "is the least it delivers at all" if beyond else "is the least it meters accurately"
    return case.finding(
        row.places["modifier_share"],
        "fault" if beyond else "caution",
        f"the {name} pump has to meter {show(flow, 'volume flow')} at "
        f"{show(row.time, 'time', 'min')} ({number(100.0 * flow / total, 2)} % of "
        f"{show(total, 'volume flow')}); {show(limit, 'volume flow')} {said}: "
        f"{show(limit - flow, 'volume flow')} too little; at this flow it meters from "
        f"{number(100.0 * accurate / total, 2)} %",
        found=ml_per_min(flow),
        limit=ml_per_min(limit),
        when=When(row.time, row.time),
        remedy="give the smaller stream a larger share, or raise the flow",
        candidates=_candidates(case, name, slow, accurate),
        also=(case.at(f"instrument.{card}"),),
    )


def _candidates(
    case: RunCase, name: str, slow: list[FilledRow], accurate: float
) -> list[Candidate]:
    changes = {}
    for row in slow:
        needed = math.ceil(accurate / (row.flow or accurate) / _ROUND - 1e-6) * _ROUND
        share = needed if name == "modifier" else 1.0 - needed
        changes[row.places["modifier_share"]] = f"{100.0 * share:.4g} % v/v"
    if len(set(changes.values())) == 1:
        text = f"set the modifier to {next(iter(changes.values()))}"
    else:
        text = "set the modifier to " + ", ".join(changes.values()) + " at the rows named"
    found = [case.candidate(text, *(case.change(*item) for item in changes.items()))]
    places = {row.places["flow"] for row in slow}
    if len(places) == 1:
        row = min(slow, key=lambda row: _part(name, row))
        faster = math.ceil((row.flow or 0.0) * accurate / _part(name, row) * 6e8) / 10.0
        change = case.change(places.pop(), f"{faster:g} mL/min")
        found.append(case.candidate(f"raise the flow to {faster:g} mL/min", change))
    return found
