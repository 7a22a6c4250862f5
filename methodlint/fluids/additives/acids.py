"""Acids, and water: what a modifier gets to sharpen acidic peaks."""

from __future__ import annotations

from methodlint.fluids.additives.record import FULLY_MISCIBLE, Additive

__all__ = ["ADDITIVES", "POLAR_LIQUIDS"]

PRACTICE = "common practice, no source"
MEMORY = "handbook value (unverified)"
CRC = "CRC Handbook, physical constants of organic compounds (open data of the chemicals library)"
MOLAR_MASS = "standard atomic weights"

#: Liquids that take up acids and small amines in all proportions (general chemistry; unverified).
POLAR_LIQUIDS = (
    "methanol",
    "ethanol",
    "1-propanol",
    "2-propanol",
    "1-butanol",
    "tert-butanol",
    "acetonitrile",
    "tetrahydrofuran",
    "1,4-dioxane",
    "water",
)
_MIXES = dict.fromkeys(POLAR_LIQUIDS, FULLY_MISCIBLE)

#: Acids form salts with bases and, on standing, esters with alcohols.
_ACID_PARTNERS = frozenset({"amine", "ammonia", "alcohol"})


_SOURCES = {
    "molar_mass": MOLAR_MASS,
    "solubility": "general chemistry (unverified)",
    "reacts_with": PRACTICE,
    "persistent": PRACTICE,
    "usual_volume_share": PRACTICE,
    "uv_shift": "practice of liquid chromatography (unverified)",
}
_ALCOHOLS_AND_WATER = dict.fromkeys(("methanol", "ethanol", "water"), FULLY_MISCIBLE)
_LOWER_ALCOHOLS_AND_WATER = dict.fromkeys((*POLAR_LIQUIDS[:4], "water"), FULLY_MISCIBLE)

#: Volatile, molar mass [kg/mol], density as bought [kg/m3] and its source, mass fraction in it, what it
#: mixes with, usual volume shares, how far the UV cutoff moves [m], other names.
_ACIDS = {
    "formic acid":          (True, 0.04602538, 1220.0, CRC, 1.0, _MIXES, (0.0005, 0.002), 5e-9, ("FA", "HCOOH", "methanoic acid")),
    "acetic acid":          (True, 0.06005196, 1044.6, CRC, 1.0, _MIXES, (0.0005, 0.01), 10e-9, ("AcOH", "HOAc", "ethanoic acid", "glacial acetic acid")),
    "trifluoroacetic acid": (True, 0.11402335, 1489.0, MEMORY, 1.0, _MIXES, (0.0005, 0.005), 5e-9, ("TFA", "CF3COOH", "2,2,2-trifluoroacetic acid")),
    "methanesulfonic acid": (False, 0.09610566, 1481.2, CRC, 1.0, _LOWER_ALCOHOLS_AND_WATER, None, None, ("MSA", "mesic acid", "methanesulphonic acid")),
    "phosphoric acid":      (False, 0.09799518, 1685.0, MEMORY, 0.85, _ALCOHOLS_AND_WATER, None, 0.0, ("H3PO4", "orthophosphoric acid")),
}  # fmt: skip

ADDITIVES: tuple[Additive, ...] = (
    *(
        Additive(
            name=name,
            synonyms=synonyms,
            kind="acid",
            volatile=volatile,
            molar_mass=molar_mass,
            stock_density=density,
            stock_mass_fraction=part,
            solubility=mixes,
            reacts_with=_ACID_PARTNERS,
            persistent=True,
            usual_volume_share=usual,
            uv_shift=shift,
            sources={**_SOURCES, "stock_density": source},
        )
        for name, row in _ACIDS.items()
        for volatile, molar_mass, density, source, part, mixes, usual, shift, synonyms in (row,)
    ),
    Additive(
        name="citric acid",
        synonyms=("2-hydroxypropane-1,2,3-tricarboxylic acid",),
        kind="acid",
        volatile=False,
        molar_mass=0.19212352,
        reacts_with=_ACID_PARTNERS,
        persistent=True,
        sources={"molar_mass": MOLAR_MASS, "persistent": PRACTICE, "reacts_with": PRACTICE},
    ),
    Additive(
        name="water",
        synonyms=("H2O", "ultrapure water", "deionised water", "deionized water", "purified water"),
        kind="water",
        volatile=True,
        molar_mass=0.01801528,
        stock_density=998.2,
        solubility={
            name: FULLY_MISCIBLE for name in POLAR_LIQUIDS if name not in ("1-butanol", "water")
        },
        usual_volume_share=(0.01, 0.05),
        uv_shift=0.0,
        sources={
            "stock_density": "Kell 1975, J. Chem. Eng. Data 20, 97",
            "usual_volume_share": f"{PRACTICE}; upper limit 10 %",
            "uv_shift": "absorbs less than the alcohols (unverified)",
        },
    ),
)
