"""Lines of the accuracy table for tubes and packed beds."""

from __future__ import annotations

import math

import fluids
import fluids.packed_bed

from methodlint.hydraulics import friction_turbulent_blasius_1913 as blasius
from methodlint.hydraulics.columns import (
    DEFAULT_FLOW_RESISTANCE,
    ergun_gradient,
    kozeny_carman_resistance,
)
from methodlint.hydraulics.tubes import pressure_gradient
from tests.reference.accuracy_row import Row, per_cent


def rows() -> list[Row]:
    """Friction laws and beds."""
    return [*_tubes(), *_beds()]


def _tubes() -> list[Row]:
    length, bore, rho, eta = 0.6, 0.15e-3, 850.0, 9.0e-5
    found: dict[str, list[float]] = {"laminar": [], "turbulent": []}
    for reynolds in (0.5, 20.0, 500.0, 2000.0, 4200.0, 9000.0, 3.0e4, 9.0e4):
        velocity = reynolds * eta / (rho * bore)
        # the implicit equation of Colebrook for a smooth tube, as Clamond 2009 solves it
        turbulent = reynolds > 4000.0
        factor = fluids.friction.Clamond(reynolds, 0.0) if turbulent else 64.0 / reynolds
        loss = fluids.K_from_f(fd=factor, L=length, D=bore)
        truth = fluids.dP_from_K(loss, rho=rho, V=velocity)
        mass_flow = rho * velocity * math.pi / 4.0 * bore**2
        computed = float(pressure_gradient(mass_flow, bore, rho, eta).gradient) * length
        found["turbulent" if turbulent else "laminar"].append(computed / truth)
    laws = [float(blasius.friction_factor(re)) for re in (4000.0, 9000.0, 3.0e4, 1.0e5)]
    same = [fluids.friction.Blasius(re) for re in (4000.0, 9000.0, 3.0e4, 1.0e5)]
    kind = "reference equation"
    return [
        Row(
            "pressure lost in a laminar tube",
            "Re 0.5 to 2000",
            "Hagen and Poiseuille by the fluids library",
            kind,
            per_cent(found["laminar"], 1.0),
        ),
        Row(
            "pressure lost in a turbulent tube (Blasius 1913)",
            "Re 4200 to 90 000",
            "Colebrook's equation for a smooth tube by the fluids library",
            kind,
            per_cent(found["turbulent"], 1.0),
        ),
        Row(
            "turbulent friction factor (Blasius 1913)",
            "Re 4000 to 100 000",
            "the same law in the fluids library",
            kind,
            per_cent(laws, same),
        ),
    ]


def _beds() -> list[Row]:
    ratio = []
    for velocity in (1.0e-4, 5.0e-3, 0.5):
        for porosity in (0.36, 0.40):
            dp, rho, eta, length = 5.0e-6, 850.0, 8.0e-5, 0.25
            truth = fluids.packed_bed.Ergun(
                dp=dp, voidage=porosity, vs=velocity, rho=rho, mu=eta, L=length
            )
            resistance = kozeny_carman_resistance(porosity, constant=150.0)
            found = ergun_gradient(velocity, dp, resistance, porosity, rho, eta) * length
            ratio.append(float(found) / truth)
    spread = [
        DEFAULT_FLOW_RESISTANCE / float(kozeny_carman_resistance(porosity, constant))
        for constant in (150.0, 180.0)
        for porosity in (0.38, 0.40)
    ]
    return [
        Row(
            "pressure lost in a packed bed (Ergun 1952)",
            "porosity 0.36 and 0.40, 0.1 mm/s to 0.5 m/s",
            "the same equation in the fluids library",
            "reference equation",
            per_cent(ratio, 1.0),
        ),
        Row(
            "flow resistance of a bed that nobody measured (1000)",
            "porosity 0.38 and 0.40",
            "Kozeny-Carman with constants 150 (Ergun 1952) and 180 (Carman 1937)",
            "another model only",
            per_cent(spread, 1.0),
        ),
    ]
