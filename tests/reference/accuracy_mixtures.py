"""Lines of the accuracy table for CO2 with a modifier, and for modifiers under pressure."""

from __future__ import annotations

import numpy as np
from CoolProp.CoolProp import PropsSI

from methodlint.fluids.liquids.density_dymond_1988 import compression
from methodlint.fluids.mixtures.interaction_parameters import PAIRS
from methodlint.fluids.mixtures.mixture import MixtureModel
from methodlint.fluids.mixtures.mixture_choice import model_for
from methodlint.hydraulics.closed_volume import warmed_liquid
from tests.reference import test_mixture_density_gross_sadowski_2002 as saft
from tests.reference import test_mixture_modifier_under_pressure as pressed
from tests.reference import test_mixture_viscosity as viscous
from tests.reference.accuracy_row import Row, apart, per_cent
from tests.reference.mixture_densities import densities
from tests.reference.test_mixture_bubble_points import deviations
from tests.reference.test_mixture_bubble_pressures import ETHANOL_313, METHANOL, mass_fraction
from tests.reference.test_mixture_critical_pressures import PUBLISHED

# Peng & Robinson 1976 with k12 = 0.07, traced with the teqp library 0.23.2: [C], [bar]
TRACED_ACETONITRILE = [(40.0, 81.7), (50.0, 93.3), (60.0, 102.7)]

_HEAD_DENSITY = 950.0
"""Of carbon dioxide in a chilled pump head [kg/m3], for shares by volume."""

_SOURCES = {
    "methanol": "Brunner 1985, Brunner et al. 1987, Yeo et al. 2000",
    "ethanol": "Galicia-Luna 2000, Yeo 2000, Joung 2001",
    "2-propanol": "Bamberger & Maurer 2000",
}


def rows() -> list[Row]:
    """Phase boundary, density, viscosity, and the liquids under pressure."""
    return [*_bubble(), *_critical(), *_density(), *_viscosity(), *_expansion(), *_modifiers()]


def _model(name: str) -> MixtureModel:
    found = model_for(name)
    assert found is not None
    return found


def _bubble() -> list[Row]:
    methanol, ethanol = _model("methanol"), _model("ethanol")

    def bar(model: MixtureModel, x_co2: float, kelvin: float) -> float:
        w = mass_fraction(model, x_co2)
        return float(model.upper_boundary_pressure(w, kelvin)) / 1e5

    lean = per_cent(
        [bar(methanol, x, t + 273.15) for t, x, _ in METHANOL], [p for *_, p in METHANOL]
    )
    rich = per_cent([bar(ethanol, x, 313.14) for x, _ in ETHANOL_313], [p for _, p in ETHANOL_313])
    name = "bubble pressure, CO2 + "
    ohgaki = "Ohgaki & Katayama 1976, Suzuki et al. 1990, Bezanehtak 2002, rounded"
    galicia = "Galicia-Luna, Ortega-Rodriguez & Richon 2000 (paper's name unverified)"
    return [
        Row(name + "methanol", "25 and 40 °C", ohgaki, "unverified", lean),
        Row(name + "ethanol", "40 °C, x(CO2) 0.05 to 0.75", galicia, "measured", rich),
        *(_open_data(liquid, warm) for liquid in PAIRS for warm in (False, True)),
    ]


def _open_data(liquid: str, warm: bool) -> Row:
    """Measured points up to or above 40 C, with the shares inside and above the printed band."""
    measured = deviations(liquid)
    of_these = (measured.kelvin > 313.3) == warm
    off, below, above = measured.off[of_these], measured.below[of_these], measured.above[of_these]
    inside = np.mean((off < below) & (off > -above))
    unsafe = np.mean(off <= -above)
    where = (
        f"{'above 40' if warm else '0 to 40'} °C; {inside:.0%} in the band, {unsafe:.1%} above it"
    )
    return Row(
        f"bubble pressure, CO2 + {liquid}",
        where,
        "ThermoML archive, many papers; fitted to them",
        "measured",
        apart(off / 1e5, np.zeros(off.size)),
        "bar",
    )


