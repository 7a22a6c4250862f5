"""The columns with their fittings fit into the oven.

Reason
    A column that sticks out of the oven, or is bent into it, is warm at one end only. Columns in
    series lie side by side with a tube between them; a guard sits on the column and adds to it.

Unsound
    kind: instrument
    oven: {length: 160 mm}  # <- here

Sound
    kind: instrument
    oven: {length: 300 mm}

Sound, because a jacket outside the oven heats the column
    kind: instrument
    oven: {length: 100 mm, external_jacket: true}

Remedy
    Use a shorter column or a jacket.

Source
    30 mm for end fittings and the bend of the tubing, and up to 30 mm for a guard: common
    practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.judging.ask.column import cards
from methodlint.judging.ask.rule import Finding, Measure, RunCase, show

SUBJECT = "run"
CLASSES = ("fault",)
NEEDS = ("column.length", "instrument.oven.length")

_FITTINGS = 30e-3
_GUARD = 30e-3


def applies(case: RunCase) -> bool:
    """A jacket outside the oven takes any length."""
    return not case.get("instrument.oven.external_jacket")


def judge(case: RunCase) -> Iterator[Finding]:
    """Take the longest column with the guards that sit on it."""
    known = [card.length.si for _, card in cards(case.columns) if card.length is not None]
    longest = known.index(max(known))
    lengths = [length for index, length in enumerate(known) if index == longest or length <= _GUARD]
    needed = sum(lengths) + _FITTINGS
    oven = case.get("instrument.oven.length").si
    if needed <= oven * (1.0 + 1e-9):
        return
    parts = " + ".join(show(length, "length", "mm") for length in lengths)
    yield case.finding(
        "instrument.oven.length",
        "fault",
        f"{parts} and {show(_FITTINGS, 'length', 'mm')} for fittings need "
        f"{show(needed, 'length', 'mm')}, the oven takes {show(oven, 'length', 'mm')}: "
        f"{show(needed - oven, 'length', 'mm')} too long",
        found=Measure(needed * 1e3, "mm"),
        limit=Measure(oven * 1e3, "mm"),
        remedy=f"use a column up to {show(max(oven - _FITTINGS, 0.0), 'length', 'mm')} or a jacket",
        also=(case.at("column.length"),),
    )
