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

Sound, because the CO2 pump has enough to meter at this flow
    kind: method
    flow: 2.5 mL/min
    programme: [{time: 0 min, modifier_share: 20 % v/v}]
    ---
    kind: instrument
    co2_pump: {lowest_flow: 2 mL/min, lowest_accurate_flow: 2 mL/min}

Remedy
    Begin with a little more of the smaller stream, or raise the flow. Where the pump with the
    larger stream is too slow, the flow is too low for this instrument, and another share would be
    another separation.

Source
    Limit: the instrument card. Customary spans 0.02 to 0.05 mL/min: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.flow import (
    FilledRow,
    filled_rows,
    flow_that_meters,
    larger_share_helps,
    missing_setting,
    more_for_pump,
    stream_of,
)
from methodlint.judging.ask.rule import Finding, NotChecked, RunCase, When, ml_per_min, number, show

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("instrument",)

_TOLERANCE = 1e-9


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Look at the least part that each pump has to meter at any row."""
    assert case.method is not None
    every = filled_rows(case.method)
    lacks = missing_setting(every, "flow", "modifier_share")
    if lacks is not None:
        yield case.not_checked("method", lacks)
    rows = [row for row in every if row.flow and row.share is not None]
    for name, card in (("modifier", "modifier_pump"), ("CO2", "co2_pump")):
        running = [row for row in rows if stream_of(name, row) > 0.0]
        if not running:
            continue
        hard = case.get(f"instrument.{card}.lowest_flow")
        accurate = case.get(f"instrument.{card}.lowest_accurate_flow") or hard
        if accurate is None:
            # Only the pump with the smaller part can be too slow in practice.
            if any(stream_of(name, row) < 0.5 * (row.flow or 0.0) for row in running):
                yield case.not_checked("instrument", f"instrument.{card}.lowest_accurate_flow")
            continue
        slow = [row for row in running if stream_of(name, row) < accurate.si * (1 - _TOLERANCE)]
        if slow:
            yield _too_slow(case, name, card, slow, accurate.si, hard.si if hard else 0.0)


def _too_slow(
    case: RunCase, name: str, card: str, slow: list[FilledRow], accurate: float, hard: float
) -> Finding:
    row = min(slow, key=lambda row: stream_of(name, row))
    flow, total = stream_of(name, row), row.flow or 0.0
    beyond = flow < hard * (1 - _TOLERANCE)
    limit = hard if beyond else accurate
    said = "is the least it delivers at all" if beyond else "is the least it meters accurately"
    by_share = larger_share_helps(name, slow, accurate)
    least = (
        f"at this flow it meters from {number(100.0 * accurate / total, 2)} %"
        if by_share
        else f"it meters this share from {number(flow_that_meters(row, name, accurate), 3)} mL/min in all"
    )
    remedy = (
        "give the smaller stream a larger share, or raise the flow"
        if by_share
        else "raise the flow, or run where the pumps meter less"
    )
    return case.finding(
        row.places["modifier_share" if by_share else "flow"],
        "fault" if beyond else "caution",
        f"the {name} pump has to meter {show(flow, 'volume flow')} at "
        f"{show(row.time, 'time', 'min')} ({number(100.0 * flow / total, 2)} % of "
        f"{show(total, 'volume flow')}); {show(limit, 'volume flow')} {said}: "
        f"{show(limit - flow, 'volume flow')} too little; {least}",
        found=ml_per_min(flow),
        limit=ml_per_min(limit),
        when=When(row.time, row.time),
        remedy=remedy,
        candidates=more_for_pump(case, name, slow, accurate),
        also=(case.at(f"instrument.{card}"),),
    )