def _critical() -> list[Row]:
    lines = []
    name = "mixture critical pressure, CO2 + "
    # 143 bar at 100 C belongs to the same memory as the other two of ethanol
    published = [*((row[0], row[1], row[2]) for row in PUBLISHED), ("ethanol", 100.0, 143.0)]
    for liquid, source in _SOURCES.items():
        points = [(celsius, bar) for of, celsius, bar in published if of == liquid]
        found = [float(_model(liquid).highest_two_phase_pressure(t + 273.15)) for t, _ in points]
        errors = apart(np.array(found) / 1e5, [bar for _, bar in points])
        where = ", ".join(f"{celsius:.0f}" for celsius, _ in points) + " °C"
        lines.append(Row(name + liquid, where, source, "unverified", errors, "bar"))
    crest = [
        float(_model("acetonitrile").highest_two_phase_pressure(celsius + 273.15)) / 1e5
        for celsius, _ in TRACED_ACETONITRILE
    ]
    traced = "the same cubic and assumed k12, traced by the teqp library"
    errors = apart(crest, [bar for _, bar in TRACED_ACETONITRILE])
    lines.append(
        Row(name + "acetonitrile", "40 to 60 °C", traced, "another model only", errors, "bar")
    )
    below, truth = [], []
    for liquid in ("methanol", "ethanol", "2-propanol", "acetonitrile"):
        for celsius in (0.0, 10.5, 20.0, 25.0, 29.3, 30.9):
            below.append(float(_model(liquid).highest_two_phase_pressure(celsius + 273.15)))
            truth.append(PropsSI("P", "T", celsius + 273.15, "Q", 0, "CO2"))
    lines.append(
        Row(
            "highest two-phase pressure, all four modifiers",
            "0 to 31 °C",
            "saturation of CO2, Span & Wagner 1996 by CoolProp",
            "reference equation",
            per_cent(below, truth),
        )
    )
    return lines


def _density() -> list[Row]:
    lines = []
    source = "PC-SAFT, Gross & Sadowski 2001/2002, by the feos library"
    where = "25 to 60 °C, 100 to 300 bar, 40 bar above the boundary"
    for name in ("methanol", "ethanol", "2-propanol"):
        c = saft.compare(name)
        errors = per_cent(c.model.density(c.w, c.T, c.P), c.oracle)
        lines.append(Row(f"density, CO2 + {name}", where, source, "another model only", errors))
    archive = "ThermoML archive, 3 bar and more above the boundary"
    for name, span in (
        ("2-propanol", "35 to 75 °C, 35 to 180 bar"),
        ("ethanol", "35 to 50 °C, 50 to 300 bar"),
    ):
        found = densities(name)
        inside = np.mean(np.abs(found.off) < found.band)
        errors = per_cent(found.computed, found.measured)
        where = f"{span}; {inside:.0%} in the band"
        lines.append(Row(f"density, CO2 + {name}", where, archive, "measured", errors))
    lines.append(Row("density, CO2 + acetonitrile", "-", "nothing was at hand", "not compared"))
    model = viscous.model_of_tetrahydrofuran()
    points = viscous.SATO_2010_DENSITIES
    sato_found = [float(model.density(mass_fraction(model, x), 333.2, 102e5)) for x, _ in points]
    sato = "Sato et al. 2010, Int. J. Thermophys., 10.1007/s10765-008-0542-6 (unverified)"
    errors = per_cent(sato_found, [value for _, value in points])
    span = "60 °C, 102 bar, x(CO2) 0 and 0.17"
    lines.append(
        Row("density, CO2 + tetrahydrofuran by the same rule", span, sato, "measured", errors)
    )
    return lines


def _viscosity() -> list[Row]:
    model = viscous.model_of_tetrahydrofuran()
    points = viscous.SATO_2010_VISCOSITIES
    found = [1e3 * float(model.viscosity(mass_fraction(model, x), 333.2, 102e5)) for x, _ in points]
    fitted = per_cent(found, [value for _, value in points])
    scaling = tuple(100.0 * value for value in viscous.deviations_from_entropy_scaling())
    cubic = per_cent([viscous.over_cubic_root_mixing(s) for s in (0.05, 0.18, 0.40)], 1.0)
    kind = "another model only"
    name = "viscosity, CO2 + methanol"
    gross = "entropy scaling on PCP-SAFT, Lötgering-Lin et al. 2018, by the feos library"
    return [
        Row(
            "viscosity, CO2 + tetrahydrofuran by the same rule",
            "60 °C, 102 bar, x(CO2) 0.12 and 0.17",
            "Sato et al. 2010; the rule's one parameter is set to these two",
            "measured",
            fitted,
        ),
        Row(name, "25 to 60 °C, 120 to 300 bar", gross, kind, scaling),
        Row(
            name,
            "40 °C, 200 bar, 5 to 40 % v/v",
            "cubic-root mixing, Kendall & Monroe 1917",
            kind,
            cubic,
        ),
        *_other_viscosities(kind),
        Row("heat capacity, CO2 + modifier", "-", "nothing was at hand", "not compared"),
    ]


