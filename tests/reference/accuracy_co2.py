"""Lines of the accuracy table for pure CO2."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt
from CoolProp import CoolProp

from methodlint.fluids.co2 import properties as co2
from methodlint.hydraulics.expansion import regulator_heats
from tests.reference.accuracy_row import Row, apart, per_cent, spread
from tests.reference.test_co2_closed_volume import CELSIUS, CYLINDER_FILLS
from tests.reference.test_co2_densities import SOLUBILITY_STUDY, TANG_2011, WEBBOOK
from tests.reference.test_co2_saturation import (
    LIQUID_DENSITIES,
    PRESSURES_MPA,
    VAPOUR_DENSITIES,
)
from tests.reference.test_co2_viscosity import FENGHOUR_1998, LAESECKE_MUZNY_2017

Array = npt.NDArray[np.float64]
EQUATION = "Span & Wagner 1996 by CoolProp"
TRANSPORT = "Laesecke & Muzny 2017 by CoolProp"


def rows() -> list[Row]:
    """Surfaces, saturation line, printed tables, expansion, closed volumes."""
    return [*_surfaces(), *_saturation(), *_tables(), *_expansion(), *_closed()]


def _states() -> tuple[Array, Array]:
    kelvin, first = spread(1200, (263.15, 373.15), (0.0, 1.0))
    even = 1e5 + first * 699e5
    logarithmic = np.exp(np.log(1e5) + first * np.log(700.0))
    return kelvin, np.where(np.arange(first.size) % 2 == 0, even, logarithmic)


def _near_critical() -> tuple[Array, Array]:
    kelvin, pascal = spread(400, (301.1282, 307.1282), (6.9773e6, 7.7773e6))
    return kelvin, pascal


def _equation(kelvin: Array, pascal: Array) -> tuple[Array, Array, Array]:
    """States that the library takes, and density, viscosity, enthalpy, heat capacity there."""
    state = CoolProp.AbstractState("HEOS", "CO2")
    found, kept = [], []
    for number, (temperature, pressure) in enumerate(zip(kelvin, pascal, strict=True)):
        try:
            state.update(CoolProp.PT_INPUTS, pressure, temperature)
        except ValueError:
            # within 1e-6 of the saturation line
            continue
        kept.append(number)
        found.append((state.rhomass(), state.viscosity(), state.hmass(), state.cpmass()))
    return kelvin[kept], pascal[kept], np.array(found).T


def _surfaces() -> list[Row]:
    kelvin, pascal = _states()
    inside = (np.abs(kelvin - 304.1282) < 3.0) & (np.abs(pascal - 7.3773e6) < 4e5)
    wide = _equation(kelvin[~inside], pascal[~inside])
    near = _equation(*_near_critical())
    whole, box = "-10 to 100 °C, 1 to 700 bar", "within 3 K and 4 bar of the critical point"
    lines = []
    for where, (temperature, pressure, truth) in ((whole, wide), (box, near)):
        rho, eta = co2.density_and_viscosity(temperature, pressure)
        lines += [
            Row("CO2 density", where, EQUATION, "reference equation", per_cent(rho, truth[0])),
            Row("CO2 viscosity", where, TRANSPORT, "reference equation", per_cent(eta, truth[1])),
        ]
    temperature, pressure, truth = wide
    h, c = co2.enthalpy(temperature, pressure), co2.heat_capacity(temperature, pressure)
    kind = "reference equation"
    lines.append(Row("CO2 enthalpy", whole, EQUATION, kind, apart(h, truth[2], 1e3), "kJ/kg"))
    lines.append(Row("CO2 heat capacity", whole, EQUATION, kind, per_cent(c, truth[3])))
    return lines


def _saturation() -> list[Row]:
    kelvin = np.linspace(217.0, 304.0, 60)
    truth = [
        np.array([CoolProp.PropsSI(key, "T", float(T), "Q", quality, "CO2") for T in kelvin])
        for key, quality in (("P", 0), ("D", 0), ("D", 1))
    ]
    where, kind = "-56 to 30.8 °C", "reference equation"
    pressure = per_cent(co2.saturation_pressure(kelvin), truth[0])
    dense = per_cent(co2.saturated_liquid_density(kelvin), truth[1])
    thin = per_cent(co2.saturated_vapour_density(kelvin), truth[2])
    printed = [
        *(float(co2.saturation_pressure(T)) / (1e6 * value) for T, value in PRESSURES_MPA),
        *(float(co2.saturated_liquid_density(T)) / value for T, value in LIQUID_DENSITIES),
        *(float(co2.saturated_vapour_density(T)) / value for T, value in VAPOUR_DENSITIES),
    ]
    table = "Span & Wagner 1996, saturation table"
    return [
        Row("CO2 saturation pressure", where, EQUATION, kind, pressure),
        Row("CO2 saturated liquid and vapour density", where, EQUATION, kind, dense + thin),
        Row("CO2 saturation line", "-3 to 27 °C", table, "unverified", per_cent(printed, 1.0)),
    ]


def _tables() -> list[Row]:
    def density(table: list[tuple[float, float, float]]) -> tuple[float, ...]:
        celsius, bar, value = np.array(table, dtype=float).T
        return per_cent(co2.density(celsius + 273.15, bar * 1e5), value)

    def viscosity(table: list[tuple[float, float, float]], scale: float) -> tuple[float, ...]:
        return per_cent(
            [float(co2.viscosity(T, co2.pressure_at_density(T, rho))) for T, rho, _ in table],
            [scale * value for *_, value in table],
        )

    study = "table of a solubility study, original not identified, rounded to 1 kg/m3"
    older = "Fenghour, Wakeham & Vesovic 1998, check values of the older correlation"
    return [
        Row(
            "CO2 density",
            "35 to 55 °C, 100 to 210 bar",
            "Tang, Jin et al. 2011, printed from the equation",
            "reference equation",
            density(TANG_2011),
        ),
        Row(
            "CO2 density",
            "35 to 65 °C, 120 to 270 bar",
            study,
            "handbook",
            density(SOLUBILITY_STUDY),
        ),
        Row(
            "CO2 density",
            "40 to 60 °C, 80 to 200 bar",
            "NIST WebBook",
            "unverified",
            density(WEBBOOK),
        ),
        Row(
            "CO2 viscosity",
            "220 to 700 K, 3 to 1200 kg/m3",
            "Laesecke & Muzny 2017, check values",
            "reference equation",
            viscosity(LAESECKE_MUZNY_2017, 1e-3),
        ),
        Row("CO2 viscosity", "220 to 304 K", older, "unverified", viscosity(FENGHOUR_1998, 1e-6)),
    ]


def _inversion(kelvin: float) -> float:
    """Pressure [Pa] at which neat CO2 neither warms nor cools on expansion."""
    low, high = 300e5, 600e5
    for _ in range(40):
        middle = 0.5 * (low + high)
        cools = float(co2.isenthalpic_slope(kelvin, middle)) > 0.0
        low, high = (middle, high) if cools else (low, middle)
    return 0.5 * (low + high)


def _inversion_of_the_equation(kelvin: float) -> float:
    state = CoolProp.AbstractState("HEOS", "CO2")

    def slope(pascal: float) -> float:
        state.update(CoolProp.PT_INPUTS, pascal, kelvin)
        return float(state.first_partial_deriv(CoolProp.iT, CoolProp.iP, CoolProp.iHmass))

    low, high = 300e5, 600e5
    for _ in range(40):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if slope(middle) > 0.0 else (low, middle)
    return 0.5 * (low + high)


def _expansion() -> list[Row]:
    warm = [308.15, 313.15, 323.15, 333.15]
    at = [_inversion(T) for T in warm]
    starts = [(308.15, 150e5), (313.15, 120e5), (313.15, 150e5), (333.15, 150e5), (313.15, 300e5)]
    ends = [6e5, 10e5, 20e5, 40e5, 60e5]
    temperature, vapour, heat = [], [], []
    for T, P in starts:
        h = CoolProp.PropsSI("H", "T", T, "P", P, "CO2")
        for end in ends:
            found = co2.isenthalpic_end(T, P, end)
            temperature.append(
                float(found.temperature) - CoolProp.PropsSI("T", "H", h, "P", end, "CO2")
            )
            quality = CoolProp.PropsSI("Q", "H", h, "P", end, "CO2")
            if 0.0 < quality < 1.0:
                vapour.append(100.0 * (float(found.vapour_fraction) - quality))
        gas = CoolProp.PropsSI("H", "T", 293.15, "P", 101325.0, "CO2")
        (one,) = regulator_heats(*(np.array([x]) for x in (T, P, 1e-5, 293.15)), [()])
        heat.append(one.carbon_dioxide / (1e-5 * (gas - h)))
    solid = np.linspace(160.0, 196.0, 19)
    logarithm = -1354.210 / solid + 8.69903 + 0.0015880 * solid - 4.5107e-6 * solid**2
    kind, span = "reference equation", "35 to 60 °C, 120 to 300 bar down to 6 to 60 bar"
    inversion = per_cent(at, [_inversion_of_the_equation(T) for T in warm])
    pauw = "De Pauw et al. 2014, J. Chromatogr. A 1365, 212, abstract: 450 bar"
    giauque = "Giauque & Egan 1937, J. Chem. Phys. 5, 45"
    textbook = "textbook value, 1.1 K/bar"
    ambient = per_cent(co2.isenthalpic_slope(298.15, 1e5) * 1e5, 1.1)
    back = "to gas at 20 °C from 35 to 60 °C, 120 to 300 bar"
    sublimation = per_cent(co2.sublimation_pressure(solid), 10.0**logarithm * 1333.22)
    return [
        Row("Joule-Thomson inversion pressure of CO2", "35 to 60 °C", EQUATION, kind, inversion),
        Row(
            "Joule-Thomson inversion pressure of CO2",
            "40 °C",
            pauw,
            "another model only",
            per_cent(at[1], 450e5),
        ),
        Row("Joule-Thomson coefficient of CO2", "25 °C, 1 bar", textbook, "unverified", ambient),
        Row(
            "temperature downstream of the regulator, CO2",
            span,
            EQUATION,
            kind,
            tuple(temperature),
            "K",
        ),
        Row(
            "vapour fraction downstream of the regulator, CO2",
            span,
            EQUATION,
            kind,
            tuple(vapour),
            "% of the mass",
        ),
        Row(
            "heat back to gas downstream of the regulator, CO2",
            back,
            EQUATION,
            kind,
            per_cent(heat, 1.0),
        ),
        Row("sublimation pressure of CO2", "160 to 196 K", giauque, "measured", sublimation),
    ]


def _closed() -> list[Row]:
    computed, truth = [], []
    for fill, _ in CYLINDER_FILLS:
        for kelvin in CELSIUS + 273.15:
            computed.append(float(co2.pressure_at_density(kelvin, fill)))
            truth.append(CoolProp.PropsSI("P", "T", float(kelvin), "D", fill, "CO2"))
    where = "fills of 0.667 and 0.75 kg/L, 25 to 50 °C"
    errors = per_cent(computed, truth)
    return [Row("pressure of a warmed CO2 cylinder", where, EQUATION, "reference equation", errors)]
