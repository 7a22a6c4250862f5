"""Lines of the accuracy table for liquids near one atmosphere, and for pairs of them."""

from __future__ import annotations

import numpy as np

from methodlint.fluids.liquids.known import LIQUIDS
from methodlint.fluids.miscibility.blends import miscible
from tests.reference import test_liquids_curves as curves
from tests.reference.accuracy_row import Row, apart, per_cent
from tests.reference.test_liquids_thermoml import medians

# Upper critical solution temperatures [K]; seen: IUPAC-NIST Solubility Data Series 78 (system
# 78_47, recommended) and Che et al. 1996, Huaxue Xuebao 54, 859 (abstract).
SEEN_CRITICAL = [("acetonitrile", "pentane", 341.3), ("acetonitrile", "water", 271.0)]

# From memory: Hölscher et al. 1986, Trejo et al. 2006 (methanol + n-hexane), IUPAC-NIST
# Solubility Data Series 78 (acetonitrile), literature (the rest).
REMEMBERED_CRITICAL = [
    ("methanol", "hexane", 307.5),
    ("methanol", "isooctane", 315.5),
    ("methanol", "pentane", 287.5),
    ("acetonitrile", "hexane", 350.2),
    ("acetonitrile", "heptane", 358.0),
    ("acetonitrile", "isooctane", 354.0),
]


def rows() -> list[Row]:
    """Curves against measurements, equations and books; fixed points; miscibility."""
    return [*_measured(), *_equations(), *_books(), *_fixed(), *_handbook(), *_miscibility()]


def _measured() -> list[Row]:
    errors: dict[str, list[float]] = {"density": [], "viscosity": []}
    liquids: dict[str, set[str]] = {"density": set(), "viscosity": set()}
    kelvins: dict[str, list[float]] = {"density": [], "viscosity": []}
    for name, quantity, kelvin, value, _ in medians():
        correlation = getattr(LIQUIDS[name], quantity)
        if correlation is not None and correlation.covers(kelvin):
            errors[quantity].append(float(correlation(kelvin)) / value)
            liquids[quantity].add(name)
            kelvins[quantity].append(kelvin - 273.15)
    source = "medians of the ThermoML archive, authors in the file; two outliers left out"
    return [
        Row(
            f"{quantity} of {len(liquids[quantity])} liquids",
            f"1 bar, {min(kelvins[quantity]):.0f} to {max(kelvins[quantity]):.0f} °C",
            source,
            "measured",
            per_cent(values, 1.0),
        )
        for quantity, values in errors.items()
    ]


def _equations() -> list[Row]:
    from CoolProp.CoolProp import PropsSI

    errors: dict[str, list[float]] = {"density": [], "viscosity": [], "vapour_pressure": []}
    for name, fluid in curves._REFERENCE_EQUATIONS.items():
        for key, quantity in (("D", "density"), ("V", "viscosity"), ("P", "vapour_pressure")):
            if quantity == "viscosity" and name in curves._NO_VISCOSITY:
                continue
            correlation = getattr(LIQUIDS[name], quantity)
            for kelvin in np.arange(273.15, 353.2, 10.0):
                if correlation.covers(kelvin):
                    truth = PropsSI(key, "T", float(kelvin), "Q", 0, fluid)
                    errors[quantity].append(float(correlation(kelvin)) / truth)
    source = "reference equations and transport models in CoolProp"
    return [
        Row(
            f"{quantity.replace('_', ' ')} of {10 if quantity != 'viscosity' else 7} liquids",
            "saturated, 0 to 80 °C",
            source,
            "reference equation",
            per_cent(values, 1.0),
        )
        for quantity, values in errors.items()
    ]


def _books() -> list[Row]:
    lines = []
    source = "Perry 2008, VDI 2010, Poling 2001, Dutt & Prasad and others by the thermo library"
    for quantity in ("density", "viscosity", "vapour_pressure"):
        errors, names = [], set()
        for name in curves.NAMES:
            for found, oracle in curves.against_books(name, quantity):
                errors.append(found / oracle)
                names.add(name)
        words = f"{quantity.replace('_', ' ')} of {len(names)} liquids"
        lines.append(Row(words, "10 to 80 °C", source, "handbook", per_cent(errors, 1.0)))
    return lines


def _fixed() -> list[Row]:
    import chemicals

    boiling, pressure = [], []
    for liquid in LIQUIDS.values():
        book = chemicals.Tb(liquid.cas)
        if book is not None and liquid.normal_boiling_point is not None:
            boiling.append(liquid.normal_boiling_point - book)
        curve, point = liquid.vapour_pressure, liquid.normal_boiling_point
        if curve is not None and point is not None and curve.covers(point):
            pressure.append(float(curve(point)) / 101325.0)
    collections = "experimental collections in the chemicals library"
    crc = "one atmosphere; boiling points of the CRC Handbook"
    return [
        Row("boiling points", "1 atm", collections, "handbook", tuple(boiling), "K"),
        Row(
            "vapour pressure at the boiling point",
            "1 atm",
            crc,
            "handbook",
            per_cent(pressure, 1.0),
        ),
    ]


def _handbook() -> list[Row]:
    def ratio(name: str, quantity: str, celsius: float, value: float) -> float:
        return float(getattr(LIQUIDS[name], quantity)(celsius + 273.15)) / value

    dense = [ratio(name, "density", t, value) for name, t, value in curves.DENSITIES]
    thick = [ratio(n, "viscosity", t, 1e-3 * value) for n, t, value, _ in curves.VISCOSITIES]
    tables = "CRC Handbook and tables of solvents for chromatography"
    return [
        Row("density of liquids", "20 and 25 °C", "CRC Handbook", "handbook", per_cent(dense, 1.0)),
        Row("viscosity of liquids", "20 to 26 °C", tables, "unverified", per_cent(thick, 1.0)),
    ]


def _miscibility() -> list[Row]:
    def found(table: list[tuple[str, str, float]]) -> tuple[float, ...]:
        computed = [miscible(a, b, 293.15).critical_temperature for a, b, _ in table]
        assert None not in computed
        return apart(np.array(computed, dtype=float), [value for *_, value in table])

    name, stored = "upper critical solution temperature of pairs", "stored, not computed"
    seen = f"IUPAC-NIST Solubility Data Series 78, Che et al. 1996; {stored}"
    memory = f"Solubility Data Series and other literature; {stored}"
    return [
        Row(name, "-2 to 68 °C", seen, "measured", found(SEEN_CRITICAL), "K"),
        Row(name, "14 to 85 °C", memory, "unverified", found(REMEMBERED_CRITICAL), "K"),
    ]
