"""Friction factor of turbulent flow in a smooth tube (Blasius 1913)."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from methodlint.fluids.validity import ValidityRange

__all__ = ["VALIDITY", "friction_factor"]

VALIDITY = ValidityRange(
    "Reynolds number",
    4000.0,
    1.0e5,
    model="Blasius friction law",
    source="Blasius 1913; lower end: turbulence is developed above 4000 in SFC, Tarafder 2018",
)


def friction_factor(reynolds: npt.ArrayLike) -> npt.NDArray[np.float64]:
    """Darcy friction factor 0.3164 Re^-1/4 of a smooth tube.

    Parameters
    ----------
    reynolds : array_like
        Reynolds number rho u d / eta, above 0 [-], any shape.

    Returns
    -------
    ndarray
        Darcy friction factor [-] (four times Fanning's), shape of `reynolds`.
        Nothing is cut off outside `VALIDITY`; the caller is told by `VALIDITY.contains`.

    Source
    ------
    H. Blasius, Mitteilungen ueber Forschungsarbeiten auf dem Gebiete des Ingenieurwesens 131
    (1913).
    """
    # two square roots cost a tenth of a general power
    return np.asarray(0.3164 / np.sqrt(np.sqrt(np.asarray(reynolds, dtype=np.float64))))
