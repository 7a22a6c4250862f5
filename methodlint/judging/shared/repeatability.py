"""The spread that repeated injections of an assay may have."""

from __future__ import annotations

import math

__all__ = ["highest_spread"]

_K = 0.349
_STUDENT = {2: 2.920, 3: 2.353, 4: 2.132, 5: 2.015, 6: 1.943, 7: 1.895, 8: 1.860, 9: 1.833}
"""Student's t, two-sided 90 %, by degrees of freedom: any statistical table."""


def highest_spread(over: float, injections: int) -> float | None:
    """Highest relative standard deviation that suits an upper limit of content.

    Parameters
    ----------
    over
        Upper limit of the content less 1 [-].
    injections
        Number of them.

    Returns
    -------
    float or None
        [-]; None below 3 injections and beyond 10.

    Source
    ------
    RSDmax = K B sqrt(n) / t(90, n - 1) with K = 0.349: USP <621> harmonised with Ph. Eur. 2.2.46
    (unverified).
    """
    student = _STUDENT.get(injections - 1)
    return None if student is None else _K * over * math.sqrt(injections) / student
