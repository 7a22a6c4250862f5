"""The one place where values are turned into text for people."""

from __future__ import annotations

import math

from methodlint.documents.quantities.unit_table import UNITS, from_si

# The unit of each size: the largest whose figure is at least 1 is taken, else the last.
_LADDERS: dict[str, tuple[str, ...]] = {
    "pressure": ("bar",),
    "temperature": ("degC",),
    "temperature difference": ("K",),
    "volume flow": ("mL/min", "uL/min"),
    "mass flow": ("g/min",),
    "volume": ("m3", "L", "mL", "uL", "nL"),
    "length": ("m", "mm", "um", "nm"),
    "time": ("h", "min", "s", "ms"),
    "mass": ("kg", "g", "mg"),
    "share": ("%",),
    "amount concentration": ("mol/L", "mM"),
    "mass concentration": ("mg/mL", "ug/mL", "ng/mL", "pg/mL"),
    "density": ("kg/m3",),
    "frequency": ("Hz",),
    "power": ("W",),
    "air change rate": ("1/h",),
    "ppm": ("ppm",),
    "voltage": ("V",),
}
# A larger unit is taken only above this many of it: 90 min, not 1.5 h; 250 mm, not 0.25 m.
_ENOUGH = {"h": 5.0, "m": 2.0, "m3": 1.0, "mm": 0.1, "mL/min": 0.01, "mL": 0.1, "mol/L": 1.0}
_DIGITS = 3


def show(si: float, dimension: str, unit: str | None = None, digits: int | None = None) -> str:
    """Write a value for a message: ``105 bar``, ``40 degC``, ``1.5 mL/min``.

    Parameters
    ----------
    si : float
        Value in the SI unit of its dimension.
    dimension : str
        Name of the dimension.
    unit : str, optional
        Unit to write it in; without it, the usual one for its size.
    digits : int, optional
        Significant digits; without it, three, for temperatures one decimal and for pressures
        two, at least the whole bar and from 10 to 100 bar one decimal.

    Returns
    -------
    str
        Never with an exponent between 1e-6 and 1e9, never ``nan``: what is not finite is
        ``not known``.

    Raises
    ------
    KeyError
        When there is no such dimension or unit.
    """
    symbol = unit or _usual_unit(si, dimension)
    figure = from_si(si, UNITS[dimension][symbol])
    if not math.isfinite(figure):
        return "not known"
    return f"{_figure(figure, dimension, symbol, digits)} {symbol}"


def _usual_unit(si: float, dimension: str) -> str:
    ladder = _LADDERS[dimension]
    for symbol in ladder:
        # Rounding as printed decides, or 0.9999 mL would be "1000 uL".
        if abs(si) / UNITS[dimension][symbol].factor >= _ENOUGH.get(symbol, 1.0) * (1 - 5e-4):
            return symbol
    return ladder[-1] if si else _AT_ZERO.get(dimension, ladder[0])


_AT_ZERO = {"volume": "mL", "length": "mm", "time": "min", "mass": "g"}


def _figure(figure: float, dimension: str, symbol: str, digits: int | None) -> str:
    if digits is None:
        if dimension == "temperature" and symbol != "K":
            return _fixed(figure, 1, strip=True)
        if dimension == "pressure" and symbol == "bar" and abs(figure) < 1e9:
            if abs(figure) < 9.95:
                return number(figure, 2)
            return _fixed(figure, 0 if abs(figure) >= 99.95 else 1, strip=True)
        if dimension == "ppm" and 1e3 <= abs(figure) < 1e9:
            return number(float(f"{figure:.3g}"))
    return number(figure, digits or _DIGITS)


def _fixed(figure: float, decimals: int, strip: bool = False) -> str:
    if abs(figure) >= 1e9:
        return number(figure)
    text = f"{figure:.{decimals}f}"
    if strip and "." in text:
        text = text.rstrip("0").rstrip(".")
    return text[1:] if text.startswith("-") and not text.strip("-0.") else text


def number(figure: float, digits: int = _DIGITS) -> str:
    """Write a bare number with so many significant digits and no trailing zeros.

    Whole numbers below 1e9 keep all digits in front of the point: 12345.6 is ``12346``.
    """
    if not math.isfinite(figure):
        return "not known"
    size = abs(figure)
    if figure == 0.0:
        return "0"
    if not 1e-6 <= size < 1e9:
        return f"{figure:.{digits - 1}e}"
    decimals = max(0, digits - 1 - math.floor(math.log10(size)))
    return _fixed(figure, decimals, strip=True)


def counted(count: int, word: str) -> str:
    """Write a count with its word: ``1 fault``, ``2 faults``, ``2 entries``."""
    if count == 1:
        return f"{count} {word}"
    many = f"{word[:-1]}ies" if word.endswith("y") and word[-2] not in "aeiou" else f"{word}s"
    return f"{count} {many}"
