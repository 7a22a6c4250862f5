"""No second liquid between 65 and 700 bar at 0-60 C, at any composition, for any modifier.

None has been reported for these pairs (type I, continuous critical loci: Brunner 1985,
Galicia-Luna 2000; from memory). A cubic with too large a k12 invents one, and the alarm it would
raise is false.
"""

from __future__ import annotations

import numpy as np
import pytest

from methodlint.fluids.mixtures.boundary import load_boundary
from methodlint.fluids.mixtures.interaction_parameters import PAIRS, PairParameters
from methodlint.fluids.mixtures.mixture_choice import model_for
from methodlint.fluids.peng_robinson_1976 import Interaction

COMPOSITIONS = np.linspace(0.0, 1.0, 302)[1:-1] ** 2
CELSIUS = (0.0, 5.0, 10.0, 15.0, 20.0, 25.0, 28.0, 31.0, 40.0, 50.0, 60.0)


def least_stability(pair: PairParameters, celsius: float, k12: float | None = None) -> float:
    """Smallest d(ln f2)/d(ln x2) over composition and pressure: negative inside a spinodal."""
    T = celsius + 273.15
    crest = float(load_boundary(pair.name).highest_two_phase_pressure(T))
    pressures = np.geomspace(max(65e5, 1.01 * crest), 700e5, 40)
    k = pair.boundary.at(T) if k12 is None else Interaction(k12)
    stability = pair.cubic.diffusion_stability(
        COMPOSITIONS[:, None], T, pressures[None, :], k, liquid=True
    )
    return float(stability.min())


@pytest.mark.parametrize("name", sorted(PAIRS))
@pytest.mark.parametrize("celsius", CELSIUS)
def test_liquid_is_stable_at_every_composition(name: str, celsius: float) -> None:
    assert least_stability(PAIRS[name], celsius) > 0.01


@pytest.mark.parametrize("name", sorted(PAIRS))
@pytest.mark.parametrize("celsius", CELSIUS)
def test_tables_show_one_phase_above_the_saturation_of_co2(name: str, celsius: float) -> None:
    model = model_for(name)
    assert model is not None
    T = celsius + 273.15
    lowest = max(65e5, 1.002 * float(model.highest_two_phase_pressure(T)))
    w = np.linspace(0.0, 1.0, 400)[:, None] ** 2
    P = np.geomspace(lowest, 700e5, 40)[None, :]
    assert not model.two_phase(w, T, P).any()


@pytest.mark.parametrize(
    ("name", "celsius", "k12"), [("ethanol", 10.0, 0.0926), ("methanol", 10.0, 0.070)]
)
def test_scan_sees_the_false_liquid_of_too_large_a_parameter(
    name: str, celsius: float, k12: float
) -> None:
    assert least_stability(PAIRS[name], celsius, k12) < 0.0


@pytest.mark.parametrize("name", sorted(PAIRS))
def test_bubble_pressure_falls_from_the_crest_to_the_modifier_at_every_temperature(
    name: str,
) -> None:
    """A bubble line that rises again would hold a second liquid."""
    table = load_boundary(name)
    bubble = table.upper[:, table.retrograde_nodes :]
    assert np.all(np.diff(bubble, axis=1) < 2e3)
