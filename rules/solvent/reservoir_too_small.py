"""Every bottle is enough for the sequence and lets its liquid go.

Reason
    A pump that draws air loses its prime in the middle of the night: the modifier is missing from
    then on, the pressure trips, and the rest of the sequence is lost. So does a pump on a sealed
    bottle, which draws a vacuum, and one on a liquid full of air, which comes out in its head.

Unsound
    kind: solvents
    bottles:
      - {line: modifier-1, liquid: methanol, fill: 150 mL, dead_volume: 60 mL}  # <- here

Unsound, because no air follows what is drawn
    kind: solvents
    bottles:
      - {line: modifier-1, liquid: methanol, fill: 900 mL, dead_volume: 60 mL, vented: false}  # <- here

Sound
    kind: solvents
    bottles:
      - {line: modifier-1, liquid: methanol, fill: 900 mL, dead_volume: 60 mL}

Sound, because air or nitrogen follows
    kind: solvents
    bottles:
      - {line: modifier-1, liquid: methanol, fill: 900 mL, dead_volume: 60 mL, vented: true, degassed: true}

Remedy
    Fill the bottle to the volume that the message gives, or name the pause in which it is filled
    up again: `{kind: idle, duration: 10 min, refills: [modifier-1]}`.

Source
    The volumes are added up from the method and the sequence. The band of 2 % for what a pump
    delivers, and the tenth more that is proposed where the lab sets no reserve: common practice, no
    source.
"""

import math
from collections.abc import Iterator

from methodlint.judging.ask.liquids import role_of
from methodlint.judging.ask.rule import (
    BatchCase,
    Candidate,
    Finding,
    NotChecked,
    When,
    judge_limit,
    millilitres,
    show,
)
from methodlint.judging.ask.sequence import BottleUse, bottle_uses

SUBJECT = "batch"
CLASSES = ("fault", "caution")
NEEDS = ("batch", "solvents.bottles")

_RESERVE = 0.1
_STEP = 50e-6


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Compare what each bottle has to give with what can be drawn from it."""
    solvents = case.documents["solvents"]
    uses, missing = bottle_uses(case.batch, solvents, case.documents.get("instrument"))
    for item in missing:
        place = case.at(item.document or solvents)
        yield case.not_checked(place, item.where, "no bottle is on that line")
    for use in uses:
        if use.need <= 0.0 and not any(
            "wash_volume" in lack or "uses" in lack for lack in use.lacking
        ):
            continue
        at = f"solvents.bottles[{use.index}]"
        yield from _held_back(case, use, at)
        if use.lacking or use.usable is None:
            for lack in use.lacking:
                yield case.not_checked(at, lack)
            continue
        verdict = judge_limit(use.most_between_refills, use.usable, use.band, "fault")
        if verdict is None:
            continue
        yield case.finding(
            f"{at}.fill",
            verdict.grade,
            _message(use, possible=verdict.possible),
            found=millilitres(use.most_between_refills),
            limit=millilitres(use.usable),
            band=millilitres(use.band),
            when=_when(use),
            possible=verdict.possible,
            remedy=f"fill it to {_fill(case, use)}",
            candidates=_candidates(case, use),
            also=(case.line_at(use.dry_line),) if use.dry_line is not None else (),
        )


def _held_back(case: BatchCase, use: BottleUse, at: str) -> Iterator[Finding]:
    """A bottle that draws a vacuum, or gives off air."""
    line, role = use.bottle.line, role_of(use.bottle)
    if use.bottle.vented is False:
        yield case.finding(
            f"{at}.vented",
            "fault",
            f"the bottle on {line} is sealed: {show(use.most_between_refills, 'volume')} are drawn "
            "from it, and nothing follows",
            remedy="fit a cap with a vent that lets air or nitrogen in and keeps vapour back",
        )
    if use.bottle.degassed is False and role in ("modifier", "makeup"):
        yield case.finding(
            f"{at}.degassed",
            "caution",
            f"the liquid on {line} is not degassed: air comes out in the pump's head and shows in "
            "flow and baseline",
            remedy="degas it in line, or before the start",
        )


def _number(use: BottleUse) -> int | None:
    return use.runs_dry if use.runs_dry is not None else use.early


def _when(use: BottleUse) -> When | None:
    number = _number(use)
    return None if number is None else When(injection=number or None)


def _message(use: BottleUse, *, possible: bool) -> str:
    number = _number(use)
    when = f"during injection {number}" if number else "before the first injection"
    parts = ", ".join(f"{show(volume, 'volume')} {name}" for name, volume in use.parts.items())
    usable = use.usable or 0.0
    over = use.most_between_refills - usable
    names = " + ".join(part.liquid for part in use.bottle.liquids) or use.bottle.liquid or "liquid"
    return (
        f"{names} on {use.bottle.line} {'may run' if possible else 'runs'} dry {when}: "
        f"{show(use.most_between_refills, 'volume')} are needed ({parts}), "
        f"{show(usable, 'volume')} can be drawn: "
        f"{show(abs(over), 'volume')} {'short' if over > 0.0 else 'left'} "
        f"(band {show(use.band, 'volume')})"
    )


def _fill(case: BatchCase, use: BottleUse) -> str:
    dead = use.bottle.dead_volume.si if use.bottle.dead_volume else 0.0
    policy = case.policy.bottle_reserve
    reserve = _RESERVE if policy is None else policy.si
    wanted = (1.0 + reserve) * use.most_between_refills + dead
    return f"{math.ceil(wanted / _STEP) * _STEP * 1e6:.0f} mL"


def _candidates(case: BatchCase, use: BottleUse) -> list[Candidate]:
    change = case.change(f"solvents.bottles[{use.index}].fill", _fill(case, use))
    return [case.candidate(f"fill the bottle on {use.bottle.line} to {_fill(case, use)}", change)]
