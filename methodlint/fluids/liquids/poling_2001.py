"""Vapour pressure of liquids by the Antoine equation.

Source: B. E. Poling, J. M. Prausnitz, J. P. O'Connell, The Properties of Gases and Liquids, 5th ed.,
McGraw-Hill 2001, appendix A; transcribed from the open data tables of the chemicals library.
"""

from __future__ import annotations

from methodlint.fluids.liquids import equations
from methodlint.fluids.liquids.liquid_correlation import Published

#: A and B [K] for log10 of the pressure in Pa, C [K], lowest and highest temperature [K].
_VAPOUR_PRESSURE = {
    "methanol":                (10.20277, 1580.08, -33.65, 262.59, 356.0),
    "ethanol":                 (10.33675, 1648.22, -42.232, 276.5, 369.54),
    "1-propanol":              (9.99991, 1512.94, -67.343, 293.19, 389.32),
    "2-propanol":              (10.24268, 1580.92, -53.54, 281.28, 373.46),
    "water":                   (10.11564, 1687.537, -42.98, 273.2, 473.2),
    "n-pentane":               (8.97786, 1064.84, -41.136, 228.71, 330.75),
    "n-hexane":                (9.00139, 1170.875, -48.833, 254.24, 365.25),
    "n-heptane":               (9.02023, 1263.909, -56.718, 277.71, 396.53),
    "isooctane":               (8.93646, 1257.85, -52.383, 275.5, 398.38),
    "cyclohexane":             (8.93002, 1182.774, -52.532, 282.11, 378.46),
    "tetrahydrofuran":         (9.12142, 1203.11, -46.795, 253.5, 361.71),
    "toluene":                 (9.05043, 1327.62, -55.525, 286.44, 409.61),
    "2-methyltetrahydrofuran": (8.95009, 1175.51, -55.348, 263.44, 377.49),
    "tert-butanol":            (9.44484, 1154.48, -95.5, 283.0, 374.1),
}  # fmt: skip
VAPOUR_PRESSURE = Published(
    quantity="vapour pressure",
    unit="Pa",
    law=equations.antoine,
    source="Poling, Prausnitz & O'Connell, The Properties of Gases and Liquids, 5th ed. (2001), appendix A",
    rows=_VAPOUR_PRESSURE,
)
