"""Ion-pair agents: kept by every column they have met."""

from __future__ import annotations

from methodlint.fluids.additives.acids import CRC, MOLAR_MASS, POLAR_LIQUIDS, PRACTICE
from methodlint.fluids.additives.record import FULLY_MISCIBLE, Additive

__all__ = ["ADDITIVES"]

_SOURCES = {"molar_mass": MOLAR_MASS, "stock_density": CRC, "persistent": PRACTICE}


def _agent(name: str, synonyms: tuple[str, ...], molar_mass: float) -> Additive:
    """Solid, involatile agent; no solubility in these liquids is known."""
    return Additive(
        name=name,
        synonyms=synonyms,
        kind="ion pair",
        volatile=False,
        molar_mass=molar_mass,
        persistent=True,
        sources=_SOURCES,
    )


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
            "solubility": "general chemistry (from memory)",
            "usual_volume_share": PRACTICE,
            "uv_shift": "practice of liquid chromatography (from memory)",
        },
    ),
    _agent(
        "sodium 1-hexanesulfonate",
        ("sodium hexanesulfonate", "hexanesulfonate", "hexane sulfonic acid sodium salt"),
        0.18822039,
    ),
    _agent(
        "sodium 1-heptanesulfonate",
        ("sodium heptanesulfonate", "heptanesulfonate", "heptane sulfonic acid sodium salt"),
        0.20224697,
    ),
    _agent(
        "sodium 1-octanesulfonate",
        ("sodium octanesulfonate", "octanesulfonate", "octane sulfonic acid sodium salt"),
        0.21627355,
    ),
    _agent(
        "sodium dodecyl sulfate",
        ("SDS", "sodium lauryl sulfate", "sodium dodecyl sulphate"),
        0.28837907,
    ),
    _agent("tetrabutylammonium bromide", ("TBAB", "tetrabutylammonium", "Bu4NBr"), 0.32236774),
)
