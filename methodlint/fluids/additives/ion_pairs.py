"""Ion-pair agents: kept by every column they have met."""

from __future__ import annotations

from methodlint.fluids.additives.acids import CRC, MOLAR_MASS, POLAR_LIQUIDS, PRACTICE
from methodlint.fluids.additives.record import FULLY_MISCIBLE, Additive

__all__ = ["ADDITIVES"]

_SOURCES = {"molar_mass": MOLAR_MASS, "stock_density": CRC, "persistent": PRACTICE}


#: Solid, involatile agents, with no known solubility in these liquids: molar mass [kg/mol], other names.
_AGENTS = {
    "sodium 1-hexanesulfonate":   (0.18822039, ("sodium hexanesulfonate", "hexanesulfonate", "hexane sulfonic acid sodium salt")),
    "sodium 1-heptanesulfonate":  (0.20224697, ("sodium heptanesulfonate", "heptanesulfonate", "heptane sulfonic acid sodium salt")),
    "sodium 1-octanesulfonate":   (0.21627355, ("sodium octanesulfonate", "octanesulfonate", "octane sulfonic acid sodium salt")),
    "sodium dodecyl sulfate":     (0.28837907, ("SDS", "sodium lauryl sulfate", "sodium dodecyl sulphate")),
    "tetrabutylammonium bromide": (0.32236774, ("TBAB", "tetrabutylammonium", "Bu4NBr")),
}  # fmt: skip

ADDITIVES: tuple[Additive, ...] = (
    Additive(
        name="heptafluorobutyric acid",
        synonyms=("HFBA", "heptafluorobutanoic acid", "perfluorobutyric acid"),
        kind="ion pair",
        volatile=True,
        molar_mass=0.21403836,
        stock_density=1651.0,
        solubility=dict.fromkeys(POLAR_LIQUIDS[:7], FULLY_MISCIBLE),
        reacts_with=frozenset({"amine", "ammonia", "alcohol"}),
        persistent=True,
        usual_volume_share=(0.0005, 0.001),
        uv_shift=5e-9,
        sources={
            **_SOURCES,
            "solubility": "general chemistry (unverified)",
            "usual_volume_share": PRACTICE,
            "uv_shift": "practice of liquid chromatography (unverified)",
        },
    ),
    *(
        Additive(
            name=name,
            synonyms=synonyms,
            kind="ion pair",
            volatile=False,
            molar_mass=molar_mass,
            persistent=True,
            sources=_SOURCES,
        )
        for name, (molar_mass, synonyms) in _AGENTS.items()
    ),
)
