"""Acids, and water: what a modifier gets to sharpen acidic peaks."""

from __future__ import annotations

from methodlint.fluids.additives.record import FULLY_MISCIBLE, Additive

__all__ = ["ADDITIVES", "POLAR_LIQUIDS"]

PRACTICE = "common practice, no source"
MEMORY = "handbook value, from memory"
CRC = "CRC Handbook, physical constants of organic compounds (open data of the chemicals library)"
MOLAR_MASS = "standard atomic weights"

#: Liquids that take up acids and small amines in all proportions (general chemistry, from memory).
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


def _sources(density: str, usual: str = PRACTICE) -> dict[str, str]:
    return {
        "molar_mass": MOLAR_MASS,
        "stock_density": density,
        "solubility": "general chemistry (from memory)",
        "reacts_with": PRACTICE,
        "persistent": PRACTICE,
        "usual_volume_share": usual,
        "uv_shift": "practice of liquid chromatography (from memory)",
    }


ADDITIVES: tuple[Additive, ...] = (
    Additive(
        name="formic acid",
        synonyms=("FA", "HCOOH", "methanoic acid"),
        kind="acid",
        volatile=True,
        molar_mass=0.04602538,
        stock_density=1220.0,
        solubility=_MIXES,
        reacts_with=_ACID_PARTNERS,
        persistent=True,
        usual_volume_share=(0.0005, 0.002),
        uv_shift=5e-9,
        sources=_sources(CRC),
    ),
    Additive(
        name="acetic acid",
        synonyms=("AcOH", "HOAc", "ethanoic acid", "glacial acetic acid"),
        kind="acid",
        volatile=True,
        molar_mass=0.06005196,
        stock_density=1044.6,
        solubility=_MIXES,
        reacts_with=_ACID_PARTNERS,
        persistent=True,
        usual_volume_share=(0.0005, 0.01),
        uv_shift=10e-9,
        sources=_sources(CRC),
    ),
    Additive(
        name="trifluoroacetic acid",
        synonyms=("TFA", "CF3COOH", "2,2,2-trifluoroacetic acid"),
        kind="acid",
        volatile=True,
        molar_mass=0.11402335,
        stock_density=1489.0,
        solubility=_MIXES,
        reacts_with=_ACID_PARTNERS,
        persistent=True,
        usual_volume_share=(0.0005, 0.005),
        uv_shift=5e-9,
        sources=_sources(MEMORY),
    ),
    Additive(
        name="methanesulfonic acid",
        synonyms=("MSA", "mesic acid", "methanesulphonic acid"),
        kind="acid",
        volatile=False,
        molar_mass=0.09610566,
        stock_density=1481.2,
        solubility=dict.fromkeys(POLAR_LIQUIDS[:4], FULLY_MISCIBLE) | {"water": FULLY_MISCIBLE},
        reacts_with=_ACID_PARTNERS,
        persistent=True,
        usual_volume_share=None,
        uv_shift=None,
        sources=_sources(CRC),
    ),
    Additive(
        name="phosphoric acid",
        synonyms=("H3PO4", "orthophosphoric acid"),
        kind="acid",
        volatile=False,
        molar_mass=0.09799518,
        stock_density=1685.0,
        stock_mass_fraction=0.85,
        solubility={"methanol": FULLY_MISCIBLE, "ethanol": FULLY_MISCIBLE, "water": FULLY_MISCIBLE},
        reacts_with=_ACID_PARTNERS,
        persistent=True,
        uv_shift=0.0,
        sources=_sources(MEMORY),
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
            "uv_shift": "absorbs less than the alcohols (from memory)",
        },
    ),
)
