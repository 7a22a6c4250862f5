"""Ammonium salts, and buffers that never leave."""

from __future__ import annotations

from collections.abc import Mapping

from methodlint.fluids.additives.acids import MEMORY, MOLAR_MASS, PRACTICE
from methodlint.fluids.additives.record import Additive

__all__ = ["ADDITIVES"]

_CURVE = "Ammonium acetate woes, practice column after a published figure (second-hand)"

#: Liquids that dissolve no salt (general chemistry; unverified).
_NOTHING_IN = dict.fromkeys(
    (
        "n-pentane", "n-hexane", "n-heptane", "isooctane", "cyclohexane", "toluene",
        "dichloromethane", "chloroform", "methyl tert-butyl ether", "diethyl ether",
        "diisopropyl ether", "ethyl acetate",
    ),
    0.0,
)  # fmt: skip

_VOLATILE_SOURCES = {
    "molar_mass": MOLAR_MASS,
    "solubility": (
        f"methanol: {MEMORY}; ethanol and 2-propanol, lower end of the usual span: {PRACTICE}; "
        "hydrocarbons, esters, ethers, chlorinated: general chemistry (unverified)"
    ),
    "persistent": PRACTICE,
    "usual_concentration": PRACTICE,
    "uv_shift": "practice of liquid chromatography: 10 to 25 nm (unverified)",
}


_INVOLATILE_SOURCES = {
    "molar_mass": MOLAR_MASS,
    "solubility": f"not used in carbon dioxide at all ({PRACTICE})",
    "solubility_with_water": f"not at 70 % organic liquid and above ({PRACTICE})",
    "uv_shift": "practice of liquid chromatography (unverified)",
}

#: Nothing dissolves while 70 % or more of the liquid is organic.
_LITTLE: Mapping[str, tuple[tuple[float, float], ...]] = dict.fromkeys(
    ("methanol", "ethanol", "2-propanol", "acetonitrile"), ((0.1, 0.0), (0.3, 0.0))
)

#: Buffer salts: molar mass [kg/mol], limits with water, shift of the UV cutoff [m], other names.
_INVOLATILE: Mapping[
    str,
    tuple[float | None, Mapping[str, tuple[tuple[float, float], ...]], float, tuple[str, ...]],
] = {
    "potassium phosphate":            (None, _LITTLE, 0.0, ("potassium phosphate buffer", "phosphate buffer", "phosphate", "K2HPO4/KH2PO4")),
    "potassium dihydrogen phosphate": (0.13608554, _LITTLE, 0.0, ("KH2PO4", "monobasic potassium phosphate", "potassium dihydrogenphosphate")),
    "dipotassium hydrogen phosphate": (0.1741759, _LITTLE, 0.0, ("K2HPO4", "dibasic potassium phosphate", "dipotassium hydrogenphosphate")),
    "sodium dihydrogen phosphate":    (0.11997701, _LITTLE, 0.0, ("NaH2PO4", "monobasic sodium phosphate", "sodium dihydrogenphosphate")),
    "sodium phosphate":               (None, _LITTLE, 0.0, ("sodium phosphate buffer", "Na2HPO4/NaH2PO4")),
    "ammonium phosphate":             (0.13205622, _LITTLE, 0.0, ("diammonium hydrogen phosphate", "(NH4)2HPO4", "ammonium phosphate buffer")),
    "sodium borate":                  (0.20121934, _LITTLE, 0.0, ("borate", "borax", "Na2B4O7", "borate buffer")),
    "sodium sulfate":                 (0.14204214, _LITTLE, 0.0, ("Na2SO4", "sodium sulphate", "sulfate", "sulphate")),
    "ammonium sulfate":               (0.13213952, _LITTLE, 0.0, ("(NH4)2SO4", "ammonium sulphate")),
    "sodium chloride":                (0.05844277, {}, 0.0, ("NaCl",)),
    "sodium acetate":                 (0.08203379, {}, 10e-9, ("NaOAc", "CH3COONa")),
    "sodium formate":                 (0.06800722, {}, 10e-9, ("HCOONa", "NaHCO2")),
    "potassium acetate":              (0.09814232, {}, 10e-9, ("KOAc", "CH3COOK")),
}  # fmt: skip

