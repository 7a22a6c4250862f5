"""How far measured bubble pressures lie from the tables of the phase boundary.

Where it comes from: each source of `tests/reference/co2_modifier_bubble_points.csv` (the ThermoML
archive) was left out in turn, the parameters fitted to the others, and the left-out points
compared; acetonitrile has one source and was left out by isotherm. A cell of the table holds what
covers at least 95 % of the left-out points in it, with at most 2.5 % above. A cell with fewer than
ten such points is wider and counts as not validated. `tests.reference.fit_boundary` prints the
figures.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]

_CELSIUS = np.array([20.0, 40.0, 60.0, 80.0, 100.0])
_X_CO2 = np.array([0.45, 0.75])
"""Nodes; between them the band runs straight, beyond the outermost it stays."""


class BoundaryBand(NamedTuple):
    """Distances from the computed boundary within which the true one lies.

    Attributes
    ----------
    below, above : ndarray or float
        Towards lower and towards higher pressure [Pa]; the second is the unsafe side.

    """

    below: Array
    above: Array

    def wider(self, by: float) -> BoundaryBand:
        """The band with both ends moved outwards [Pa]."""
        return BoundaryBand(self.below + by, self.above + by)

    def with_error(self, error: float) -> BoundaryBand:
        """Band of a margin to the boundary: with the error of the pressure itself [Pa]."""
        return BoundaryBand(np.hypot(self.below, error), np.hypot(self.above, error))


@dataclass(frozen=True)
class BandTable:
    """Band of one modifier at the nodes of temperature (rows) and composition (columns).

    Attributes
    ----------
    below, above : tuple of (float, float)
        At the modifier-rich and the CO2-rich node of each temperature [bar].
    validated : tuple of (bool, bool)
        Whether ten or more left-out points lie around the node.

    """

    below: tuple[tuple[float, float], ...]
    above: tuple[tuple[float, float], ...]
    validated: tuple[tuple[bool, bool], ...]

    def at(self, x2: ArrayLike, T: ArrayLike) -> BoundaryBand:
        """Band at a mole fraction of modifier [-] and a temperature [K], broadcast."""
        celsius = np.asarray(T, dtype=float) - 273.15
        rich = np.clip(
            (1.0 - np.asarray(x2, dtype=float) - _X_CO2[0]) / (_X_CO2[1] - _X_CO2[0]), 0.0, 1.0
        )
        found = []
        for values in (self.below, self.above):
            first, last = (
                np.interp(celsius, _CELSIUS, column) for column in zip(*values, strict=True)
            )
            found.append(np.asarray(1e5 * (first + rich * (last - first))))
        return BoundaryBand(*found)

    def is_validated(self, x2: float, T: float) -> bool:
        """Whether the nearest node is."""
        row = int(np.argmin(np.abs(_CELSIUS - (T - 273.15))))
        return self.validated[row][int(1.0 - x2 > _X_CO2.mean())]


_YES, _NO = True, False
BANDS: dict[str, BandTable] = {
    "methanol": BandTable(
        below=((4.5, 4.5), (4.5, 5.0), (7.0, 9.0), (7.0, 14.0), (8.0, 18.0)),
        above=((5.0, 7.0), (6.0, 10.0), (7.0, 12.0), (8.0, 12.0), (8.0, 14.0)),
        validated=((_YES, _NO), (_YES, _NO), (_YES, _NO), (_NO, _NO), (_YES, _NO)),
    ),
    "ethanol": BandTable(
        below=((3.0, 4.0), (6.0, 6.0), (6.0, 6.5), (6.0, 9.0), (7.0, 14.0)),
        above=((5.5, 6.0), (5.5, 6.0), (6.0, 8.0), (6.0, 10.0), (8.0, 12.0)),
        validated=((_YES, _YES), (_YES, _YES), (_YES, _NO), (_YES, _NO), (_YES, _NO)),
    ),
    "2-propanol": BandTable(
        below=((4.0, 5.0), (4.0, 5.0), (5.0, 5.0), (10.0, 10.0), (12.0, 12.0)),
        above=((4.5, 8.0), (5.0, 8.0), (6.0, 8.0), (8.0, 8.0), (10.0, 10.0)),
        validated=((_YES, _NO), (_YES, _NO), (_YES, _NO), (_YES, _YES), (_NO, _NO)),
    ),
    "acetonitrile": BandTable(
        below=((8.0, 6.0), (8.0, 6.0), (8.0, 6.0), (10.0, 8.0), (16.0, 14.0)),
        above=((10.0, 8.0), (10.0, 8.0), (10.0, 8.0), (12.0, 10.0), (16.0, 14.0)),
        validated=((_NO, _NO),) * 5,
    ),
}

SATURATION_OF_CO2 = BoundaryBand(np.asarray(1e5), np.asarray(1e5))
"""Of pure carbon dioxide: 1 bar, what 0.6 K in the oven move its saturation by."""
