"""Friction factor of laminar flow in a round tube (Hagen 1839, Poiseuille 1840)."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from methodlint.fluids.validity import ValidityRange

__all__ = ["VALIDITY", "friction_factor"]

VALIDITY = ValidityRange(
    "Reynolds number",
    0.0,
    2100.0,
    model="laminar friction law",
    source="onset of turbulence with SFC mobile phases: Tarafder, J. Chromatogr. A 2018",
)


def friction_factor(reynolds: npt.ArrayLike) -> npt.NDArray[np.float64]:
    """Darcy friction factor 64/Re.

    Parameters
    ----------
    reynolds : array_like
        Reynolds number rho u d / eta, above 0 [-], any shape.

    Returns
    -------
    ndarray
        Darcy friction factor [-] (four times Fanning's), shape of `reynolds`.
        Nothing is cut off outside `VALIDITY`; `tubes` chooses the law.

    Source
    ------
    Exact solution for fully developed flow of a Newtonian liquid in a round tube
    (Hagen 1839; Poiseuille 1840).
    """
    return np.asarray(64.0 / np.asarray(reynolds, dtype=np.float64))
