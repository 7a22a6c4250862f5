"""What values are usual: spans as data, for suggestions and for messages about odd values."""

from __future__ import annotations

from dataclasses import dataclass
from math import isclose

from methodlint.documents.quantities.unit_table import UNITS, from_si, si_value

_ROUNDED = 1e-9


@dataclass(frozen=True, slots=True)
class UsualSpan:
    """The usual span of a quantity.

    Attributes
    ----------
    quantity : str
        What it is a span of.
    dimension : str
        Its dimension.
    lower, upper : float
        Ends in SI units.
    unit : str
        The unit to print it in.
    source : str
        Where the span comes from.
    """

    quantity: str
    dimension: str
    lower: float
    upper: float
    unit: str
    source: str = "common practice, no source"

    def holds(self, si: float) -> bool:
        """Tell whether a value [SI] lies within, both ends included."""
        # A span end such as 0.1 mm must hold "0.1 mm" whichever way it was rounded.
        lower, upper = (
            self.lower - _ROUNDED * abs(self.lower),
            self.upper + _ROUNDED * abs(self.upper),
        )
        return lower <= si <= upper


def _spans(*rows: tuple[str, str, float, float, str]) -> dict[str, UsualSpan]:
    spans = {}
    for quantity, dimension, lower, upper, symbol in rows:
        unit = UNITS[dimension][symbol]
        ends = si_value(lower, unit), si_value(upper, unit)
        spans[quantity] = UsualSpan(quantity, dimension, *ends, symbol)
    return spans


SPANS: dict[str, UsualSpan] = _spans(
    # One per dimension, wide: whatever a document may hold.
    ("pressure", "pressure", 0.001, 1500, "bar"),
    ("temperature", "temperature", -10, 150, "degC"),
    ("temperature difference", "temperature difference", 0, 100, "degC"),
    ("volume flow", "volume flow", 0.01, 150, "mL/min"),
    ("mass flow", "mass flow", 0.01, 400, "g/min"),
    ("volume", "volume", 1e-5, 1e9, "mL"),
    ("length", "length", 1e-4, 1e5, "mm"),
    ("time", "time", 1e-5, 1e6, "min"),
    ("mass", "mass", 1e-6, 3000, "kg"),
    ("share", "share", 0, 100, "%"),
    ("amount concentration", "amount concentration", 1e-4, 5000, "mM"),
    ("mass concentration", "mass concentration", 1e-10, 1000, "mg/mL"),
    ("density", "density", 0.001, 3, "g/mL"),
    ("frequency", "frequency", 0.1, 1000, "Hz"),
    ("power", "power", 0.1, 5000, "W"),
    ("air change rate", "air change rate", 0, 100, "1/h"),
    ("ppm", "ppm", 0, 1e6, "ppm"),
    ("voltage", "voltage", -10000, 10000, "V"),
    # Narrower, where what the value is for is known.
    ("inner diameter", "length", 0.1, 100, "mm"),
    ("column length", "length", 10, 1000, "mm"),
    ("particle size", "length", 1, 30, "um"),
    ("wavelength", "length", 190, 900, "nm"),
    ("tube bore", "length", 0.025, 4, "mm"),
    ("vent line bore", "length", 0.5, 50, "mm"),
    ("oven temperature", "temperature", -10, 150, "degC"),
    ("store temperature", "temperature", -30, 50, "degC"),
    ("source temperature", "temperature", 20, 700, "degC"),
    ("outlet pressure", "pressure", 40, 400, "bar"),
    ("pressure rating", "pressure", 10, 1500, "bar"),
    ("flow", "volume flow", 0.01, 150, "mL/min"),
    ("injection volume", "volume", 0.01, 10000, "uL"),
    ("run length", "time", 0.1, 240, "min"),
    ("cylinder mass", "mass", 0.1, 3000, "kg"),
    ("limit of a pump's flow", "volume flow", 0.001, 1000, "mL/min"),
    ("flow of source gas", "volume flow", 0.01, 100, "L/min"),
    ("tube length", "length", 1, 20000, "mm"),
    ("vent line length", "length", 0.05, 100, "m"),
    ("oven length", "length", 50, 1500, "mm"),
    ("depth of a vessel", "length", 3, 400, "mm"),
    ("dwell volume", "volume", 0.01, 20, "mL"),
    ("extra-column standard deviation", "volume", 0.5, 500, "uL"),
    ("mixer volume", "volume", 0.001, 20, "mL"),
    ("injector volume", "volume", 0.05, 5000, "uL"),
    ("cell volume", "volume", 0.05, 1000, "uL"),
    ("volume of a part", "volume", 0.05, 20000, "uL"),
    ("loop volume", "volume", 0.05, 5000, "uL"),
    ("lowest injection", "volume", 0.001, 1000, "uL"),
    ("highest injection", "volume", 0.1, 5000, "uL"),
    ("volume drawn by a sampler", "volume", 0.01, 10000, "uL"),
    ("vessel capacity", "volume", 0.02, 500, "mL"),
    ("tray temperature", "temperature", -10, 80, "degC"),
    ("temperature of a chilled head", "temperature", -20, 25, "degC"),
    ("lower end of a regulator", "pressure", 1, 300, "bar"),
    ("water capacity", "volume", 0.5, 1e5, "L"),
    ("loss of pressure along the line", "pressure", 0.01, 30, "bar"),
    ("filling ratio", "density", 0.2, 1.2, "g/mL"),
    ("purity of CO2", "share", 90, 100, "%"),
    ("bottle", "volume", 0.005, 50, "L"),
    ("dead volume of a bottle", "volume", 0.1, 2000, "mL"),
    ("purge", "volume", 0.1, 1000, "mL"),
    ("additive level", "amount concentration", 0.01, 2000, "mM"),
    ("room volume", "volume", 5, 20000, "m3"),
    ("ventilation", "air change rate", 0.05, 100, "1/h"),
    ("CO2 outdoors", "ppm", 300, 2000, "ppm"),
    ("room temperature", "temperature", 5, 45, "degC"),
    ("pressure of the air", "pressure", 0.5, 1.1, "bar"),
    ("waste vessel", "volume", 0.1, 1000, "L"),
    ("time constant", "time", 0.001, 60, "s"),
    ("time to reach a flow", "time", 0.01, 60, "min"),
    ("trace of a liquid", "volume", 0.01, 10000, "uL"),
    ("time of a run", "time", 1e-4, 600, "min"),
    ("booked time", "time", 0.1, 500, "h"),
    ("stability of samples", "time", 0.1, 9000, "h"),
    ("limit of a standard deviation", "share", 0.05, 50, "%"),
)  # fmt: skip

