"""Say what is wrong where no number is: another kind of value, or a text that starts otherwise.

A number with no unit after it is told here too: the number itself says which units make it usual.
"""

from __future__ import annotations

import re
from functools import lru_cache

from methodlint.documents.quantities.plausibility import SPANS, plausible_units
from methodlint.documents.quantities.unit_table import UnitProblem
from methodlint.documents.quantities.unit_words import USUAL
from methodlint.documents.quantities.value_wanted import (
    FIGURE,
    RANGE,
    TRAP,
    UNIT,
    kind,
    sample,
    with_tolerance,
)
from methodlint.documents.text.slips import QUOTES
from methodlint.documents.text.visible import excerpt, retyped

PLACEHOLDER = "document.placeholder-left"

_ABOUT = re.compile(
    r"(?:about|approx(?:imately)?\b\.?|ca\b\.?|circa|roughly|around|nearly|some|max\b\.?|min\b\.?"
    r"|up to|at (?:least|most)|below|above|under|over|[~≈∼<>≤≥±≲≳])",
    re.IGNORECASE,
)
_ROOM = re.compile(
    r"(?:r\.? ?t\.?|room(?: ?temp(?:erature)?\.?)?|ambient(?: temp(?:erature)?)?|lab(?: temp"
    r"(?:erature)?)?|cold|warm|hot|auto(?:matic)?|default|standard|normal|variable|high|low)",
    re.IGNORECASE,
)
_PLACEHOLDER = re.compile(
    r"(?:t\.?b\.?[dac]\.?|x{2,}|\?+|n/?a|none|null|todo|unknown|-+|\.\.\.|…|fill in.*|<.*>)",
    re.IGNORECASE,
)
_MINUS = "\u2212\u2010\u2011\u2012\u2013\u2014\ufe63\uff0d"
_NOT_FINITE = re.compile(r"[+-]?\.?(?:nan|inf|infinity|∞)\b", re.IGNORECASE)


def is_placeholder(text: str) -> bool:
    """Tell whether a text only keeps the place of a value that is still to come."""
    return _PLACEHOLDER.fullmatch(text) is not None


def not_a_text(value: object, dimensions: tuple[str, ...]) -> UnitProblem:
    """Explain a value that is no text: a bare number, a flag, nothing, a list."""
    if isinstance(value, bool):
        word = "true" if value else "false"
        message = f"{word} is a flag; {kind(dimensions)} is expected here"
        return UnitProblem(
            TRAP, message, f"write a number and a unit, such as {sample(dimensions)}"
        )
    if isinstance(value, int | float):
        return bare_number(_number_text(value), dimensions)
    if value is None:
        message = f"no value; {kind(dimensions)} is expected here"
    else:
        message = f"a {_shape(value)} is given where {kind(dimensions)} is expected"
    return UnitProblem(UNIT, message, f"write a number and a unit, such as {sample(dimensions)}")


def _number_text(value: float) -> str:
    if isinstance(value, int) and value.bit_length() > 200:
        return f"{value >> 180:#x}..."
    return repr(value)


def _shape(value: object) -> str:
    if isinstance(value, dict):
        return "mapping"
    return "list" if isinstance(value, list | tuple) else type(value).__name__


def bare_number(text: str, dimensions: tuple[str, ...]) -> UnitProblem:
    """Explain a number without a unit and offer the units that make it usual."""
    return UnitProblem(UNIT, *_of_bare_number(text, dimensions))


@lru_cache(maxsize=256)
def _of_bare_number(text: str, dimensions: tuple[str, ...]) -> tuple[str, str]:
    try:
        figure = float(text)
    except (ValueError, OverflowError):
        figure = float("inf")
    offers: list[str] = []
    for dimension in dimensions:
        offers += plausible_units(figure, SPANS[dimension], USUAL[dimension])[:2]
    message = f"{excerpt(text)} has no unit; {kind(dimensions)} is expected here"
    if offers:
        choices = " or ".join(f'"{excerpt(text)} {unit}"' for unit in offers[:3])
        return message, f"write the unit: {choices}?"
    usual = ", ".join(USUAL[dimensions[0]])
    return message, f"write the unit ({usual}); in none of them is it usual"


def no_number(text: str, dimensions: tuple[str, ...]) -> UnitProblem:
    """Explain a text that does not start with a number."""
    shown = excerpt(text)
    if _NOT_FINITE.match(text):
        return UnitProblem(
            TRAP, f'"{shown}" is not a number', f"write a value, such as {sample(dimensions)}"
        )
    if text[:1] and text[0] in _MINUS and re.match(r"[ ]?\.?[0-9]", text[1:]):
        return UnitProblem(
            UNIT,
            f'"{shown}" starts with U+{ord(text[0]):04X}, which is not the minus sign of a keyboard',
            f'write "-{excerpt(text[1:].lstrip())}"',
        )
    if text.startswith(tuple(QUOTES)):
        return UnitProblem(
            UNIT,
            f'"{shown}" starts with U+{ord(text[0]):04X}, not the quotation mark of a keyboard',
            f"write {excerpt(text.strip(QUOTES))}, with or without plain quotation marks",
        )
    typed = retyped(text)
    if typed != text and re.match(FIGURE, typed):
        return UnitProblem(
            UNIT,
            f'"{shown}" starts with U+{ord(text[0]):04X}, which is no digit of a keyboard',
            f'write "{excerpt(typed)}"',
        )
    if _ROOM.fullmatch(text):
        return UnitProblem(
            RANGE, f'"{shown}" is a word, not {kind(dimensions)}', with_tolerance(dimensions)
        )
    if _PLACEHOLDER.fullmatch(text):
        return UnitProblem(
            PLACEHOLDER,
            f'"{shown}" is left to be filled in',
            f"write {kind(dimensions)}, such as {sample(dimensions)}",
        )
    about = _ABOUT.match(text)
    if about is not None and re.search("[0-9]", text):
        value = text[about.end() :].strip(" ")
        plain = re.fullmatch(rf"{FIGURE} ?[^0-9]{{1,12}}", value) is not None
        remedy = with_tolerance(dimensions, value if plain else "")
        return UnitProblem(RANGE, f'"{shown}" is not one value', remedy)
    if not text:
        return UnitProblem(UNIT, f"an empty text is given where {kind(dimensions)} is expected",
                           f"write a number and a unit, such as {sample(dimensions)}")  # fmt: skip
    return UnitProblem(
        UNIT,
        f'"{shown}" does not start with a number; {kind(dimensions)} is expected here',
        f"write a number and a unit, such as {sample(dimensions)}",
    )
