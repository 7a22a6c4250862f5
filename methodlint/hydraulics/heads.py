"""Density of carbon dioxide in the heads of the pumps that meter it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from methodlint.fluids.co2 import states as co2_states
from methodlint.hydraulics.distinct import distinct
from methodlint.hydraulics.fluid_interface import FloatArray
from methodlint.hydraulics.sweeps import HIGHEST_MODEL_PRESSURE

__all__ = ["Heads"]


@dataclass(frozen=True, slots=True)
class Heads:
    """Heads of the CO2 pumps of some rows, (r,).

    Attributes
    ----------
    stated : ndarray
        Density [kg/m3]; NaN for a pump that meters volume.
    which : ndarray of int
        Number of the head's temperature.
    isotherms : co2_states.Isotherms or None
        Density at the few temperatures of those that meter volume.
    """

    stated: FloatArray
    which: npt.NDArray[np.intp]
    isotherms: co2_states.CarbonDioxideIsotherms | None

    @classmethod
    def of(cls, temperature: FloatArray, stated: FloatArray) -> Heads:
        """Heads of these temperatures [K] and stated densities [kg/m3], (r,)."""
        few = distinct(temperature[np.isnan(stated)])
        if not few.size:
            return cls(stated, np.zeros(stated.shape, dtype=np.intp), None)
        which = np.minimum(np.searchsorted(few, temperature), few.size - 1)
        return cls(stated, which, _isotherms(few.tobytes()))

    def density(self, pump_pressure: FloatArray) -> FloatArray:
        """Density that turns the set flow of CO2 into mass [kg/m3].

        Parameters
        ----------
        pump_pressure : ndarray, (r,)
            [Pa, abs]; taken at 700 bar where the march has climbed above.

        Raises
        ------
        methodlint.fluids.validity.OutOfRange
            If a head's temperature lies where there is no model.
        """
        if self.isotherms is None:
            return self.stated
        known = np.minimum(pump_pressure, HIGHEST_MODEL_PRESSURE)
        found = self.isotherms.properties(self.which, known)[0]
        return np.where(np.isnan(self.stated), found, self.stated)

    def take(self, rows: npt.NDArray[np.int64]) -> Heads:
        """The same for some of the rows."""
        return Heads(self.stated[rows], self.which[rows], self.isotherms)


@lru_cache(maxsize=16)
def _isotherms(temperatures: bytes) -> co2_states.CarbonDioxideIsotherms:
    return co2_states.CarbonDioxideIsotherms(np.frombuffer(temperatures), ("density",))