ADDITIVES: tuple[Additive, ...] = (
    Additive(
        name="ammonium formate",
        synonyms=("AmF", "NH4HCO2", "NH4COOH", "HCOONH4", "NH4HCOO"),
        kind="ammonium salt",
        volatile=True,
        molar_mass=0.0630559,
        solubility={
            **_NOTHING_IN,
            "methanol": 50.0,
            "ethanol": 10.0,
            "2-propanol": 5.0,
            "acetonitrile": 1.0,
        },
        usual_concentration=(5.0, 20.0),
        uv_shift=10e-9,
        sources={
            **_VOLATILE_SOURCES,
            "solubility": f"{PRACTICE}: methanol at least 50 mM, dry acetonitrile below 1 to 2 mM",
        },
    ),
    Additive(
        name="ammonium acetate",
        synonyms=("AmAc", "NH4OAc", "NH4Ac", "CH3COONH4"),
        kind="ammonium salt",
        volatile=True,
        molar_mass=0.07708248,
        solubility={
            **_NOTHING_IN,
            "methanol": 1000.0,
            "ethanol": 10.0,
            "2-propanol": 5.0,
            "acetonitrile": 0.0,
        },
        solubility_with_water={"acetonitrile": ((0.05, 10.0), (0.10, 20.0))},
        usual_concentration=(5.0, 20.0),
        uv_shift=10e-9,
        sources={
            **_VOLATILE_SOURCES,
            "solubility": (
                f"methanol 7.9 g per 100 mL at 15 C ({MEMORY}); acetonitrile: {_CURVE}; "
                f"ethanol and 2-propanol: {PRACTICE}"
            ),
            "solubility_with_water": _CURVE,
        },
    ),
    Additive(
        name="ammonium bicarbonate",
        synonyms=("ammonium hydrogencarbonate", "NH4HCO3", "ABC", "ammonium hydrogen carbonate"),
        kind="ammonium salt",
        volatile=True,
        molar_mass=0.0790553,
        solubility={**_NOTHING_IN, "ethanol": 0.0, "acetonitrile": 0.0, "2-propanol": 0.0},
        reacts_with=frozenset({"acid"}),
        usual_concentration=(5.0, 10.0),
        uv_shift=5e-9,
        sources={
            **_VOLATILE_SOURCES,
            "solubility": f"insoluble in ethanol ({MEMORY}); methanol not known",
            "reacts_with": "sets carbon dioxide free with acids (general chemistry; unverified)",
        },
    ),
    Additive(
        name="ammonium carbonate",
        synonyms=("(NH4)2CO3",),
        kind="ammonium salt",
        volatile=True,
        molar_mass=0.09608582,
        solubility={**_NOTHING_IN, "ethanol": 0.0, "acetonitrile": 0.0, "2-propanol": 0.0},
        reacts_with=frozenset({"acid"}),
        uv_shift=5e-9,
        sources=_VOLATILE_SOURCES,
    ),
    Additive(
        name="ammonium fluoride",
        synonyms=("NH4F",),
        kind="ammonium salt",
        volatile=True,
        molar_mass=0.03703686,
        solubility={**_NOTHING_IN, "acetonitrile": 0.0},
        usual_concentration=(0.2, 2.0),
        uv_shift=0.0,
        sources={
            **_VOLATILE_SOURCES,
            "solubility": f"slightly soluble in alcohols, no number known ({MEMORY})",
        },
    ),
    Additive(
        name="ammonium trifluoroacetate",
        synonyms=("NH4TFA", "NH4CF3COO"),
        kind="ammonium salt",
        volatile=True,
        molar_mass=0.1310539,
        solubility=_NOTHING_IN,
        uv_shift=5e-9,
        sources=_VOLATILE_SOURCES,
    ),
    *(
        Additive(
            name=name,
            synonyms=synonyms,
            kind="nonvolatile salt",
            volatile=False,
            molar_mass=molar_mass,
            solubility={**_NOTHING_IN, "acetonitrile": 0.0, "2-propanol": 0.0, "ethanol": 0.0},
            solubility_with_water=with_water,
            uv_shift=uv_shift,
            sources=_INVOLATILE_SOURCES,
        )
        for name, (molar_mass, with_water, uv_shift, synonyms) in _INVOLATILE.items()
    ),
)
