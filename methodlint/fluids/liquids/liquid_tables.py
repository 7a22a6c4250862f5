"""Constants of the liquids, a table by subject; a number from elsewhere stands with its source.

Every column has a source that counts for its plain numbers. A pair is a number and the source it has
instead, or None and the reason why there is no number. A lone None is "not known", never zero.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeAlias

__all__ = ["COLUMNS", "IDENTITY", "RANK", "Cell"]

#: Where the numbers come from; "unverified" means that the page was not before us.
CRC = (
    "CRC Handbook of Chemistry and Physics, physical constants of organic compounds "
    "(open data of the chemicals library)"
)
CRC_HEAT = (
    "CRC Handbook of Chemistry and Physics, enthalpy of vaporization at 25 C "
    "(open data of the chemicals library)"
)
CRC_CAPACITY = (
    "CRC Handbook of Chemistry and Physics, standard thermodynamic properties, liquid at 25 C "
    "(open data of the chemicals library)"
)
GHARAGHEIZI = "Gharagheizi 2012 compilation, 25 C (open data of the chemicals library)"
IEC = "IEC 60079-20-1:2010 (as IS/IEC; open data of the chemicals library)"
NFPA = "NFPA 497:2008 (open data of the chemicals library)"
ONTARIO = "Ontario occupational exposure limits table (open data of the chemicals library)"
UV = "tables of solvents for liquid chromatography, A = 1 in 1 cm against water (unverified)"
RANK = "common practice, no source"
MEMORY = "handbook value (unverified)"

Cell: TypeAlias = float | bool | tuple[float | None, str] | None

#: Formula, registry number, molar mass [kg/mol], family, strength rank, flammable, other names.
IDENTITY: Mapping[str, tuple[str, str, float, str, int, bool, tuple[str, ...]]] = {
    "methanol":                ("CH4O", "67-56-1", 0.03204186, "alcohol", 5, True, ("MeOH", "methyl alcohol", "carbinol")),
    "ethanol":                 ("C2H6O", "64-17-5", 0.04606844, "alcohol", 4, True, ("EtOH", "ethyl alcohol", "absolute ethanol")),
    "1-propanol":              ("C3H8O", "71-23-8", 0.06009502, "alcohol", 3, True, ("n-propanol", "propan-1-ol", "n-propyl alcohol", "1-PrOH", "nPrOH")),
    "2-propanol":              ("C3H8O", "67-63-0", 0.06009502, "alcohol", 3, True, ("IPA", "isopropanol", "isopropyl alcohol", "propan-2-ol", "iPrOH", "2-PrOH", "i-propanol")),
    "1-butanol":               ("C4H10O", "71-36-3", 0.0741216, "alcohol", 3, True, ("n-butanol", "butan-1-ol", "BuOH", "n-BuOH", "n-butyl alcohol")),
    "tert-butanol":            ("C4H10O", "75-65-0", 0.0741216, "alcohol", 3, True, ("t-butanol", "tBuOH", "2-methyl-2-propanol", "2-methylpropan-2-ol", "tert-butyl alcohol", "TBA")),
    "n-pentane":               ("C5H12", "109-66-0", 0.07214878, "alkane", 1, True, ("pentane",)),
    "n-hexane":                ("C6H14", "110-54-3", 0.08617536, "alkane", 1, True, ("hexane", "hexanes")),
    "n-heptane":               ("C7H16", "142-82-5", 0.10020194, "alkane", 1, True, ("heptane", "heptanes")),
    "isooctane":               ("C8H18", "540-84-1", 0.11422852, "alkane", 1, True, ("2,2,4-trimethylpentane", "iso-octane", "TMP")),
    "cyclohexane":             ("C6H12", "110-82-7", 0.08415948, "alkane", 1, True, ("CyHex", "cHex", "hexahydrobenzene")),
    "toluene":                 ("C7H8", "108-88-3", 0.09213842, "aromatic", 2, True, ("methylbenzene", "PhMe")),
    "tetrahydrofuran":         ("C4H8O", "109-99-9", 0.07210572, "ether", 3, True, ("THF", "oxolane")),
    "1,4-dioxane":             ("C4H8O2", "123-91-1", 0.08810512, "ether", 3, True, ("dioxane", "p-dioxane")),
    "methyl tert-butyl ether": ("C5H12O", "1634-04-4", 0.08814818, "ether", 2, True, ("MTBE", "tert-butyl methyl ether", "TBME", "t-BuOMe", "methyl t-butyl ether", "2-methoxy-2-methylpropane")),
    "diethyl ether":           ("C4H10O", "60-29-7", 0.0741216, "ether", 2, True, ("ether", "Et2O", "ethoxyethane", "ethyl ether")),
    "diisopropyl ether":       ("C6H14O", "108-20-3", 0.10217476, "ether", 2, True, ("DIPE", "isopropyl ether", "iPr2O", "2-isopropoxypropane")),
    "2-methyltetrahydrofuran": ("C5H10O", "96-47-9", 0.0861323, "ether", 3, True, ("2-MeTHF", "MeTHF", "2-methyloxolane", "methyltetrahydrofuran")),
    "acetonitrile":            ("C2H3N", "75-05-8", 0.04105192, "nitrile", 3, True, ("ACN", "MeCN", "methyl cyanide", "ethanenitrile", "CH3CN")),
    "acetone":                 ("C3H6O", "67-64-1", 0.05807914, "ketone", 3, True, ("propanone", "2-propanone", "dimethyl ketone", "propan-2-one")),
    "ethyl acetate":           ("C4H8O2", "141-78-6", 0.08810512, "ester", 2, True, ("EtOAc", "ethyl ethanoate", "EA", "acetic acid ethyl ester")),
    "dichloromethane":         ("CH2Cl2", "75-09-2", 0.08493258, "chlorinated", 2, True, ("DCM", "methylene chloride", "CH2Cl2", "methylene dichloride")),
    "chloroform":              ("CHCl3", "67-66-3", 0.11937764, "chlorinated", 2, False, ("trichloromethane", "CHCl3")),
    "dimethyl sulfoxide":      ("C2H6OS", "67-68-5", 0.07813344, "sulfoxide", 5, True, ("DMSO", "dimethylsulfoxide", "dimethyl sulphoxide", "methylsulfinylmethane")),
    "N,N-dimethylformamide":   ("C3H7NO", "68-12-2", 0.07309378, "amide", 5, True, ("DMF", "dimethylformamide", "N,N-dimethylmethanamide")),
    "water":                   ("H2O", "7732-18-5", 0.01801528, "water", 5, False, ("H2O", "ultrapure water", "deionised water", "deionized water", "purified water")),
    "acetic acid":             ("C2H4O2", "64-19-7", 0.06005196, "acid", 5, True, ("AcOH", "HOAc", "ethanoic acid", "glacial acetic acid")),
    "formic acid":             ("CH2O2", "64-18-6", 0.04602538, "acid", 5, True, ("FA", "methanoic acid", "HCOOH")),
}  # fmt: skip

#: Molar heat capacity [J/(mol K)] and enthalpy of vaporization [J/mol] at 25 C, boiling and freezing [K].
_THERMAL: Mapping[str, tuple[Cell, Cell, Cell, Cell]] = {
    "methanol":                (81.1, 37430.0, 337.65, 175.65),
    "ethanol":                 (112.3, 42320.0, 351.39, 159.01),
    "1-propanol":              (143.9, 47450.0, 370.19, 148.76),
    "2-propanol":              (156.5, 45390.0, 355.36, 185.24),
    "1-butanol":               (177.2, 52350.0, 390.75, 184.55),
    "tert-butanol":            (218.6, 46690.0, 355.45, 298.96),
    "n-pentane":               (167.2, 26430.0, 309.21, 143.48),
    "n-hexane":                (195.6, 31560.0, 341.87, 177.88),
    "n-heptane":               (224.7, 36570.0, 371.53, 182.601),
    "isooctane":               (239.1, 35140.0, 372.35, 165.79),
    "cyclohexane":             (154.9, 33010.0, 353.85, 279.85),
    "toluene":                 (157.3, 38010.0, 383.75, 178.15),
    "tetrahydrofuran":         (124.0, 31990.0, 339.15, 164.77),
    "1,4-dioxane":             (152.1, 38600.0, 374.35, 284.9),
    "methyl tert-butyl ether": (187.5, 29820.0, 328.25, 164.55),
    "diethyl ether":           (172.5, 27100.0, 307.55, 156.93),
    "diisopropyl ether":       (216.8, 32120.0, 341.55, 187.78),
    "2-methyltetrahydrofuran": (None, (33900.0, GHARAGHEIZI), 353.15, (137.15, MEMORY)),
    "acetonitrile":            (91.5, 32940.0, 354.75, 229.15),
    "acetone":                 (126.3, 30990.0, 329.23, 178.25),
    "ethyl acetate":           (170.7, 35600.0, 350.25, 189.35),
    "dichloromethane":         (101.2, 28820.0, 312.95, 178.15),
    "chloroform":              (114.2, 31280.0, 334.35, 209.68),
    "dimethyl sulfoxide":      (153.0, (53100.0, GHARAGHEIZI), 465.05, 291.67),
    "N,N-dimethylformamide":   (150.6, 46890.0, 425.95, 212.85),
    "water":                   (75.3, 43980.0, (373.124, "IAPWS-95 at 101.325 kPa (unverified)"), (273.15, "triple point region, by definition 0 C at 1 atm to 3 mK")),
    "acetic acid":             (123.3, 23360.0, 391.05, 290.15),
    "formic acid":             (99.0, 20100.0, 374.15, 281.45),
}  # fmt: skip

#: Flash point [K], lower and upper limit in air [volume fraction], autoignition [K].
_FIRE: Mapping[str, tuple[Cell, Cell, Cell, Cell]] = {
    "methanol":                (282.15, 0.06, 0.36, (658.15, NFPA)),
    "ethanol":                 (285.15, 0.031, 0.19, (636.15, NFPA)),
    "1-propanol":              (288.15, 0.021, 0.175, 658.15),
    "2-propanol":              (285.15, 0.02, 0.127, 672.15),
    "1-butanol":               (308.15, 0.014, 0.12, 616.15),
    "tert-butanol":            ((283.15, NFPA), (0.024, NFPA), (0.08, NFPA), (633.15, NFPA)),
    "n-pentane":               (233.15, 0.011, 0.087, 516.15),
    "n-hexane":                (251.15, 0.01, 0.089, 498.15),
    "n-heptane":               (266.15, 0.0085, 0.067, 477.15),
    "isooctane":               (261.15, 0.007, 0.06, 686.15),
    "cyclohexane":             (256.15, 0.01, 0.08, 517.15),
    "toluene":                 (277.15, 0.01, 0.078, (753.15, NFPA)),
    "tetrahydrofuran":         (259.15, 0.015, 0.124, 503.15),
    "1,4-dioxane":             (284.15, 0.014, 0.225, (453.15, NFPA)),
    "methyl tert-butyl ether": (246.15, 0.015, 0.084, 658.15),
    "diethyl ether":           (228.15, 0.017, 0.392, (433.15, NFPA)),
    "diisopropyl ether":       (245.15, 0.01, 0.21, 678.15),
    "2-methyltetrahydrofuran": ((262.15, MEMORY), (0.015, MEMORY), (0.089, MEMORY), None),
    "acetonitrile":            (275.15, 0.03, 0.16, 796.15),
    "acetone":                 (253.15, 0.025, 0.143, (738.15, NFPA)),
    "ethyl acetate":           (269.15, 0.02, 0.128, (700.15, NFPA)),
    "dichloromethane":         ((None, "no flash point in standard tests; vapour burns between 13 and 22 % in air (unverified)"), (0.13, MEMORY), (0.22, MEMORY), None),
    "chloroform":              ((None, "not flammable (unverified)"), None, None, None),
    "dimethyl sulfoxide":      ((360.15, MEMORY), (0.026, MEMORY), (0.42, MEMORY), None),
    "N,N-dimethylformamide":   (331.15, 0.018, 0.16, 713.15),
    "water":                   (None, None, None, None),
    "acetic acid":             (312.15, 0.04, 0.199, (699.15, NFPA)),
    "formic acid":             (315.15, 0.18, 0.57, (707.15, NFPA)),
}  # fmt: skip

#: UV cutoff [m], limits in air over eight hours and 15 minutes [ppm], whether it forms peroxides.
_LIGHT_AND_AIR: Mapping[str, tuple[Cell, Cell, Cell, Cell]] = {
    "methanol":                (205e-9, 200.0, 250.0, None),
    "ethanol":                 (210e-9, (1000.0, "29 CFR 1910.1000 table Z-1 (unverified)"), 1000.0, None),
    "1-propanol":              (210e-9, 100.0, None, None),
    "2-propanol":              (205e-9, 200.0, 400.0, None),
    "1-butanol":               (215e-9, 20.0, None, None),
    "tert-butanol":            (215e-9, 100.0, None, None),
    "n-pentane":               (190e-9, 600.0, None, None),
    "n-hexane":                (195e-9, 50.0, None, None),
    "n-heptane":               (200e-9, 400.0, 500.0, None),
    "isooctane":               (215e-9, 300.0, None, None),
    "cyclohexane":             (200e-9, 100.0, None, None),
    "toluene":                 (284e-9, 20.0, None, None),
    "tetrahydrofuran":         (212e-9, 50.0, 100.0, True),
    "1,4-dioxane":             (215e-9, 20.0, None, True),
    "methyl tert-butyl ether": (210e-9, 40.0, None, (None, "forms peroxides only slowly (common practice, no source)")),
    "diethyl ether":           ((215e-9, "Illustrated Pocket Dictionary of Chromatography"), 400.0, 500.0, True),
    "diisopropyl ether":       (220e-9, 250.0, 310.0, True),
    "2-methyltetrahydrofuran": (None, None, None, True),
    "acetonitrile":            (190e-9, 20.0, None, None),
    "acetone":                 (330e-9, 500.0, 750.0, None),
    "ethyl acetate":           (256e-9, 400.0, None, None),
    "dichloromethane":         (233e-9, 50.0, None, None),
    "chloroform":              (245e-9, 10.0, None, None),
    "dimethyl sulfoxide":      (268e-9, None, None, None),
    "N,N-dimethylformamide":   (268e-9, 10.0, None, None),
    "water":                   (190e-9, None, None, None),
    "acetic acid":             (None, 10.0, 15.0, None),
    "formic acid":             (None, 5.0, 10.0, None),
}  # fmt: skip

#: Field of the record, the source of its plain numbers, and the cells by liquid.
COLUMNS: tuple[tuple[str, str, Mapping[str, Cell]], ...] = tuple(
    (field, source, {name: row[place] for name, row in table.items()})
    for table, fields in (
        (
            _THERMAL,
            {
                "heat_capacity": CRC_CAPACITY,
                "enthalpy_of_vaporization": CRC_HEAT,
                "normal_boiling_point": CRC,
                "freezing_point": CRC,
            },
        ),
        (
            _FIRE,
            dict.fromkeys(
                (
                    "flash_point",
                    "lower_flammable_limit",
                    "upper_flammable_limit",
                    "autoignition_temperature",
                ),
                IEC,
            ),
        ),
        (
            _LIGHT_AND_AIR,
            {
                "uv_cutoff": UV,
                "exposure_limit_ppm": ONTARIO,
                "short_term_limit_ppm": ONTARIO,
                "peroxide_former": RANK,
            },
        ),
    )
    for place, (field, source) in enumerate(fields.items())
)
