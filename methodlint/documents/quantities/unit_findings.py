"""Say what is wrong with what follows a number when it is no unit, and what to write instead."""

from __future__ import annotations

import re

from methodlint.documents.quantities.number_findings import bare_number
from methodlint.documents.quantities.plausibility import SPANS, plausible_units
from methodlint.documents.quantities.unit_table import UNITS, UnitProblem, dimensions_of, normal
from methodlint.documents.quantities.unit_words import SYNONYMS, USUAL
from methodlint.documents.quantities.value_wanted import (
    FIGURE,
    RANGE,
    TRAP,
    UNIT,
    kind,
    sample,
    with_tolerance,
)
from methodlint.documents.text.names import nearest
from methodlint.documents.text.visible import excerpt, is_hidden

_BETWEEN = re.compile(r" ?(?:-|–|—|−|to|\.\.\.?|…|~|/|or|and) ?[+-]?\.?[0-9]", re.IGNORECASE)
_PLUS_MINUS = re.compile(
    rf"(?P<first> ?[^±+]{{0,12}}?) ?(?:±|\+ ?/ ?[-−]|\+-) ?(?P<off>{FIGURE})(?P<unit> ?[^0-9]{{0,12}})"
)
_RANGE = re.compile(
    rf"(?P<unit> ?[^0-9]{{0,8}}?) ?(?:-|–|—|−|to|\.\.\.?|…|~|and|or) ?(?P<last>{FIGURE})"
    r"(?P<last_unit> ?[^0-9]{0,12})",
    re.IGNORECASE,
)
_DOUBT = re.compile(r".* (?:\?|approx\.?|or so|max\.?|or (?:more|less))|.*[?+]", re.IGNORECASE)
_GROUPS = re.compile(
    "(?P<first>[0-9]{1,3})(?P<rest>(?:[ \u00a0\u2009\u202f'’][0-9]{3})+)(?![0-9])(?P<unit>.*)"
)


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
        return UnitProblem(TRAP, message, f'write "{excerpt(decimals)}"', (decimals,))
    grouped = re.match(r"(?:,[0-9]{3})+(?![0-9])", rest)
    joined = number + rest.replace(",", "")
    if grouped is None:
        decimals = number + "." + rest[1:]
        return UnitProblem(TRAP, message, f'write "{excerpt(decimals)}"', (decimals,))
    message += ", and it may part thousands"
    if len(grouped.group()) > 4 or rest[grouped.end() :].startswith("."):
        return UnitProblem(TRAP, message, f'write "{excerpt(joined)}"', (joined,))
    decimals = number + "." + rest[1:]
    either = f'write "{excerpt(decimals)}" or "{excerpt(joined)}"'
    return UnitProblem(TRAP, message, either, (decimals, joined))


def _several_values(number: str, rest: str, dimensions: tuple[str, ...]) -> UnitProblem | None:
    shown = excerpt(number + rest)
    both = _PLUS_MINUS.fullmatch(rest)
    if both is not None:
        unit = both["unit"] or both["first"] or ""
        remedy = with_tolerance(dimensions, f"{number}{unit}", f"{both['off']}{unit}")
        return UnitProblem(RANGE, f'"{shown}" holds a value and a tolerance', remedy)
    ends = _RANGE.fullmatch(rest)
    if ends is not None:
        return UnitProblem(RANGE, f'"{shown}" is a range', _middle(number, ends, dimensions))
    if _BETWEEN.match(rest):
        return UnitProblem(RANGE, f'"{shown}" is a range', with_tolerance(dimensions))
    if _DOUBT.fullmatch(rest):
        return UnitProblem(RANGE, f'"{shown}" is not one value', with_tolerance(dimensions))
    return None


def _middle(number: str, ends: re.Match[str], dimensions: tuple[str, ...]) -> str:
    unit = ends["last_unit"] or ends["unit"] or ""
    known = {symbol for dimension in dimensions for symbol in UNITS[dimension]}
    lower, upper = float(number), float(ends["last"])
    middle, off = (lower + upper) / 2, (upper - lower) / 2
    meant = ""
    if not unit.strip() and lower < upper < float("inf"):
        usual = plausible_units(middle, SPANS[dimensions[0]], USUAL[dimensions[0]])
        unit = f" {usual[0]}" if usual else ""
        meant = f", if {usual[0]} is meant" if usual else ""
    if normal(unit.strip(" ")) not in known or not lower < upper < float("inf"):
        return with_tolerance(dimensions)
    return with_tolerance(dimensions, f"{middle:.6g}{unit}", f"{off:.6g}{unit}") + meant


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
        f'"{excerpt(number + rest)}" is {kind(others[:1])}; {kind(dimensions)} is expected here',
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
            f'"{shown}": one ordinary space belongs between number and unit',
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
        said = f"{number} {meant}"
        return UnitProblem(UNIT, message, f'did you mean "{excerpt(number)} {meant}"?', (said,))
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
