"""Temperature and density along the beds if they exchange no heat: the bound beside the oven's."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from methodlint.hydraulics.sweeps import HIGHEST_MODEL_PRESSURE
from methodlint.hydraulics.temperature import adiabatic_faces
from methodlint.rehearsal.run.states import RunStates

__all__ = ["AdiabaticColumn", "adiabatic_column"]

FloatArray = npt.NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class AdiabaticColumn:
    """The packed beds without heat from the oven, R times by B slices of the beds.

    Pressures are those of the oven's temperature. What really happens lies between this bound
    and the oven's temperature.

    Attributes
    ----------
    temperature
        At the faces of the slices from the first bed's inlet to the last bed's outlet [K],
        shape (R, B+1).
    outlet_density
        Of the mobile phase at the column outlet at that temperature [kg/m3], shape (R,).
    """

    temperature: FloatArray
    outlet_density: FloatArray

    @property
    def outlet_temperature(self) -> FloatArray:
        """At the outlet of the last bed [K], shape (R,)."""
        return np.asarray(self.temperature[:, -1])

    @property
    def cooling(self) -> FloatArray:
        """Inlet minus outlet temperature [K], shape (R,); negative where friction warms more."""
        return np.asarray(self.temperature[:, 0] - self.temperature[:, -1])


def adiabatic_column(run: RunStates) -> AdiabaticColumn:
    """Follow the expansion at constant enthalpy down the beds, at every time of the run.

    Parameters
    ----------
    run
        A rehearsal that is done.
    """
    first = run.slices_of(run.train.columns[0]).start
    last = run.slices_of(run.train.columns[-1]).stop
    beds = slice(first, last)
    faces = run.pressure[:, first : last + 1]
    w = run.w_with_makeup[:, beds]
    middle = np.minimum(0.5 * (faces[:, 1:] + faces[:, :-1]), HIGHEST_MODEL_PRESSURE)
    # tubes between two beds expand the stream as well
    step = np.diff(faces, axis=1)
    temperature, _ = adiabatic_faces(run.fluid, w, middle, step, run.temperature[:, first])
    outlet = np.minimum(faces[:, -1], HIGHEST_MODEL_PRESSURE)
    density = run.fluid.density(w[:, -1], temperature[:, -1], outlet)
    return AdiabaticColumn(temperature, np.asarray(density))
