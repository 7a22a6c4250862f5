"""Density, viscosity and vapour pressure of liquids from the VDI Heat Atlas.

Source: VDI-Gesellschaft Verfahrenstechnik, VDI Heat Atlas, 2nd ed., Springer 2010, part D3.1;
transcribed from the open data tables of the chemicals library. For density and viscosity the publication
gives no range: theirs is where they were compared with other data, and above the freezing point.
"""

from __future__ import annotations

from methodlint.fluids.liquids import equations
from methodlint.fluids.liquids.liquid_correlation import Published

_BOOK = "VDI Heat Atlas, 2nd ed. (2010), part D3.1"
_COMPARED = (263.15, 373.15)

#: Critical temperature [K], critical density [kg/m3], A, B, C, D [kg/m3].
_DENSITY = {
    "methanol":        (513.38, 282.0, 164.7611, 2257.7678, -3545.6923, 1929.7376),
    "ethanol":         (513.9, 276.0, 748.617, -412.3622, 776.4394, -436.6757),
    "1-propanol":      (536.75, 274.0, 816.2709, -549.2099, 696.9841, -232.082),
    "2-propanol":      (508.25, 273.0, 865.9165, -744.0943, 975.9052, -381.1278),
    "acetonitrile":    (545.55, 237.0, 565.3431, -36.8917, 312.7935, -27.5047),
    "water":           (647.1, 322.0, 1094.0233, -1813.2295, 3863.9557, -2479.813),
    "n-pentane":       (469.66, 235.0, 331.1104, 681.0817, -965.3279, 602.3613),
    "n-hexane":        (507.79, 223.0, 537.394, 87.8728, -283.3888, 344.5049),
    "n-heptane":       (541.23, 225.0, 308.4582, 1071.686, -1664.6321, 990.254),
    "cyclohexane":     (553.6, 273.0, 373.9221, 848.7461, -1261.1653, 815.8631),
    "ethyl acetate":   (523.2, 308.0, 660.3752, 8.8513, 207.168, 1.5101),
    "dichloromethane": (510.05, 459.0, 937.7851, 96.8605, 196.4483, 106.8482),
    "chloroform":      (536.45, 508.0, 1175.1441, -347.5847, 842.3866, -239.1385),
    "acetone":         (508.1, 274.0, 547.382, 208.742, -203.7599, 253.9936),
    "1,4-dioxane":     (587.05, 370.0, 678.8964, -120.4207, 544.3169, -167.1524),
    "toluene":         (591.75, 292.0, 439.5835, 839.1558, -1234.8445, 797.8741),
    "diethyl ether":   (466.63, 264.0, 521.2805, 257.7528, -489.2726, 486.7458),
    "acetic acid":     (591.95, 334.0, 925.3897, -312.7993, 340.0633, 29.7204),
    "formic acid":     (588.05, 368.0, 1181.5822, -735.7666, 1040.1334, -334.6213),
    "1-butanol":       (563.05, 270.0, 777.2534, -446.842, 578.8813, -172.9538),
}  # fmt: skip
DENSITY = Published(
    quantity="density",
    unit="kg/m3",
    law=equations.four_terms,
    source=f"{_BOOK}, density of saturated liquids",
    rows={name: (*row, *_COMPARED) for name, row in _DENSITY.items()},
    above_freezing=True,
)

