"""Names and nodes of the shipped CO2 surfaces, shared by their generator and their evaluator."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

__all__ = [
    "DATA_FILE",
    "LINEAR",
    "LINES",
    "RECORD_FILE",
    "ROOT_LINE",
    "ROOT_U",
    "ROOT_V",
    "SUBLIMATION_LINES",
    "SURFACES",
    "SurfaceGrid",
]

FloatArray = npt.NDArray[np.float64]

DATA_FILE: Final = "co2_surfaces.npz"
RECORD_FILE: Final = "co2_surfaces.json"

#: Surfaces over (T, P), in SI units.
SURFACES: Final = (
    "density",
    "viscosity",
    "enthalpy",
    "heat_capacity",
    "compressibility",
    "expansivity",
)
#: Properties along the saturation line from the critical to the triple point.
LINES: Final = (
    "saturation_pressure",
    "liquid_density",
    "vapour_density",
    "liquid_enthalpy",
    "vapour_enthalpy",
    "vapour_heat_capacity",
)
#: Properties of the vapour over solid CO2, up to the triple point.
SUBLIMATION_LINES: Final = (
    "sublimation_vapour_density",
    "sublimation_vapour_enthalpy",
    "sublimation_vapour_heat_capacity",
)
#: Interpolated as they are; the rest as their logarithm.
LINEAR: Final = frozenset(
    {"enthalpy", "liquid_enthalpy", "vapour_enthalpy", "sublimation_vapour_enthalpy"}
)


#: Nodes are evenly spaced in these roots of the distance: of temperature from the critical one on
#: the patches (u), of logarithmic pressure from the ridge (v), of temperature on the lines.
ROOT_U: Final = 3
ROOT_V: Final = 4
ROOT_LINE: Final = 2


@dataclass(frozen=True)
class SurfaceGrid:
    """Where the nodes of the surfaces and lines lie.

    Parameters
    ----------
    critical_temperature, coldest, hottest, triple_temperature, coldest_solid : float
        Temperatures [K].
    lowest, highest : float
        Pressures [Pa].
    nodes_u, nodes_v : int
        Nodes of a patch along temperature and along pressure.
    nodes_line : int
        Nodes of the saturation line, and of the critical isochore.
    nodes_sublimation : int
        Nodes of the sublimation line, evenly spaced from `coldest_solid` to the triple point.
    """

    critical_temperature: float
    coldest: float
    hottest: float
    triple_temperature: float
    coldest_solid: float
    lowest: float
    highest: float
    nodes_u: int
    nodes_v: int
    nodes_line: int
    nodes_sublimation: int

    def patch_temperatures(self, hot: bool) -> FloatArray:
        """Node temperatures [K] of the colder or the warmer patches, from critical outwards."""
        end = self.hottest if hot else self.coldest
        span = end - self.critical_temperature
        steps = np.linspace(0.0, 1.0, self.nodes_u)
        return np.asarray(self.critical_temperature + span * steps**ROOT_U)

    def line_temperatures(self, hot: bool) -> FloatArray:
        """Node temperatures [K] of the critical isochore (`hot`) or the saturation line."""
        end = self.hottest if hot else self.triple_temperature
        span = end - self.critical_temperature
        steps = np.linspace(0.0, 1.0, self.nodes_line)
        return np.asarray(self.critical_temperature + span * steps**ROOT_LINE)

    def sublimation_temperatures(self) -> FloatArray:
        """Node temperatures [K] of the sublimation line, rising."""
        return np.linspace(self.coldest_solid, self.triple_temperature, self.nodes_sublimation)

    def patch_pressures(self, ridge: float, light: bool) -> FloatArray:
        """Node pressures [Pa] at one temperature, from the ridge pressure [Pa] outwards."""
        end = np.log((self.lowest if light else self.highest) / ridge)
        return np.asarray(ridge * np.exp(end * np.linspace(0.0, 1.0, self.nodes_v) ** ROOT_V))
