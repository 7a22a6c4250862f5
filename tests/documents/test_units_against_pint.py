"""Every unit against pint, an independent units library, and against printed conversion factors."""

import pint
import pytest

from methodlint.documents.quantities.units import SI_UNIT, UNITS, UnitProblem, parse_quantity
from tests.all_at_once import all_at_once

REGISTRY = pint.UnitRegistry()

# pint's spelling where ours is not its own; gauge and absolute carry the factor of the plain unit.
SPELLED = {"m3": "m**3", "kg/m3": "kg/m**3", "C": "degC", "1": "dimensionless"}
SPELLED |= {"% v/v": "percent", "% w/w": "percent", "% mol": "percent", "m3/s": "m**3/s"}
SPELLED |= {"mol/m3": "mol/m**3"}


def oracle(figure, symbol, dimension):
    if dimension == "pressure":
        symbol = symbol.removesuffix("(g)").removesuffix("(a)")
        symbol = symbol if symbol in ("bar", "atm", "Pa", "kPa") else symbol.rstrip("g")
        if symbol not in ("bar", "mbar", "MPa", "kPa", "Pa", "psi", "atm"):
            symbol = symbol.removesuffix("a")
    spelled = SPELLED.get(symbol, symbol)
    target = SPELLED.get(SI_UNIT[dimension], SI_UNIT[dimension])
    if dimension == "temperature difference" and spelled != "K":
        spelled, target = "delta_" + spelled.replace("°C", "degC"), "kelvin"
    return REGISTRY.Quantity(figure, spelled).to(target).magnitude


@all_at_once("dimension, symbol", [(d, symbol) for d in UNITS for symbol in UNITS[d]])
@all_at_once("figure", ["0", "1", "37.5", "2.5e-3", "1200"])
def test_every_unit_agrees_with_pint(dimension, symbol, figure):
    expected = oracle(float(figure), symbol, dimension)
    if dimension == "temperature" and expected <= 0.0:
        with pytest.raises(UnitProblem):
            parse_quantity(f"{figure} {symbol}", dimension)
        return
    assert parse_quantity(f"{figure} {symbol}", dimension).si == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "dimension", "si"),
    [
        # NIST Special Publication 811 (2008), appendix B.8.
        ("1 psi", "pressure", 6.894757e3),
        ("1 atm", "pressure", 1.01325e5),
        ("1 bar", "pressure", 1e5),
        ("1 in", "length", 2.54e-2),
        ("1 lb", "mass", 4.5359237e-1),
        ("1 d", "time", 8.64e4),
        # (t + 459.67) / 1.8, the same table: water boils at 212 degF, freezes at 32 degF.
        ("212 degF", "temperature", 373.15),
        ("32 degF", "temperature", 273.15),
        # By arithmetic from the definitions of litre and minute.
        ("6 mL/min", "volume flow", 1e-7),
        ("60 g/min", "mass flow", 1e-3),
        ("1 mM", "amount concentration", 1.0),
        ("1 mg/mL", "mass concentration", 1.0),
        ("5 ng/mL", "mass concentration", 5e-6),
        ("2 ug/L", "mass concentration", 2e-6),
        ("36 1/h", "air change rate", 0.01),
        ("5000 ppm", "ppm", 0.005),
        ("20 % v/v", "share", 0.2),
    ],
)
def test_printed_factors(text, dimension, si):
    assert parse_quantity(text, dimension).si == pytest.approx(si, rel=1e-6)


def test_the_table_holds_exactly_the_published_list():
    pressures = {"bar", "mbar", "MPa", "kPa", "Pa", "psi", "atm"}
    suffixed = {p + s for p in pressures for s in ("", "(g)", "(a)", "g", "a")}
    expected = {
        "pressure": suffixed,
        "temperature": {"degC", "°C", "C", "K", "degF"},
        "temperature difference": {"degC", "°C", "C", "K", "degF"},
        "volume flow": {"mL/min", "ml/min", "uL/min", "µL/min", "L/min"},
        "mass flow": {"g/min"},
        "volume": {"nL", "uL", "µL", "mL", "L", "m3"},
        "length": {"nm", "um", "µm", "mm", "cm", "m", "in"},
        "time": {"ms", "s", "min", "h", "d"},
        "mass": {"mg", "g", "kg", "lb"},
        "share": {"%", "% v/v", "% w/w", "% mol"},
        "amount concentration": {"mM", "mmol/L", "mol/L"},
        # Calibrators of bioanalysis and residue work are written in these.
        "mass concentration": {
            "pg/mL",
            "ng/mL",
            "ug/mL",
            "µg/mL",
            "mg/mL",
            "ug/L",
            "µg/L",
            "mg/L",
            "g/L",
        },
        "density": {"g/mL", "kg/m3"},
        "frequency": {"Hz"},
        "power": {"W"},
        "air change rate": {"1/h"},
        "ppm": {"ppm"},
        "voltage": {"V"},
    }
    assert {dimension: set(symbols) for dimension, symbols in UNITS.items()} == expected


@pytest.mark.parametrize("micro", ["\u00b5", "\u03bc"])
def test_both_micro_signs_are_read(micro):
    assert parse_quantity(f"5 {micro}L", "volume").si == pytest.approx(5e-9)
    assert parse_quantity(f"3 {micro}m", "length").si == pytest.approx(3e-6)
    assert parse_quantity(f"50 {micro}L/min", "volume flow").si == pytest.approx(50e-9 / 60)


@pytest.mark.parametrize(
    ("text", "reference"),
    [("150 bar", None), ("150 bar(g)", "gauge"), ("150 barg", "gauge"), ("150 psia", "absolute"),
     ("15 MPa(a)", "absolute"), ("1 atm(g)", "gauge"), ("100 Paa", "absolute")],
)  # fmt: skip
def test_gauge_and_absolute_are_kept(text, reference):
    assert parse_quantity(text, "pressure").reference == reference


def test_gauge_becomes_absolute_with_the_room():
    gauge = parse_quantity("150 bar(g)", "pressure")
    assert gauge.absolute() == pytest.approx(151.013e5)
    assert gauge.absolute(room=0.85e5, plain="absolute") == pytest.approx(150.85e5)
    plain = parse_quantity("150 bar", "pressure")
    assert plain.absolute(plain="gauge") == pytest.approx(151.013e5)
    assert plain.absolute(plain="absolute") == pytest.approx(150e5)
    assert parse_quantity("150 bar(a)", "pressure").absolute() == pytest.approx(150e5)


@pytest.mark.parametrize(
    ("text", "basis"), [("5 %", None), ("5 % v/v", "v/v"), ("5% w/w", "w/w"), ("5 % mol", "mol")]
)
def test_the_basis_of_a_share_is_kept(text, basis):
    quantity = parse_quantity(text, "share")
    assert (quantity.basis, quantity.si) == (basis, pytest.approx(0.05))


@pytest.mark.parametrize(
    "text", ["150bar", "150 bar", "+150 bar", "1.5e2 bar", "150. bar", " 150 bar "]
)
def test_spellings_of_one_value(text):
    assert parse_quantity(text, "pressure").si == pytest.approx(150e5)