NUMBERS: dict[str, tuple[float, float]] = {
    "rows or columns of a vessel": (1, 100),
    "positions of a tray": (1, 5000),
    "longest path": (16, 32767),
    "cylinders": (1, 100),
    "plate number": (50, 1e6),
    "injections of a column": (10, 1e5),
    "injections seen": (0, 1e5),
    "injections between standards": (1, 1000),
    "resolution": (0.5, 30),
    "tailing factor": (0.5, 5),
    "signal-to-noise ratio": (1, 3000),
    "injections of a suitability test": (1, 100),
    "ramp of a regulator in bar/min": (0.1, 2000),
    "dilution": (1e-3, 1e6),
    "flow resistance": (100, 10000),
    "m/z": (1, 100000),
    "loop volumes": (0.5, 50),
}
"""Usual spans of plain numbers: common practice, no source."""


def plausible_span(quantity: str) -> UsualSpan | None:
    """Return the usual span of a quantity or of a whole dimension; None when none is known."""
    return SPANS.get(quantity)


def plausible_units(figure: float, span: UsualSpan, symbols: tuple[str, ...]) -> list[str]:
    """Return those of `symbols` in which the bare `figure` lies within the span."""
    units = UNITS[span.dimension]
    return [symbol for symbol in symbols if span.holds(si_value(figure, units[symbol]))]


def slip(si: float, span: UsualSpan, symbol: str | None = None) -> str | None:
    """Guess what went wrong with a value [SI] outside its span: a factor of ten, or a unit.

    Parameters
    ----------
    si, span
        The value [SI] and the span that it leaves.
    symbol
        Unit as written. Where the same figure in the unit of the span would be usual, the prefix
        is what slipped: "3.0 uL/min" was meant as 3.0 mL/min, 1000 times as much and not ten times.

    Returns
    -------
    str or None
        ``"ten times too large"``, ``"1000 times too small"`` and so on, when one power of ten up to
        1000 brings the value within the span; None otherwise. Never for temperatures, whose scale
        has no such slips.
    """
    if span.holds(si) or span.dimension == "temperature":
        return None
    for power in _powers(si, span, symbol):
        if span.holds(si / power):
            return f"{'ten' if power == 10 else power} times too large"
        if span.holds(si * power):
            return f"{'ten' if power == 10 else power} times too small"
    return None


def _powers(si: float, span: UsualSpan, symbol: str | None) -> tuple[int, ...]:
    """Powers of ten to try, that of a slipped prefix first."""
    usual = (10, 100, 1000)
    units = UNITS[span.dimension]
    written, wanted = units.get(symbol or ""), units[span.unit]
    if written is None or written is wanted:
        return usual
    meant = si_value(from_si(si, written), wanted)
    ratio = meant / si if si else 0.0
    prefixes = [power for power in usual if any(isclose(ratio, r) for r in (power, 1.0 / power))]
    return (*prefixes, *usual) if span.holds(meant) else usual


# Between these ends nobody doubts that a pressure in bar was meant in bar.
_SURE_LOWER, _SURE_UPPER = 60e5, 1200e5


def other_pressure_readings(si: float, symbol: str) -> list[tuple[str, float]]:
    """Return the units in which the same figure would be a usual pressure.

    For a pressure that is implausible as written: 2000 bar -> [("psi", 138e5)].

    Parameters
    ----------
    si : float
        Pressure as written [Pa].
    symbol : str
        Its unit, with or without a suffix for gauge or absolute.

    Returns
    -------
    list of (symbol, pressure)
        The other unit and the pressure [Pa]; empty when the value is plausible as it is
        (60 to 1200 bar), or when no other unit makes it plausible.
    """
    units = UNITS["pressure"]
    if symbol not in units or _SURE_LOWER <= si <= _SURE_UPPER:
        return []
    figure = from_si(si, units[symbol])
    readings = [(other, si_value(figure, units[other])) for other in ("psi", "bar", "MPa", "kPa")]
    base = units[symbol].factor
    return [
        (other, value)
        for other, value in readings
        if units[other].factor != base and _SURE_LOWER <= value <= _SURE_UPPER
    ]
