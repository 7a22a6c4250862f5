"""Say what is wrong with a text that is no quantity, and what to write instead."""

from __future__ import annotations

import re
from functools import lru_cache

from methodlint.documents.names import nearest
from methodlint.documents.plausibility import SPANS, plausible_units
from methodlint.documents.slips import QUOTES
from methodlint.documents.unit_table import UNITS, UnitProblem, dimensions_of, normal
from methodlint.documents.unit_words import SAMPLES, SYNONYMS, USUAL
from methodlint.documents.visible import excerpt, is_hidden, retyped

UNIT = "document.unit-missing-or-wrong-kind"
RANGE = "document.range-or-about"
TRAP = "document.type-trap"
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
_BETWEEN = re.compile(r" ?(?:-|–|—|−|to|\.\.\.?|…|~|/|or|and) ?[+-]?\.?[0-9]", re.IGNORECASE)
_FIGURE = r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?"
_PLUS_MINUS = re.compile(
    rf"(?P<first> ?[^±+]{{0,12}}?) ?(?:±|\+ ?/ ?[-−]|\+-) ?(?P<off>{_FIGURE})(?P<unit> ?[^0-9]{{0,12}})"
)
_RANGE = re.compile(
    rf"(?P<unit> ?[^0-9]{{0,8}}?) ?(?:-|–|—|−|to|\.\.\.?|…|~|and|or) ?(?P<last>{_FIGURE})"
    r"(?P<last_unit> ?[^0-9]{0,12})",
    re.IGNORECASE,
)
_DOUBT = re.compile(r".* (?:\?|approx\.?|or so|max\.?|or (?:more|less))|.*[?+]", re.IGNORECASE)
_GROUPS = re.compile(
    "(?P<first>[0-9]{1,3})(?P<rest>(?:[ \u00a0\u2009\u202f'’][0-9]{3})+)(?![0-9])(?P<unit>.*)"
)
_MINUS = "\u2212\u2010\u2011\u2012\u2013\u2014\ufe63\uff0d"
_NOT_FINITE = re.compile(r"[+-]?\.?(?:nan|inf|infinity|∞)\b", re.IGNORECASE)


def is_placeholder(text: str) -> bool:
    """Tell whether a text only keeps the place of a value that is still to come."""
    return _PLACEHOLDER.fullmatch(text) is not None


def sample(dimensions: tuple[str, ...]) -> str:
    """Return a well-formed value to show, in quotation marks."""
    return f'"{SAMPLES[dimensions[0]]}"'


def kind(dimensions: tuple[str, ...]) -> str:
    """Return the name of what is wanted, with its article: ``a pressure``."""
    if dimensions == ("volume flow", "mass flow"):
        return "a flow"
    if len(dimensions) > 2:
        return "a concentration"
    names = {"ppm": "a content in ppm", "amount concentration": "an amount concentration", "time": "a duration",
             "air change rate": "an air change rate"}  # fmt: skip
    return " or ".join(names.get(name, f"a {name}") for name in dimensions)


