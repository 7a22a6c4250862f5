"""Water that a modifier carries into carbon dioxide before a second liquid phase forms.

Fitted to 46 tie lines of carbon dioxide + ethanol + water between 313 and 353 K, 100 and 200 bar
(ThermoML archive: doi 10.1016/j.fluid.2019.02.015 and 10.1016/j.fluid.2015.07.025). The limit is a
share of water in the modifier: 0.23 to 0.3 by moles on the side rich in carbon dioxide, hardly
moved by pressure, and rising towards the modifier alone, which mixes with water in all
proportions. At the boundary of the mixture without water it falls to nothing. With each isotherm and
isobar left out in turn, 95 % of the ends lie between 0.83 and 1.25 of the limit.

No tie lines were at hand for other modifiers: theirs is the limit of ethanol, guarded by half.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]

BAND = 0.20
"""Relative distance below the limit at which ethanol may already form two liquid phases [-]."""

BAND_NOT_VALIDATED = 0.50
"""The same for other modifiers, and beyond the measured temperatures and pressures [-]."""

LEAST_WATER_AT = 0.0333
"""Modifier share at which the table from memory has least water for the modifier there is [-]."""

_TABLE_NONE, _TABLE_TENTH, _TENTH = 0.001, 0.010, 0.10

_LEAN, _LEAN_PER_KELVIN, _LEAN_PER_PASCAL = 0.229, 0.0137 / 20.0, 0.0060 / 50e5
_SLOPE, _POWER = 0.267, 5.30
_DECAY, _DECAY_OF_MODIFIER = 4.0e5, 39.8e5
_MIDDLE_T, _MIDDLE_P = 313.15, 150e5
_MEASURED_T, _MEASURED_P = (313.0, 353.3), (100e5, 200e5)
_LOOSE_T, _LOOSE_P = 10.0, 20e5


def highest_water_share(x2: ArrayLike, T: ArrayLike, P: ArrayLike, margin: ArrayLike) -> Array:
    """Mole fraction of water in the modifier above which a second liquid phase forms [-].

    Parameters
    ----------
    x2 : array_like
        Mole fraction of the modifier, water included, in the mixture [-].
    T, P : array_like
        [K], [Pa]; taken at the nearest measured value outside.
    margin : array_like
        Pressure above the boundary of the mixture without water [Pa], infinite where there is
        none; 0 and less give 0.

    """
    x2 = np.asarray(x2, dtype=float)
    temperature = np.clip(np.asarray(T, dtype=float), 293.15, _MEASURED_T[1])
    pressure = np.clip(np.asarray(P, dtype=float), *_MEASURED_P)
    lean = (
        _LEAN
        + _LEAN_PER_KELVIN * (temperature - _MIDDLE_T)
        + _LEAN_PER_PASCAL * (pressure - _MIDDLE_P)
    )
    far = lean + _SLOPE * x2 + (1.0 - lean - _SLOPE) * x2**_POWER
    above = np.maximum(np.asarray(margin, dtype=float), 0.0)
    return np.asarray(far * -np.expm1(-above / (_DECAY + _DECAY_OF_MODIFIER * x2)))


def is_validated(organic: tuple[str, ...], T: float, P: float) -> bool:
    """Whether tie lines were measured with this liquid around this temperature and pressure."""
    return (
        organic == ("ethanol",)
        and _MEASURED_T[0] - _LOOSE_T <= T <= _MEASURED_T[1] + _LOOSE_T
        and _MEASURED_P[0] - _LOOSE_P <= P <= _MEASURED_P[1] + _LOOSE_P
    )


def water_by_table(share: float) -> float:
    """Water that an alcohol keeps dissolved, of the whole mobile phase by volume [-].

    A working table from memory, not verified: 0.1 % in carbon dioxide alone, 1 % with 10 %
    alcohol, never more than 10 % of the alcohol. It may hold a run and clears none.

    """
    if share >= _TENTH:
        return _TENTH * share
    return _TABLE_NONE + (_TABLE_TENTH - _TABLE_NONE) * (share / _TENTH) ** 2
