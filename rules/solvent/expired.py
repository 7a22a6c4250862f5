"""No bottle expires before the sequence ends.

Reason
    Additives evaporate, react or grow over: an acid turns into an ester of its alcohol and ammonia
    is lost within a week, a salt or an amine keeps for a month, an aqueous buffer grows within
    days. The last injections then run with something else than the first.

Unsound
    kind: solvents
    bottles:
      - line: modifier-1
        liquid: methanol
        fill: 900 mL
        expires: 2026-11-23  # <- here

Sound
    kind: solvents
    bottles:
      - {line: modifier-1, liquid: methanol, fill: 900 mL, expires: 2027-10-31}

Remedy
    Prepare the bottle afresh before the start.

Source
    7 days for acids in alcohols and for ammonia, 30 days for other additives and 3 days for
    aqueous buffers, where the lab sets none: common practice, no source.
"""

import datetime
from collections.abc import Iterator

from methodlint.judging.ask.document import Bottle
from methodlint.judging.ask.liquids import (
    Additive,
    components_of,
    find_additive,
    find_liquid,
    role_of,
)
from methodlint.judging.ask.rule import BatchCase, Finding, NotChecked, When
from methodlint.judging.ask.sequence import bottle_uses, clock_at

SUBJECT = "batch"
CLASSES = ("caution",)
NEEDS = ("batch", "solvents.bottles", "sequence.begins")

_ADDITIVE_DAYS = 30
_UNSTABLE_DAYS = 7
_AQUEOUS_DAYS = 3
_AQUEOUS = 0.5
_CENTURY = 36_525


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Compare the last good day of every bottle with the end of the sequence."""
    begins = case.get("sequence.begins")
    ends = clock_at(begins, case.batch.duration)
    used = _used(case)
    for index, bottle in enumerate(case.solvents.bottles if case.solvents else ()):
        if index not in used:
            continue
        at = f"solvents.bottles[{index}]"
        last, why = bottle.expires, "its last day is"
        if last is None:
            days = _days(case, index)
            if days is None:
                continue
            if bottle.opened is None:
                yield case.not_checked(at, f"{at}.opened", "neither expiry nor opening is dated")
                continue
            last = bottle.opened + datetime.timedelta(days=min(days, _CENTURY))
            why = f"opened {bottle.opened} and good for {days} days, to"
        if last >= ends.date():
            continue
        past = datetime.datetime.combine(last, datetime.time.max, begins.tzinfo)
        number = _first_after(case, (past - begins).total_seconds())
        yield case.finding(
            f"{at}.expires" if bottle.expires else f"{at}.opened",
            "caution",
            f"{bottle.line} is past its time from injection {number} on: {why} {last}, the "
            f"sequence ends {ends.date()}",
            when=When(injection=number),
            remedy="prepare it afresh before the start",
        )


def _days(case: BatchCase, index: int) -> int | None:
    """Shelf life of a bottle without an expiry date; None for neat liquids."""
    bottle = case.get(f"solvents.bottles[{index}]")
    water = sum(share for name, share in components_of(bottle) if name == "water")
    additives = [find_additive(level.additive) for level in bottle.additives]
    if not any(additive is None or additive.kind != "water" for additive in additives):
        return None
    if water >= _AQUEOUS:
        aqueous = case.policy.aqueous_shelf_life
        return int(aqueous.si // 86400) if aqueous is not None else _AQUEOUS_DAYS
    life = case.get("solvents.additive_shelf_life") or case.policy.additive_shelf_life
    if life is not None:
        return int(life.si // 86400)
    return _UNSTABLE_DAYS if _is_lost(bottle, additives) else _ADDITIVE_DAYS


def _is_lost(bottle: Bottle, additives: list[Additive | None]) -> bool:
    """Whether an additive is unknown, evaporates, or turns into an ester of its alcohol."""
    liquids = [find_liquid(name) for name, _ in components_of(bottle)]
    alcohol = any(liquid is None or liquid.family == "alcohol" for liquid in liquids)
    return any(
        additive is None or additive.kind == "ammonia" or (additive.kind == "acid" and alcohol)
        for additive in additives
    )


def _used(case: BatchCase) -> set[int]:
    """Bottles that the sequence draws from; all of them where that cannot be told."""
    uses, missing = bottle_uses(
        case.batch, case.documents["solvents"], case.documents.get("instrument")
    )
    washes = ("wash", "seal wash")
    return {use.index for use in uses if missing or use.need > 0.0 or role_of(use.bottle) in washes}


def _first_after(case: BatchCase, moment: float) -> int:
    """Number of the first injection that starts after a moment [s] of the sequence."""
    starts = case.batch.injection_starts
    for number, (_, clock, _) in enumerate(starts, start=1):
        if clock > moment:
            return number
    return len(starts)
