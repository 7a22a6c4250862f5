"""Where carbon dioxide + modifier is one phase: tables of the two-phase envelope, looked up fast.

The tables are made by :mod:`methodlint.fluids.mixtures.make_boundary`. Along composition they run in a
stretched coordinate with its origin at the mixture critical point: nodes crowd towards pure
carbon dioxide, and the crest of the envelope is a node at every temperature. Above the critical
temperature of carbon dioxide a second piece covers the retrograde compositions between the
critical point and the leanest composition that still condenses; leaner ones never split.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path

import numpy as np
from numpy.typing import ArrayLike, NDArray

from methodlint.fluids.validity import ValidityRange

Array = NDArray[np.float64]

_DATA_FOLDER = Path(__file__).parent.parent / "data"


@dataclass(frozen=True)
class PhaseBoundary:
    """Two-phase envelope of one pair as a table.

    Attributes
    ----------
    temperature : ndarray, shape (n,)
        Nodes [K].
    critical_composition : ndarray, shape (n,)
        Mole fraction of the modifier at the crest [-]; 0 below the critical temperature of CO2.
    leanest_composition : ndarray, shape (n,)
        Smallest mole fraction of the modifier that splits at any pressure [-].
    upper, lower : ndarray, shape (n, m)
        Highest and lowest two-phase pressure [Pa] on the stretched composition nodes.
    retrograde_nodes : int
        Intervals of the m - 1 that lie on the retrograde side.

    """

    temperature: Array
    critical_composition: Array
    leanest_composition: Array
    upper: Array
    lower: Array
    retrograde_nodes: int

    @property
    def validity(self) -> ValidityRange:
        """Temperatures of the table [K]; lookups stay at its nearest end outside."""
        low, high = float(self.temperature[0]), float(self.temperature[-1])
        return ValidityRange("temperature", low, high, "K", "the table of the phase boundary")

    @cached_property
    def crest(self) -> Array:
        """Highest two-phase pressure at any composition [Pa] at the temperature nodes."""
        return np.asarray(self.upper.max(axis=1))

    @cached_property
    def _steps(self) -> Array:
        return np.diff(self.temperature)

    @cached_property
    def _flat(self) -> tuple[Array, Array]:
        return np.ascontiguousarray(self.upper).ravel(), np.ascontiguousarray(self.lower).ravel()

    def highest_two_phase_pressure(self, T: ArrayLike) -> Array:
        """Highest pressure [Pa] at which any composition is two-phase at T [K]."""
        return np.asarray(np.interp(np.asarray(T, dtype=float), self.temperature, self.crest))

    def limits(self, x2: ArrayLike, T: ArrayLike, *, lower: bool = True) -> tuple[Array, Array]:
        """Pressures between which a composition is two-phase.

        Parameters
        ----------
        x2 : array_like
            Mole fraction of the modifier [-].
        T : array_like
            Temperature [K]; taken at the nearest end outside the table.
        lower : bool
            Whether the lower limit is wanted; without it zeros are returned in its place.

        Returns
        -------
        lowest, highest : ndarray, broadcast shape
            [Pa]; both 0 where the composition never splits.

        """
        # What follows from temperature alone is computed in its own shape, often a smaller one.
        x2, T = np.asarray(x2, dtype=float), np.asarray(T, dtype=float)
        nodes = self.temperature
        i = np.clip(np.searchsorted(nodes, T, side="right") - 1, 0, nodes.size - 2)
        f = np.clip((T - nodes[i]) / self._steps[i], 0.0, 1.0)
        xc = self.critical_composition
        crest = xc[i] + f * (xc[i + 1] - xc[i])
        xl = self.leanest_composition
        leanest = xl[i] + f * (xl[i + 1] - xl[i])
        n, m = self.retrograde_nodes, self.upper.shape[1]
        bubble_side = x2 >= crest
        numerator = np.where(bubble_side, x2 - crest, x2 - leanest)
        width = np.where(bubble_side, 1.0 - crest, crest - leanest)
        share = np.sqrt(np.clip(numerator / np.maximum(width, 1e-300), 0.0, 1.0))
        s = share * np.where(bubble_side, m - 1 - n, n) + np.where(bubble_side, n, 0)
        j = np.minimum(s.astype(np.int64), m - 2)
        g = s - j
        at = i * m + j
        w11 = f * g
        w10 = f - w11
        w01 = g - w11
        w00 = 1.0 - f - w01
        splits = x2 >= leanest

        def interpolate(table: Array) -> Array:
            value = (
                w00 * table.take(at)
                + w01 * table.take(at + 1)
                + w10 * table.take(at + m)
                + w11 * table.take(at + m + 1)
            )
            return np.asarray(np.where(splits, value, 0.0))

        up, low = self._flat
        return (interpolate(low) if lower else np.zeros(at.shape)), interpolate(up)


@cache
def load_boundary(name: str) -> PhaseBoundary:
    """The shipped table of one modifier.

    Parameters
    ----------
    name : str
        Name of the modifier as in the table of liquids.

    Raises
    ------
    FileNotFoundError
        When no table exists for that name.

    """
    source = _DATA_FOLDER / f"boundary_{name.replace('-', '_')}.npz"
    with source.open("rb") as stream, np.load(stream) as stored:
        return PhaseBoundary(
            temperature=stored["temperature"].astype(float),
            critical_composition=stored["critical_composition"].astype(float),
            leanest_composition=stored["leanest_composition"].astype(float),
            upper=stored["upper"].astype(float),
            lower=stored["lower"].astype(float),
            retrograde_nodes=int(stored["retrograde_nodes"]),
        )