def _other_viscosities(kind: str) -> list[Row]:
    """Nothing measured was at hand: the rule that the pressure-drop band counts with."""
    return [
        Row(
            f"viscosity, CO2 + {name}",
            "40 °C, 200 bar, 5 to 40 % v/v",
            "cubic-root mixing, Kendall & Monroe 1917",
            kind,
            per_cent([viscous.over_cubic_root_mixing(s, name) for s in (0.05, 0.18, 0.40)], 1.0),
        )
        for name in ("ethanol", "2-propanol", "acetonitrile")
    ]


def _expansion() -> list[Row]:
    """Pressure at which the mixture neither cools nor warms when it expands."""
    model = _model("methanol")
    liquid = 0.25 * float(model.modifier_density(293.15))
    w = liquid / (liquid + 0.75 * _HEAD_DENSITY)
    pressures = np.linspace(100e5, 400e5, 601)
    slopes = model.isenthalpic_slope(w, 313.15, pressures)
    crossing = float(np.interp(0.0, -slopes, pressures)) / 1e5
    return [
        Row(
            "Joule-Thomson crossing, CO2 + 25 % v/v methanol",
            "40 °C",
            "De Pauw et al. 2014, J. Chromatogr. A 1365, 212: 150 bar (abstract only)",
            "measured",
            per_cent(crossing, 150.0),
        )
    ]


def _modifiers() -> list[Row]:
    density, viscosity = [], []
    for name, fluid in pressed.FLUIDS.items():
        model = _model(name)
        for T in pressed.TEMPERATURES:
            for P in (5e5, 100e5, 300e5, 700e5):
                truth = PropsSI("D", "T", T, "P", P, fluid)
                density.append(float(model.modifier_density(T, P)) / truth)
                if P < 400e5:
                    truth = PropsSI("V", "T", T, "P", P, fluid)
                    viscosity.append(float(model.viscosity(1.0, T, P)) / truth)
    compressed = []
    for name, kappa in pressed.COMPRESSIBILITIES:
        ratio = compression(name, 298.15, 20e5) / compression(name, 298.15, 2e5)
        compressed.append(np.log(float(ratio)) / 18e5 / kappa)
    closed, truth = [], []
    for kelvin in (303.15, 313.15, 323.15, 333.15):
        found = warmed_liquid(_model("methanol").modifier_density, 298.15, 150e5, kelvin)
        closed.append(found.pressure)
        rho = PropsSI("D", "T", 298.15, "P", 150e5, "Methanol")
        truth.append(PropsSI("P", "T", kelvin, "D", rho, "Methanol"))
    kind = "reference equation"
    equations = "de Reuck & Craven 1993, Schroeder et al. 2014 by CoolProp"
    both = "methanol and ethanol under pressure"
    return [
        Row(
            f"density, {both}", "0 to 100 °C, 5 to 700 bar", equations, kind, per_cent(density, 1.0)
        ),
        Row(
            f"viscosity, {both}",
            "0 to 100 °C, 5 to 300 bar",
            "correlations in CoolProp",
            kind,
            per_cent(viscosity, 1.0),
        ),
        Row(
            "compressibility of 2-propanol, acetonitrile, tetrahydrofuran, water",
            "25 °C",
            "handbook values; set to them",
            "unverified",
            per_cent(compressed, 1.0),
        ),
        Row(
            "pressure of methanol shut in at 25 °C, 150 bar",
            "30 to 60 °C",
            "de Reuck & Craven 1993 by CoolProp",
            kind,
            per_cent(closed, truth),
        ),
    ]
