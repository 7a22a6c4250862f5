"""Amines and ammonia: what a modifier gets to sharpen basic peaks."""

from __future__ import annotations

from methodlint.fluids.additives.acids import CRC, MEMORY, MOLAR_MASS, POLAR_LIQUIDS, PRACTICE
from methodlint.fluids.additives.record import FULLY_MISCIBLE, Additive

__all__ = ["ADDITIVES"]

_MIXES = dict.fromkeys(POLAR_LIQUIDS, FULLY_MISCIBLE)

#: Carbon dioxide takes up primary and secondary amines and ammonia as carbamate; tertiary ones not.
_PRIMARY_OR_SECONDARY = frozenset({"carbon dioxide", "acid", "ketone", "ester", "chlorinated"})
_TERTIARY = frozenset({"acid", "chlorinated"})

_SOURCES = {
    "molar_mass": MOLAR_MASS,
    "stock_density": CRC,
    "solubility": "general chemistry (unverified)",
    "reacts_with": f"{PRACTICE}; at customary levels in alcohol the carbamate is reversible",
    "persistent": PRACTICE,
    "usual_volume_share": PRACTICE,
    "uv_shift": "practice of liquid chromatography: amines 10 to 25 nm (unverified)",
}


#: Molar mass [kg/mol], density [kg/m3], tertiary, volatile, other names.
_AMINES = {
    "diethylamine":          (0.07313684, 705.6, False, True, ("DEA", "Et2NH", "N-ethylethanamine")),
    "triethylamine":         (0.10119, 727.5, True, True, ("TEA", "Et3N", "N,N-diethylethanamine")),
    "isopropylamine":        (0.05911026, 689.1, False, True, ("IPAm", "iPrNH2", "2-propanamine", "2-propylamine", "propan-2-amine")),
    "isobutylamine":         (0.07313684, 724.2, False, True, ("iBuNH2", "IBA", "2-methylpropan-1-amine")),
    "butylamine":            (0.07313684, 741.4, False, True, ("n-butylamine", "1-butanamine", "butan-1-amine")),
    "diisopropylethylamine": (0.12924316, 742.2, True, True, ("DIPEA", "N,N-diisopropylethylamine", "N-ethyldiisopropylamine")),
    "ethanolamine":          (0.06108308, 1018.0, False, False, ("2-aminoethanol", "monoethanolamine", "MEA")),
}  # fmt: skip

ADDITIVES: tuple[Additive, ...] = (
    *(
        Additive(
            name=name,
            synonyms=synonyms,
            kind="amine",
            volatile=volatile,
            molar_mass=molar_mass,
            stock_density=density,
            # triethylamine and water separate above 18 C: water is left out for the tertiary ones
            solubility={n: v for n, v in _MIXES.items() if not (tertiary and n == "water")},
            reacts_with=_TERTIARY if tertiary else _PRIMARY_OR_SECONDARY,
            persistent=True,
            usual_volume_share=(0.001, 0.005),
            uv_shift=20e-9,
            sources=_SOURCES,
        )
        for name, (molar_mass, density, tertiary, volatile, synonyms) in _AMINES.items()
    ),
    Additive(
        name="ammonium hydroxide",
        synonyms=(
            "ammonia",
            "aqueous ammonia",
            "ammonia solution",
            "NH4OH",
            "NH3",
            "ammonia (aq.)",
            "ammonia, 28 % in water",
        ),
        kind="ammonia",
        volatile=True,
        molar_mass=0.01703052,
        stock_density=899.0,
        stock_mass_fraction=0.28,
        solubility=_MIXES,
        reacts_with=frozenset({"carbon dioxide", "acid", "ketone", "ester"}),
        persistent=False,
        usual_volume_share=(0.001, 0.003),
        usual_concentration=(10.0, 50.0),
        uv_shift=10e-9,
        sources={
            **_SOURCES,
            "stock_density": f"28 % by mass in water; {MEMORY}",
            "usual_concentration": PRACTICE,
            "uv_shift": "practice of liquid chromatography (unverified)",
        },
    ),
)
