"""What the bottles at a bench are for: by the role that is written, else by the name of the line."""

from __future__ import annotations

import re
from collections.abc import Iterable

from methodlint.documents.kinds.method import Makeup
from methodlint.documents.kinds.solvents import Bottle, BottleRole

__all__ = ["bottle_on", "makeup_bottle", "role_of", "washes_in_turn"]

_BY_NAME: tuple[tuple[re.Pattern[str], BottleRole], ...] = (
    (re.compile(r"seal.*(wash|rinse)"), "seal wash"),
    (re.compile(r"wash|rinse|^w-?\d*$"), "wash"),
    (re.compile(r"^make-?up"), "makeup"),
    (re.compile(r"^modifier"), "modifier"),
    (re.compile(r"^flush"), "flush"),
    (re.compile(r"^storage"), "storage"),
)


def role_of(bottle: Bottle) -> BottleRole | None:
    """Role of a bottle; None where it has none and its line's name tells none."""
    if bottle.role is not None:
        return bottle.role
    name = _plain(bottle.line)
    return next((role for pattern, role in _BY_NAME if pattern.search(name)), None)


def _plain(line: str) -> str:
    return re.sub(r"[\s_]+", "-", line.strip().casefold())


_TURNS = ("strong-wash", "wash", "needle-wash", "weak-wash")


def washes_in_turn(bottles: Iterable[Bottle]) -> tuple[tuple[int, Bottle], ...]:
    """Needle washes with their numbers, in the order in which they wash.

    By the names of their lines; those of other names wash where `wash` does, in the order of the
    list.
    """

    def turn(item: tuple[int, Bottle]) -> int:
        name = _plain(item[1].line)
        return _TURNS.index(name) if name in _TURNS else _TURNS.index("wash")

    washes = [(index, one) for index, one in enumerate(bottles) if role_of(one) == "wash"]
    return tuple(sorted(washes, key=turn))


def bottle_on(bottles: Iterable[Bottle], line: str) -> int | None:
    """Number of the first bottle on a line; None without one."""
    return next((index for index, one in enumerate(bottles) if one.line == line), None)


def makeup_bottle(bottles: Iterable[Bottle], makeup: Makeup) -> int | None:
    """Number of the bottle that a makeup comes from; None if it cannot be told.

    The one on the line that the method names; without such a line that on `makeup`, else the only
    bottle of that role.
    """
    bottles = tuple(bottles)
    named = bottle_on(bottles, makeup.line or "makeup")
    if named is not None or makeup.line is not None:
        return named
    served = [index for index, one in enumerate(bottles) if role_of(one) == "makeup"]
    return served[0] if len(served) == 1 else None