#: A, B, C [K], D [K], E [Pa s].
_VISCOSITY = {
    "methanol":        (3.79226, 0.17755, 546.563, 87.845, 7.91e-06),
    "ethanol":         (6.16832, -0.00125, 740.323, 90.778, 3.8e-07),
    "1-propanol":      (4.91749, 0.83615, 482.98, 73.079, 1.026e-05),
    "2-propanol":      (3.07172, 3.84587, 580.414, -62.691, 7.42e-06),
    "acetonitrile":    (-0.08444, 3.22207, 685.539, -331.224, 6.935e-05),
    "water":           (0.45047, 1.39753, 613.181, 63.697, 6.896e-05),
    "n-pentane":       (2.80331, 0.25074, 474.455, 32.856, 1.653e-05),
    "n-hexane":        (0.69508, 0.53665, 704.295, 16.747, 5.657e-05),
    "n-heptane":       (2.96002, 0.24715, 553.942, 62.172, 1.424e-05),
    "cyclohexane":     (0.7569, 2.02779, 787.882, -117.742, 3.221e-05),
    "ethyl acetate":   (2.87505, 3.82999, 701.624, -475.816, 8.53e-06),
    "dichloromethane": (0.85505, 0.90417, 608.752, -18.795, 7.319e-05),
    "chloroform":      (0.61822, 0.98765, 660.257, -29.324, 9.188e-05),
    "acetone":         (1.65496, 0.5733, 610.687, 11.477, 2.915e-05),
    "1,4-dioxane":     (-0.88995, 5.54776, 466.802, -109.574, 0.00041685),
    "toluene":         (2.9548, 3e-05, 1048.107, 137.144, 3.97e-06),
    "diethyl ether":   (2.19245, 3.83507, 520.594, -370.873, 2.04e-05),
    "acetic acid":     (1.74793, 1.33728, 482.347, 41.78, 9.963e-05),
    "formic acid":     (1.06486, 0.68065, 1102.891, 11.307, 2.427e-05),
    "1-butanol":       (4.35655, 1.01095, 742.263, 26.911, 2.14e-06),
}  # fmt: skip
VISCOSITY = Published(
    quantity="viscosity",
    unit="Pa s",
    law=equations.cube_root,
    source=f"{_BOOK}, dynamic viscosity of saturated liquids",
    rows={name: (*row, *_COMPARED) for name, row in _VISCOSITY.items()},
    above_freezing=True,
)

#: Critical temperature [K], critical pressure [Pa], A, B, C, D, melting point [K]; upper end Tc.
_VAPOUR_PRESSURE = {
    "methanol":        (513.38, 8216000.0, -8.72963, 1.4586, -2.78449, -0.70669, 175.45),
    "ethanol":         (513.9, 6148000.0, -8.33803, 0.0872, -3.30575, -0.26001, 159.05),
    "1-propanol":      (536.75, 5175000.0, -8.60671, 2.17353, -8.04678, 3.69194, 146.85),
    "2-propanol":      (508.25, 4762000.0, -8.44737, 1.17402, -6.97876, 0.69248, 185.25),
    "acetonitrile":    (545.55, 4830000.0, -9.22263, 5.68045, -6.67111, 4.51306, 229.25),
    "water":           (647.1, 22064000.0, -7.86975, 1.90561, -2.30891, -2.06472, 273.15),
    "n-pentane":       (469.66, 3369000.0, -7.36401, 1.94358, -2.47191, -2.34757, 143.35),
    "n-hexane":        (507.79, 3042000.0, -7.61075, 2.00527, -2.74158, -2.82824, 177.75),
    "n-heptane":       (541.23, 2774000.0, -7.75469, 1.84795, -2.80333, -3.62418, 182.55),
    "cyclohexane":     (553.6, 4075000.0, -7.00979, 1.57475, -1.9682, -3.26095, 279.65),
    "ethyl acetate":   (523.2, 3830000.0, -7.89734, 2.16798, -3.5239, -3.10641, 189.65),
    "dichloromethane": (510.05, 6080000.0, -7.57368, 3.17104, -3.53296, -2.27696, 178.05),
    "chloroform":      (536.45, 5554000.0, -7.32485, 1.69599, -0.93627, -5.8959, 209.65),
    "acetone":         (508.1, 4692000.0, -7.67033, 1.96469, -2.4438, -2.90162, 178.35),
    "1,4-dioxane":     (587.05, 5208000.0, -7.40401, 2.12025, -3.88819, 1.69876, 284.95),
    "toluene":         (591.75, 4126000.0, -7.50051, 2.08939, -2.56368, -2.85042, 178.15),
    "diethyl ether":   (466.63, 3651000.0, -7.55709, 2.15613, -3.02766, -2.37858, 156.75),
    "acetic acid":     (591.95, 5786000.0, -9.34304, 3.77735, -3.59092, -1.57006, 289.95),
    "formic acid":     (588.05, 5810000.0, -7.48216, 0.88805, -0.32253, -2.58053, 281.65),
    "1-butanol":       (563.05, 4423000.0, -8.3312, 2.0553, -8.17754, 0.19316, 183.75),
}  # fmt: skip
VAPOUR_PRESSURE = Published(
    quantity="vapour pressure",
    unit="Pa",
    law=equations.wagner,
    source=f"{_BOOK}, vapour pressure",
    rows={name: (*row, row[0]) for name, row in _VAPOUR_PRESSURE.items()},
)
