"""CO2 + methanol with ideal mixing of volumes: the model that the worked figures were made with."""

from __future__ import annotations

import numpy as np

from methodlint.fluids.co2 import properties as co2
from methodlint.fluids.mixtures.mixture import MixtureModel
from methodlint.fluids.mixtures.mixture_choice import model_for

METHANOL = 791.0  # density at 20 degC [kg/m3], handbooks


class IdealMixing:
    """Volumes add, logarithms of viscosity too; everything else is asked of the real model."""

    isotherms = None  # the real model's would not mix ideally

    def __init__(self) -> None:
        model = model_for("methanol")
        assert model is not None
        self.model: MixtureModel = model

    def __getattr__(self, name):
        return getattr(self.model, name)

    def density(self, w, T, P):
        w, T, P = np.broadcast_arrays(w, T, P)
        liquid = self.model.modifier_density(T, P)
        return 1.0 / (w / liquid + (1.0 - w) / co2.density(T, P))

    def viscosity(self, w, T, P):
        x = self.model.modifier_mole_fraction(w)
        liquid = self.model.viscosity(np.ones_like(x), T, P)
        return np.exp(x * np.log(liquid) + (1.0 - x) * np.log(co2.viscosity(T, P)))

    def density_and_viscosity(self, w, T, P):
        return self.density(w, T, P), self.viscosity(w, T, P)
