"""The column that the method asks for is the one that is fitted.

Reason
    A selector that turns to another column, or to a plugged position, gives a chromatogram that
    looks almost right, or a pressure that trips. What is fitted is the state of a bench on a day:
    a method that is checked without a sequence is not asked.

Unsound
    kind: instrument
    fitted_columns: {"1": amylose-3um, "2": empty}  # <- here

Sound
    kind: instrument
    fitted_columns: {"1": amylose-3um, "2": column}

Sound, because the method accepts an equivalent
    kind: method
    equivalent_columns: [amylose-3um]
    ---
    kind: instrument
    fitted_columns: {"1": amylose-3um}

Remedy
    Fit the column, or correct the card of the instrument.

Source
    Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.judging.ask.column import cards
from methodlint.judging.ask.rule import Finding, NotChecked, RunCase

SUBJECT = "run"
CLASSES = ("fault",)
NEEDS = ("column", "instrument", "sequence")


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Look every column of the method up among the fitted ones."""
    fitted = case.get("instrument.fitted_columns")
    if not fitted:
        yield case.not_checked("instrument", "instrument.fitted_columns")
        return
    assert case.method is not None
    held = {_plain(name) for name in fitted.values()}
    equivalents = {_plain(name) for name in case.method.equivalent_columns}
    for loaded, card in cards(case.columns):
        wanted = {_plain(loaded.name)} | ({_plain(card.serial)} if card.serial else set())
        if wanted & held or equivalents & held:
            continue
        serial = f" (serial {card.serial})" if card.serial else ""
        there = ", ".join(f"{position}: {name}" for position, name in fitted.items())
        yield case.finding(
            "instrument.fitted_columns",
            "fault",
            f"the method asks for {loaded.name}{serial}, fitted are {there}",
            remedy=f"fit {loaded.name}, or write at which position it is",
            also=(case.at("method.column"),),
        )


def _plain(name: str) -> str:
    return name.strip().casefold()
