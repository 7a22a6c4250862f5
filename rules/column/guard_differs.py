"""A guard has the chemistry, the bore and the particles' class of the column downstream.

Reason
    A guard of another phase is a second column: it adds its own retention, and may hold what the
    column lets pass. One of another bore widens the front of every peak at the joint.

Unsound
    kind: method
    column: [guard, column]
    ---
    kind: column
    x-name: guard
    length: 10 mm
    selector: 2-ethylpyridine  # <- here

Sound
    kind: method
    column: [guard, column]
    ---
    kind: column
    x-name: guard
    length: 10 mm

Remedy
    Fit a guard of the column's own phase and inner diameter.

Source
    Common practice, no source. A guard is taken to be a piece of less than a quarter of the
    longest one; longer pieces of other phases in series are a design.
"""

from collections.abc import Iterator

from methodlint.judging.ask.column import cards
from methodlint.judging.ask.rule import Finding, RunCase

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("method.column",)

_GUARD = 0.25
_SAME_BORE = 0.2


def applies(case: RunCase) -> bool:
    """A guard stands ahead of a column."""
    return len(case.columns) > 1


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare every short piece with the longest one."""
    pieces = [(loaded, card) for loaded, card in cards(case.columns) if card.length is not None]
    if len(pieces) < 2:
        return
    _, main = max(pieces, key=lambda piece: piece[1].length.si)  # type: ignore[union-attr]
    for loaded, guard in pieces:
        assert guard.length is not None and main.length is not None
        if guard.length.si >= _GUARD * main.length.si:
            continue
        differs = [
            f"{words} {own}, the column {other}"
            for words, own, other in (
                ("phase", guard.phase, main.phase),
                ("selector", guard.selector, main.selector),
            )
            if own is not None and other is not None and own != other
        ]
        one, two = guard.inner_diameter, main.inner_diameter
        if one is not None and two is not None and abs(one.si / two.si - 1.0) > _SAME_BORE:
            differs.append(f"inner diameter {one.text}, the column {two.text}")
        if differs:
            yield case.finding(
                case.at(loaded),
                "caution",
                f"guard '{loaded.name}' has {'; '.join(differs)}",
                remedy="fit a guard of the column's own phase and inner diameter",
            )
