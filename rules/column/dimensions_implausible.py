"""A column has the dimensions of a column.

Reason
    Every figure that is computed for a run rests on length, inner diameter and particle size. A
    particle of 5 mm is a 5 um particle with the wrong unit, and nothing that follows from it holds.

Unsound
    kind: column
    particle_size: 5 mm  # <- here

Sound
    kind: column
    particle_size: 5 um

Sound, because a monolith has no particles
    kind: column
    particle_type: monolith
    particle_size: null

Remedy
    Write the unit that the message guesses, after a look at the label.

Source
    Inner diameter 0.3 (packed capillaries) to 50 mm, length 10 to 500 mm, particles 1 to 50 um, hold-up volume 0.002 to
    500 mL at a total porosity of 0.65: common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from methodlint.judging.ask.column import COLUMN_SPANS, hold_up_volume
from methodlint.judging.ask.rule import Candidate, DocumentCase, Finding, Measure, Quantity, show

SUBJECT = "document"
CLASSES = ("fault",)
NEEDS = ()

_UNITS = {"m": 1.0, "cm": 1e-2, "mm": 1e-3, "um": 1e-6, "nm": 1e-9, "in": 25.4e-3}
_HOLD_UP = (0.002e-6, 500e-6)
_POROSITY = 0.65


def applies(case: DocumentCase) -> bool:
    """Only column cards have these dimensions."""
    return case.document.kind == "column"


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Compare each dimension with its usual span, then the volume that follows from them."""
    sound = True
    for name, usual in COLUMN_SPANS.items():
        quantity = case.get(f"column.{name}")
        if quantity is None or (name == "particle_size" and _monolith(case)):
            continue
        if usual.holds(quantity.si):
            continue
        lower, upper, unit = usual.lower, usual.upper, usual.unit
        sound = False
        guesses = _guesses(quantity, name)
        words = name.replace("_", " ")
        span = f"{show(lower, 'length', unit)} to {show(upper, 'length', unit)}"
        figure = quantity.si / _UNITS[unit]
        yield case.finding(
            case.at(case.document, name),
            "fault",
            f"{words} {quantity.text}; columns have {span}"
            + (f" ({guesses[0]}?)" if guesses else ""),
            found=Measure(figure, unit),
            limit=Measure((upper if quantity.si > upper else lower) / _UNITS[unit], unit),
            remedy=f"look at the label; did you mean {' or '.join(guesses)}?"
            if guesses
            else "look at the label of the column",
            candidates=_candidates(case, name, guesses),
        )
    if sound:
        yield from _hold_up(case)


def _monolith(case: DocumentCase) -> bool:
    return bool(case.get("column.particle_type") == "monolith")


def _guesses(quantity: Quantity, name: str) -> list[str]:
    """The same figure in the units that make a column of it, the most likely first."""
    usual = COLUMN_SPANS[name]
    figure = quantity.si / _UNITS.get(
        quantity.unit.replace("\u00b5", "u").replace("\u03bc", "u"), 1
    )
    number = f"{figure:.6g}"
    middle = math.sqrt(usual.lower * usual.upper)
    found = [
        (abs(math.log(figure * factor / middle)), f"{number} {unit}")
        for unit, factor in _UNITS.items()
        if figure > 0.0 and usual.holds(figure * factor)
    ]
    return [text for _, text in sorted(found)]


def _candidates(case: DocumentCase, name: str, guesses: list[str]) -> list[Candidate]:
    at = case.at(case.document, name)
    return [case.candidate(f"did you mean {text}?", case.change(at, text)) for text in guesses]


def _hold_up(case: DocumentCase) -> Iterator[Finding]:
    length, bore = case.get("column.length"), case.get("column.inner_diameter")
    if length is None or bore is None:
        return
    porosity = case.get("column.total_porosity") or _POROSITY
    volume = hold_up_volume(length.si, bore.si, porosity)
    if _HOLD_UP[0] <= volume <= _HOLD_UP[1]:
        return
    yield case.finding(
        case.at(case.document, "inner_diameter"),
        "fault",
        f"{length.text} by {bore.text} make a hold-up volume of {show(volume, 'volume', 'mL')}; "
        f"columns have {show(_HOLD_UP[0], 'volume', 'mL')} to {show(_HOLD_UP[1], 'volume', 'mL')}",
        found=Measure(volume * 1e6, "mL"),
        limit=Measure(_HOLD_UP[0 if volume < _HOLD_UP[0] else 1] * 1e6, "mL"),
        remedy="look at the label: length and inner diameter may be exchanged",
        also=(case.at(case.document, "length"),),
    )
