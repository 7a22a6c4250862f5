"""Every pump stays below the highest flow that its card gives, at every composition.

Reason
    The two pumps share the total flow by composition, so each has its own busiest moment. A pump
    that cannot follow delivers less than is set, and composition and retention drift unnoticed.

Unsound
    kind: method
    flow: 6.0 mL/min  # <- here

Sound
    kind: method
    flow: 4.0 mL/min

Remedy
    Lower the flow at that row, or run on an instrument whose pumps reach further. What a pump
    cannot meter at the lower end is the matter of flow.minor-pump-too-slow.

Source
    Limit: the instrument card. Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.flow import FilledRow, filled_rows, missing_setting
from methodlint.judging.ask.rule import (
    Candidate,
    Finding,
    NotChecked,
    RunCase,
    When,
    ml_per_min,
    show,
)

SUBJECT = "run"
CLASSES = ("fault",)
NEEDS = ("instrument",)
CAUSES = ("pressure.pump-envelope-exceeded",)

_TOLERANCE = 1e-9


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare the busiest row of each pump with its highest flow; the makeup pump as well."""
    assert case.method is not None
    rows = filled_rows(case.method)
    lacks = missing_setting(rows, "flow", "modifier_share")
    if lacks is not None:
        yield case.not_checked("method", lacks)
    for name, card in (("CO2", "co2_pump"), ("modifier", "modifier_pump")):
        known = [row for row in rows if row.flow is not None and row.share is not None]
        delivered = [(flow, row) for row in known if (flow := _part(name, row)) > 0.0]
        if not delivered:
            continue
        limit = case.get(f"instrument.{card}.highest_flow")
        if limit is None:
            yield case.not_checked("instrument", f"instrument.{card}.highest_flow")
            continue
        flow, row = max(delivered, key=lambda pair: pair[0])
        if flow > limit.si * (1.0 + _TOLERANCE):
            yield _too_fast(case, name, card, flow, limit.si, row)
    yield from _makeup(case)


def _part(name: str, row: FilledRow) -> float:
    share, flow = row.share or 0.0, row.flow or 0.0
    return flow * share if name == "modifier" else flow * (1.0 - share)


def _too_fast(
    case: RunCase, name: str, card: str, flow: float, limit: float, row: FilledRow
) -> Finding:
    part = flow / (row.flow or flow)
    passes = show(limit / part * 0.995, "volume flow", "mL/min", digits=2)
    return case.finding(
        row.places["flow"],
        "fault",
        f"the {name} pump is asked for {show(flow, 'volume flow')} at "
        f"{show(row.time, 'time', 'min')} ({100.0 * part:.0f} % of "
        f"{show(row.flow or 0.0, 'volume flow')}), it reaches {show(limit, 'volume flow')}: "
        f"{show(flow - limit, 'volume flow')} too much",
        found=ml_per_min(flow),
        limit=ml_per_min(limit),
        when=When(row.time, row.time),
        remedy="lower the flow at this row",
        candidates=_candidates(case, row, passes),
        also=(case.at(f"instrument.{card}.highest_flow"),),
    )


def _candidates(case: RunCase, row: FilledRow, passes: str) -> list[Candidate]:
    change = case.change(row.places["flow"], passes)
    return [case.candidate(f"set the flow there to {passes}", change)]


def _makeup(case: RunCase) -> Iterator[Finding]:
    assert case.method is not None
    makeup = case.method.makeup
    pump = case.instrument.makeup_pump if case.instrument is not None else None
    if makeup is None or pump is None:
        return
    flows = [(row.flow.si, f"makeup.programme[{i}].flow") for i, row in enumerate(makeup.programme)]
    if makeup.flow is not None:
        flows.append((makeup.flow.si, "makeup.flow"))
    for flow, place in flows:
        # A pump that stands still is off, not too slow.
        slow = pump.lowest_flow is not None and 0.0 < flow < pump.lowest_flow.si * (1 - _TOLERANCE)
        fast = pump.highest_flow is not None and flow > pump.highest_flow.si * (1 + _TOLERANCE)
        limit = pump.lowest_flow if slow else pump.highest_flow
        if not (slow or fast) or limit is None:
            continue
        end = "lowest_flow" if slow else "highest_flow"
        yield case.finding(
            f"method.{place}",
            "fault",
            f"the makeup pump is asked for {show(flow, 'volume flow')}, it delivers "
            f"{'from' if slow else 'up to'} {show(limit.si, 'volume flow')}: "
            f"{show(abs(flow - limit.si), 'volume flow')} too {'little' if slow else 'much'}",
            found=ml_per_min(flow),
            limit=ml_per_min(limit.si),
            remedy=f"set {show(limit.si, 'volume flow')}",
            also=(case.at(f"instrument.makeup_pump.{end}"),),
        )
        return
