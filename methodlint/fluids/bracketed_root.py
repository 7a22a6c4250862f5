"""Roots of many monotone functions at once."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import numpy.typing as npt

__all__ = ["bracketed_root"]

FloatArray = npt.NDArray[np.float64]


def bracketed_root(
    function: Callable[[FloatArray], FloatArray],
    lower: FloatArray,
    upper: FloatArray,
    tolerance: float,
    most_steps: int = 100,
) -> FloatArray:
    """Element-wise root of `function` between `lower` and `upper`, where it changes sign.

    Parameters
    ----------
    function : callable
        Takes and returns arrays shaped like `lower`.
    lower, upper : numpy.ndarray
        Ends of the brackets; an end whose value is zero is a root.
    tolerance : float
        Width of the final brackets, in the unit of `lower`.
    most_steps : int, optional
        Steps after which the middle of the bracket is taken as it is.

    Notes
    -----
    Chandrupatla's method: inverse quadratic steps where they are safe, halving otherwise.
    T. R. Chandrupatla, Adv. Eng. Software 28, 145 (1997).
    """
    a, b = np.array(upper, dtype=float), np.array(lower, dtype=float)
    fa, fb = function(a), function(b)
    c, fc = a.copy(), fa.copy()
    share = np.full(a.shape, 0.5)
    found = np.full(a.shape, np.nan)
    for _ in range(most_steps):
        x = a + share * (b - a)
        fx = function(x)
        same = np.sign(fx) == np.sign(fa)
        c, fc = np.where(same, a, b), np.where(same, fa, fb)
        b, fb = np.where(same, b, a), np.where(same, fb, fa)
        a, fa = x, fx
        width = np.abs(b - a)
        best = np.where(np.abs(fa) < np.abs(fb), a, b)
        done = (width <= 2.0 * tolerance) | (fa == 0.0) | (fb == 0.0)
        # The first bracket that is narrow enough counts: a root is the same in any company.
        found = np.where(done & np.isnan(found), best, found)
        if done.all():
            break
        with np.errstate(divide="ignore", invalid="ignore"):
            xi = (a - b) / (c - b)
            phi = (fa - fb) / (fc - fb)
            safe = (phi**2 < xi) & ((1.0 - phi) ** 2 < 1.0 - xi)
            quadratic = fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (
                fc - fa
            ) * fb / (fc - fb)
            least = tolerance / width
        share = np.where(safe & ~done, quadratic, 0.5)
        least = np.where(done, 0.5, np.minimum(least, 0.5))
        share = np.clip(share, least, 1.0 - least)
    return np.where(np.isnan(found), best, found)
