"""What joins a flow train on its way, and what leaves it through a splitter."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from methodlint.hydraulics.fluid_interface import FloatArray

__all__ = ["SideStreams"]


@dataclass(frozen=True)
class SideStreams:
    """Side streams of R rows and S slices.

    Attributes
    ----------
    kept : ndarray, (R, S)
        Share of the pumped stream that is still in the train [-]; 1 ahead of a splitter.
    joined : ndarray, (R, S)
        Makeup that flows along [kg/s]; 0 ahead of its tee.
    joined_modifier : ndarray, (R, S)
        The part of `joined` that changes density, viscosity and phase boundary like modifier
        [kg/s].  Makeup of another liquid than the modifier flows along without that: no model
        covers the mixture.
    """

    kept: FloatArray
    joined: FloatArray
    joined_modifier: FloatArray

    def flow(self, mass_flow: FloatArray, w_modifier: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Mass flow [kg/s] and mass fraction [-] in every slice, from those that were pumped.

        Parameters
        ----------
        mass_flow, w_modifier : ndarray, (R, S)
            Without side streams.
        """
        stream = mass_flow * self.kept
        known = stream + self.joined_modifier
        with np.errstate(divide="ignore", invalid="ignore"):
            w = (stream * w_modifier + self.joined_modifier) / known
        # untouched slices keep their value to the last bit
        return stream + self.joined, np.where(self.joined_modifier > 0.0, w, w_modifier)

    def take(self, rows: npt.NDArray[np.int64]) -> SideStreams:
        """The same for some of the rows."""
        return SideStreams(self.kept[rows], self.joined[rows], self.joined_modifier[rows])