def not_a_text(value: object, dimensions: tuple[str, ...]) -> UnitProblem:
    """Explain a value that is no text: a bare number, a flag, nothing, a list."""
    if isinstance(value, bool):
        word = "true" if value else "false"
        message = f"{word} is a flag; {kind(dimensions)} is wanted here"
        return UnitProblem(
            TRAP, message, f"write a number and a unit, such as {sample(dimensions)}"
        )
    if isinstance(value, int | float):
        return bare_number(_number_text(value), dimensions)
    if value is None:
        message = f"no value; {kind(dimensions)} is wanted here"
    else:
        message = f"a {_shape(value)} stands where {kind(dimensions)} is wanted"
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
    message = f"{excerpt(text)} has no unit; {kind(dimensions)} is wanted here"
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
    if typed != text and re.match(_FIGURE, typed):
        return UnitProblem(
            UNIT,
            f'"{shown}" starts with U+{ord(text[0]):04X}, which is no digit of a keyboard',
            f'write "{excerpt(typed)}"',
        )
    if _ROOM.fullmatch(text):
        return UnitProblem(
            RANGE, f'"{shown}" is a word, not {kind(dimensions)}', _tolerance_remedy(dimensions)
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
        plain = re.fullmatch(rf"{_FIGURE} ?[^0-9]{{1,12}}", value) is not None
        remedy = _tolerance_remedy(dimensions, value if plain else "")
        return UnitProblem(RANGE, f'"{shown}" is not one value', remedy)
    if not text:
        return UnitProblem(UNIT, f"an empty text stands where {kind(dimensions)} is wanted",
                           f"write a number and a unit, such as {sample(dimensions)}")  # fmt: skip
    return UnitProblem(
        UNIT,
        f'"{shown}" does not start with a number; {kind(dimensions)} is wanted here',
        f"write a number and a unit, such as {sample(dimensions)}",
    )


def _tolerance_remedy(dimensions: tuple[str, ...], value: str = "", off: str = "...") -> str:
    if not value and dimensions == ("temperature",):
        value, off = "35 degC", "2 degC"
    shown = f"{{value: {excerpt(value or SAMPLES[dimensions[0]])}, tolerance: {excerpt(off)}}}"
    return f"write one value and how far it may be off: {shown}"


def no_unit(number: str, rest: str, dimensions: tuple[str, ...]) -> UnitProblem:
    """Explain what follows the number when it is no unit of the dimensions wanted."""
    if not rest:
        return bare_number(number, dimensions)
    return (
        _disguised_number(number, rest, dimensions)
        or _several_values(number, rest, dimensions)
        or _wrong_kind(number, rest, dimensions)
        or _unknown_unit(number, rest, dimensions)
    )


def _disguised_number(number: str, rest: str, dimensions: tuple[str, ...]) -> UnitProblem | None:
    whole = number + rest
    shown = excerpt(whole)
    if re.match(r",[0-9]", rest):
        return _comma(number, rest, shown)
    groups = _GROUPS.match(whole.lstrip("+-"))
    if groups is not None:
        digits = groups["first"] + re.sub("[^0-9]", "", groups["rest"])
        joined = excerpt(digits + groups["unit"])
        return UnitProblem(
            TRAP,
            f'"{shown}": digits parted in groups are not read as one number',
            f'write "{joined}" if that is meant',
        )
    if re.match(r"_[0-9]", rest):
        joined = excerpt(whole.replace("_", ""))
        return UnitProblem(
            TRAP, f'"{shown}": an underscore inside a number is read in two ways',
            f'write "{joined}"',
        )  # fmt: skip
    if number in ("0", "+0", "-0") and re.match(r"[xob][0-9a-f]", rest, re.IGNORECASE):
        return UnitProblem(
            TRAP,
            f'"{shown}" is no decimal number',
            f"write decimal digits and a unit, such as {sample(dimensions)}",
        )
    if re.match(r":[0-9]", rest):
        return UnitProblem(
            TRAP,
            f'"{shown}" is read as a clock time by some and as a number to base 60 by others',
            f"write a number and a unit, such as {sample(dimensions)}",
        )
    return None


def _comma(number: str, rest: str, shown: str) -> UnitProblem:
    message = f'"{shown}": a comma is not read as a decimal sign'
    if "." in number:
        decimals = number.replace(".", "") + "." + rest[1:]
        return UnitProblem(TRAP, message, f'write "{excerpt(decimals)}"')
    grouped = re.match(r"(?:,[0-9]{3})+(?![0-9])", rest)
    joined = number + rest.replace(",", "")
    if grouped is None:
        return UnitProblem(TRAP, message, f'write "{excerpt(number + "." + rest[1:])}"')
    message += ", and it may part thousands"
    if len(grouped.group()) > 4 or rest[grouped.end() :].startswith("."):
        return UnitProblem(TRAP, message, f'write "{excerpt(joined)}"')
    decimals = number + "." + rest[1:]
    return UnitProblem(TRAP, message, f'write "{excerpt(decimals)}" or "{excerpt(joined)}"')


def _several_values(number: str, rest: str, dimensions: tuple[str, ...]) -> UnitProblem | None:
    shown = excerpt(number + rest)
    both = _PLUS_MINUS.fullmatch(rest)
    if both is not None:
        unit = both["unit"] or both["first"] or ""
        remedy = _tolerance_remedy(dimensions, f"{number}{unit}", f"{both['off']}{unit}")
        return UnitProblem(RANGE, f'"{shown}" holds a value and a tolerance', remedy)
    ends = _RANGE.fullmatch(rest)
    if ends is not None:
        return UnitProblem(RANGE, f'"{shown}" is a range', _middle(number, ends, dimensions))
    if _BETWEEN.match(rest):
        return UnitProblem(RANGE, f'"{shown}" is a range', _tolerance_remedy(dimensions))
    if _DOUBT.fullmatch(rest):
        return UnitProblem(RANGE, f'"{shown}" is not one value', _tolerance_remedy(dimensions))
    return None


def _middle(number: str, ends: re.Match[str], dimensions: tuple[str, ...]) -> str:
    unit = ends["last_unit"] or ends["unit"] or ""
    known = {symbol for dimension in dimensions for symbol in UNITS[dimension]}
    lower, upper = float(number), float(ends["last"])
    if normal(unit.strip(" ")) not in known or not lower < upper < float("inf"):
        return _tolerance_remedy(dimensions)
    middle, off = (lower + upper) / 2, (upper - lower) / 2
    return _tolerance_remedy(dimensions, f"{middle:.6g}{unit}", f"{off:.6g}{unit}")


def _wrong_kind(number: str, rest: str, dimensions: tuple[str, ...]) -> UnitProblem | None:
    symbol = rest.removeprefix(" ")
    others = dimensions_of(symbol)
    if not others:
        return None
    remedy = f"write {kind(dimensions)}, such as {sample(dimensions)}"
    if any(f"{symbol}/min" in UNITS[dimension] for dimension in dimensions):
        remedy = f'did you mean "{excerpt(number)} {symbol}/min"?'
    return UnitProblem(
        UNIT,
        f'"{excerpt(number + rest)}" is {kind(others[:1])}; {kind(dimensions)} is wanted here',
        remedy,
    )


def _unknown_unit(number: str, rest: str, dimensions: tuple[str, ...]) -> UnitProblem:
    shown = excerpt(number + rest)
    symbols = [symbol for dimension in dimensions for symbol in UNITS[dimension]]
    blanks = rest[: len(rest) - len(rest.lstrip(" \t\u00a0\u2009\u202f"))]
    symbol = rest[len(blanks) :].translate(str.maketrans("\u03bc", "\u00b5"))
    if blanks not in ("", " ") and symbol in symbols:
        return UnitProblem(
            UNIT,
            f'"{shown}": one ordinary blank stands between number and unit',
            f'write "{excerpt(number)} {symbol}"',
        )
    known = re.match(r"(?P<unit>.*?) *(?P<sign>#|//)", symbol)
    if known is not None and normal(known["unit"]) in symbols:
        return UnitProblem(
            UNIT,
            f'"{shown}": no comment begins at {known["sign"]}',
            f"write {excerpt(number)} {excerpt(known['unit'])} # ...: a blank and # begin a comment",
        )
    meant = _meant(symbol, symbols)
    message = f'"{excerpt(symbol)}" is not a unit of {kind(dimensions)}'
    if any(is_hidden(character) for character in symbol):
        message += " (it holds a hidden character)"
    if meant is not None:
        return UnitProblem(UNIT, message, f'did you mean "{excerpt(number)} {meant}"?')
    usual = ", ".join(dict.fromkeys(unit for name in dimensions for unit in USUAL[name]))
    return UnitProblem(UNIT, message, f"units accepted here include {usual}")


def _meant(symbol: str, symbols: list[str]) -> str | None:
    if len(symbol) > 40:
        return None
    synonym = SYNONYMS.get(" ".join(symbol.casefold().split()))
    if synonym in symbols:
        return synonym
    folded = [known for known in symbols if known.casefold() == symbol.casefold()]
    if folded:
        return folded[0]
    near = nearest(symbol, symbols, limit=2 if len(symbol) > 3 else 1)
    return near[0][0] if near else None
