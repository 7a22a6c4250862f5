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
from tests.reference.test_mixture_bubble_points import deviations
from tests.reference.test_mixture_bubble_pressures import ETHANOL_313, METHANOL, mass_fraction
from tests.reference.test_mixture_critical_pressures import PUBLISHED

# Peng & Robinson 1976 with k12 = 0.07, traced with the teqp library 0.23.2: [C], [bar]
TRACED_ACETONITRILE = [(40.0, 81.7), (50.0, 93.3), (60.0, 102.7)]

_SOURCES = {
    "methanol": "Brunner 1985, Brunner et al. 1987, Yeo et al. 2000",
    "ethanol": "Galicia-Luna 2000, Yeo 2000, Joung 2001",
    "2-propanol": "Bamberger & Maurer 2000",
}


def rows() -> list[Row]:
    """Phase boundary, density, viscosity, and the liquids under pressure."""
    return [*_bubble(), *_critical(), *_density(), *_viscosity(), *_modifiers()]


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
    galicia = "Galicia-Luna, Ortega-Rodriguez & Richon 2000, paper's name from memory"
    return [
        Row(name + "methanol", "25 and 40 °C", ohgaki, "from memory", lean),
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
        lines.append(Row(name + liquid, where, source, "from memory", errors, "bar"))
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
    lines.append(Row("density, CO2 + acetonitrile", "-", "nothing was at hand", "not compared"))
    model = viscous.model_of_tetrahydrofuran()
    points = viscous.SATO_2010_DENSITIES
    found = [float(model.density(mass_fraction(model, x), 333.2, 102e5)) for x, _ in points]
    sato = "Sato et al. 2010, Int. J. Thermophys., 10.1007/s10765-008-0542-6"
    errors = per_cent(found, [value for _, value in points])
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
        Row(
            "viscosity, CO2 + ethanol, 2-propanol, acetonitrile",
            "-",
            "nothing was at hand",
            "not compared",
        ),
        Row("heat capacity, CO2 + modifier", "-", "nothing was at hand", "not compared"),
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
            "from memory",
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
