"""Published absorbance of liquids and additives in the ultraviolet, and what lies between.

Source: J. B. Li, LC-GC 10 (1992) 856, as reprinted in textbooks (unverified); triethylamine at 220 nm
agrees with Snyder, Kirkland and Dolan, Introduction to Modern Liquid Chromatography, 3rd ed., p. 316
(second-hand). Figures of this kind may hold a run and never clear one.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

from methodlint.fluids.additives.known import find_additive
from methodlint.fluids.liquids.known import find_liquid

__all__ = ["AT_CUTOFF", "FAR_BELOW", "additive_absorbance", "liquid_absorbance"]

AT_CUTOFF = 100.0
"""Absorbance per length at a cutoff [1/m]: that is what the cutoff means, 1 in 1 cm."""

FAR_BELOW = 10e-9
"""How far below its cutoff [m] a liquid with a strong band absorbs 10 in 1 cm and more."""

_OPAQUE = ("aromatic", "ketone")
"""Families with a band below their cutoff: 10 and more in 1 cm there (unverified)."""

_DECADES_AT_MOST = 2.0

Points = tuple[tuple[int, float], ...]


@dataclass(frozen=True)
class _OfAdditive:
    """Absorbance in 1 cm by wavelength [nm] at a concentration [mol/m3]."""

    concentration: float
    points: Points


# A figure printed as "< 0.01" ends its list as 0.01, and longer wavelengths count nothing.
_LIQUIDS: Mapping[str, Points] = {
    "acetonitrile": ((200, 0.05), (205, 0.03), (210, 0.02), (215, 0.01), (220, 0.01), (230, 0.01)),
    # not degassed: the higher of the two columns that are printed
    "methanol": (
        *((200, 2.06), (205, 1.0), (210, 0.53), (215, 0.37), (220, 0.24)),
        *((230, 0.11), (240, 0.05), (250, 0.02), (260, 0.01)),
    ),
    "2-propanol": (
        *((200, 1.8), (205, 0.68), (210, 0.34), (215, 0.24), (220, 0.19)),
        *((230, 0.08), (240, 0.04), (250, 0.03), (260, 0.02), (280, 0.02)),
    ),
    # unstabilised and fresh
    "tetrahydrofuran": (
        *((200, 2.44), (205, 2.57), (210, 2.31), (215, 1.8), (220, 1.54)),
        *((230, 0.94), (240, 0.42), (250, 0.21), (260, 0.09), (280, 0.05)),
    ),
}

_FORMATE = _OfAdditive(
    10.0,
    ((200, 1.0), (205, 0.73), (210, 0.53), (215, 0.33), (220, 0.2), (230, 0.03), (240, 0.01)),
)

# Measured in water, trifluoroacetic acid in acetonitrile too: the higher of both.
_ADDITIVES: Mapping[str, _OfAdditive] = {
    "acetic acid": _OfAdditive(
        174.7,  # 1 % v/v
        (
            *((200, 2.61), (205, 2.63), (210, 2.61), (215, 2.43), (220, 2.17)),
            *((230, 0.87), (240, 0.14), (250, 0.01), (260, 0.01)),
        ),
    ),
    "trifluoroacetic acid": _OfAdditive(
        13.0,  # 0.1 % v/v
        (
            *((200, 1.2), (205, 0.78), (210, 0.54), (215, 0.38), (220, 0.37)),
            *((230, 0.25), (240, 0.12), (250, 0.04), (260, 0.01), (280, 0.01)),
        ),
    ),
    "triethylamine": _OfAdditive(
        71.9,  # 1 % v/v
        (
            *((200, 2.33), (205, 2.42), (210, 2.5), (215, 2.45), (220, 2.37)),
            *((230, 1.96), (240, 0.5), (250, 0.12), (260, 0.04), (280, 0.01)),
        ),
    ),
    "ammonium acetate": _OfAdditive(
        10.0,
        ((200, 1.88), (205, 0.94), (210, 0.53), (215, 0.29), (220, 0.15), (230, 0.02), (240, 0.01)),
    ),
    "ammonium bicarbonate": _OfAdditive(10.0, ((200, 0.41), (205, 0.1), (210, 0.01), (215, 0.01))),
    # The ion absorbs; measured as its sodium salt.
    "ammonium formate": _FORMATE,
    "sodium formate": _FORMATE,
    "phosphoric acid": _OfAdditive(17.2, ((200, 0.01),)),  # 0.1 % v/v
}


def liquid_absorbance(liquid: str, wavelength: float) -> float | None:
    """Decadic absorbance per length of a liquid without additives [1/m], at least.

    Parameters
    ----------
    liquid
        Name or synonym.
    wavelength
        [m].

    Returns
    -------
    float or None
        None if neither a cutoff nor a published absorbance is known.
    """
    known = find_liquid(liquid)
    if known is None or (known.uv_cutoff is None and known.name not in _LIQUIDS):
        return None
    below = (known.uv_cutoff or 0.0) - wavelength
    by_cutoff = AT_CUTOFF if below > 1e-12 else 0.0
    if below >= FAR_BELOW and known.family in _OPAQUE:
        by_cutoff *= 10.0
    points = _LIQUIDS.get(known.name)
    return by_cutoff if points is None else max(by_cutoff, 100.0 * _between(points, wavelength))


def additive_absorbance(additive: str, concentration: float, wavelength: float) -> float | None:
    """Absorbance per length [1/m] that an additive adds at a concentration [mol/m3].

    Returns
    -------
    float or None
        None if none is published for this additive.
    """
    known = find_additive(additive)
    data = _ADDITIVES.get(known.name) if known is not None else None
    if data is None:
        return None
    return 100.0 * _between(data.points, wavelength) * concentration / data.concentration


def _between(points: Points, wavelength: float) -> float:
    """Absorbance in 1 cm: logarithmic between points, along the edge below the first."""
    at = wavelength * 1e9
    if at > points[-1][0] + 1e-6:
        return 0.0
    if at < points[0][0] and len(points) > 1:
        (x0, y0), (x1, y1) = points[:2]
        decades = max(math.log10(y0 / y1), 0.0) * (x0 - at) / (x1 - x0)
        return y0 * math.pow(10.0, min(decades, _DECADES_AT_MOST))
    for (x0, y0), (x1, y1) in pairwise(points):
        if at <= x1:
            return y0 * math.pow(y1 / y0, (at - x0) / (x1 - x0))
    return points[-1][1]
