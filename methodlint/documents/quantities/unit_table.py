"""The closed table of units: what may stand behind a number, and what it is worth in SI.

======================= ======== ==========================================================
dimension               inside   units accepted, as printed
======================= ======== ==========================================================
pressure                Pa       bar, mbar, MPa, kPa, Pa, psi, atm; each also with (g), (a),
                                 g or a for gauge and absolute
temperature             K        degC, °C, C, K, degF
temperature difference  K        degC, °C, C, K, degF
volume flow             m3/s     mL/min, ml/min, uL/min, µL/min, L/min
mass flow               kg/s     g/min
volume                  m3       nL, uL, µL, mL, L, m3
length                  m        nm, um, µm, mm, cm, m, in
time                    s        ms, s, min, h, d
mass                    kg       mg, g, kg, lb
share                   1        %, % v/v, % w/w, % mol
amount concentration    mol/m3   mM, mmol/L, mol/L
mass concentration      kg/m3    pg/mL, ng/mL, ug/mL, µg/mL, mg/mL, ug/L, µg/L, mg/L, g/L
density                 kg/m3    g/mL, kg/m3
frequency               1/s      Hz
power                   W        W
air change rate         1/s      1/h
ppm                     1        ppm (a volume fraction)
voltage                 V        V
======================= ======== ==========================================================

A gauge pressure is converted to pascals as it stands; `Quantity.absolute` adds the pressure of the
room. Both micro signs (U+00B5 and U+03BC) are accepted.

Source
------
Factors: NIST Special Publication 811 (2008), appendix B.8: bar 1E+05 Pa, standard atmosphere
1.01325E+05 Pa, inch 2.54E-02 m, pound 4.5359237E-01 kg, degree Fahrenheit (t + 459.67)/1.8 K.
The pound-force per square inch is 0.45359237 x 9.80665 / 0.0254**2 Pa exactly (from memory of its
definition; SP 811 prints 6.894757E+03).
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit of one dimension: ``si = (value + offset) * factor``."""

    symbol: str
    dimension: str
    factor: float
    offset: float = 0.0
    basis: str | None = None
    reference: str | None = None


class UnitProblem(ValueError):
    """A text that is no quantity of the dimension asked for.

    Attributes
    ----------
    rule : str
        Identifier of what is wrong.
    message, remedy : str
        What is wrong, and what to write.
    meant : tuple of str
        Texts that may be meant.
    part : str
        ``"value"`` or ``"tolerance"`` when it is that part of ``{value: ..., tolerance: ...}``.
    """

    def __init__(
        self, rule: str, message: str, remedy: str = "", meant: tuple[str, ...] = ()
    ) -> None:
        super().__init__(message)
        self.rule = rule
        self.meant = meant
        self.message = message
        self.remedy = remedy
        self.part = ""


_PSI = 0.45359237 * 9.80665 / 0.0254**2
_PRESSURES = {
    "bar": 1e5, "mbar": 100.0, "MPa": 1e6, "kPa": 1e3, "Pa": 1.0, "psi": _PSI, "atm": 101325.0,
}  # fmt: skip
_REFERENCES = {"(g)": "gauge", "(a)": "absolute", "g": "gauge", "a": "absolute"}
_FACTORS: dict[str, dict[str, float]] = {
    "volume flow": {
        "mL/min": 1e-6 / 60, "ml/min": 1e-6 / 60, "uL/min": 1e-9 / 60, "µL/min": 1e-9 / 60,
        "L/min": 1e-3 / 60,
    },
    "mass flow": {"g/min": 1e-3 / 60},
    "volume": {"nL": 1e-12, "uL": 1e-9, "µL": 1e-9, "mL": 1e-6, "L": 1e-3, "m3": 1.0},
    "length": {
        "nm": 1e-9, "um": 1e-6, "µm": 1e-6, "mm": 1e-3, "cm": 1e-2, "m": 1.0, "in": 0.0254,
    },
    "time": {"ms": 1e-3, "s": 1.0, "min": 60.0, "h": 3600.0, "d": 86400.0},
    "mass": {"mg": 1e-6, "g": 1e-3, "kg": 1.0, "lb": 0.45359237},
    "amount concentration": {"mM": 1.0, "mmol/L": 1.0, "mol/L": 1e3},
    "mass concentration": {
        "pg/mL": 1e-9, "ng/mL": 1e-6, "ug/mL": 1e-3, "µg/mL": 1e-3, "mg/mL": 1.0,
        "ug/L": 1e-6, "µg/L": 1e-6, "mg/L": 1e-3, "g/L": 1.0,
    },
    "density": {"g/mL": 1e3, "kg/m3": 1.0},
    "frequency": {"Hz": 1.0},
    "power": {"W": 1.0},
    "air change rate": {"1/h": 1 / 3600},
    "ppm": {"ppm": 1e-6},
    "voltage": {"V": 1.0},
}  # fmt: skip
_BASES: dict[str, str | None] = {"%": None, "% v/v": "v/v", "% w/w": "w/w", "% mol": "mol"}


def _all_units() -> list[Unit]:
    units = [
        Unit(symbol, dimension, factor)
        for dimension, symbols in _FACTORS.items()
        for symbol, factor in symbols.items()
    ]
    for symbol, factor in _PRESSURES.items():
        units.append(Unit(symbol, "pressure", factor))
        for suffix, reference in _REFERENCES.items():
            units.append(Unit(symbol + suffix, "pressure", factor, reference=reference))
    for symbol in ("degC", "°C", "C"):
        units.append(Unit(symbol, "temperature", 1.0, 273.15))
        units.append(Unit(symbol, "temperature difference", 1.0))
    for dimension, offset in (("temperature", 459.67), ("temperature difference", 0.0)):
        units.append(Unit("K", dimension, 1.0))
        units.append(Unit("degF", dimension, 5 / 9, offset))
    units += [Unit(symbol, "share", 0.01, basis=basis) for symbol, basis in _BASES.items()]
    return units


UNITS: dict[str, dict[str, Unit]] = {}
"""Dimension -> symbol -> unit."""
for _unit in _all_units():
    UNITS.setdefault(_unit.dimension, {})[_unit.symbol] = _unit

SI_UNIT: dict[str, str] = {
    "pressure": "Pa", "temperature": "K", "temperature difference": "K", "volume flow": "m3/s",
    "mass flow": "kg/s", "volume": "m3", "length": "m", "time": "s", "mass": "kg", "share": "1",
    "amount concentration": "mol/m3", "mass concentration": "kg/m3", "density": "kg/m3",
    "frequency": "1/s", "power": "W", "air change rate": "1/s", "ppm": "1", "voltage": "V",
}  # fmt: skip

_MICRO = str.maketrans("\u03bc", "\u00b5")


def normal(symbol: str) -> str:
    """Return a symbol with the one micro sign that the table uses."""
    return symbol.translate(_MICRO)


def dimensions_of(symbol: str) -> tuple[str, ...]:
    """Return the dimensions that have a unit of this symbol; empty when there is no such unit."""
    symbol = normal(symbol)
    return tuple(dimension for dimension, symbols in UNITS.items() if symbol in symbols)


def si_value(value: float, unit: Unit) -> float:
    """Convert a figure to SI; infinite when it does not fit a float."""
    return (value + unit.offset) * unit.factor


def from_si(si: float, unit: Unit) -> float:
    """Convert an SI figure to a unit."""
    return si / unit.factor - unit.offset
