"""Materials that touch the mobile phase, and the liquids that attack them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from methodlint.fluids.liquids.known import LIQUIDS, find_liquid, normalised_name

__all__ = [
    "MATERIALS",
    "Material",
    "attack",
    "attacks_anything",
    "doubt",
    "find_material",
]

SOURCE = "resistance charts of polymers and elastomers (unverified)"


@dataclass(frozen=True)
class Material:
    """A material of seals, tubes, rotors or cells.

    Parameters
    ----------
    name : str
        Name used throughout.
    synonyms : tuple of str
        Other names and abbreviations that a card may use; messages print `name`.
    attacked_by : mapping of str to str
        Names of liquids or families of liquids, each with what happens.
    doubtful_in : mapping of str to str
        Likewise where charts rate a material as doubtful, disagree, or depend on its grade.
    amines : str
        What amines and ammonia do to it as additives; empty where nothing is known against them.
    decompression : str
        What CO2 that it took up does to it when the pressure falls; empty where nothing is known.
    """

    name: str
    synonyms: tuple[str, ...]
    attacked_by: Mapping[str, str]
    doubtful_in: Mapping[str, str] = field(default_factory=dict, hash=False)
    amines: str = ""
    decompression: str = ""


_SWELLS = "swells it"
_BLISTERS = "CO2 that it takes up blisters it when the pressure falls quickly (second-hand)"
_ACIDS = {"nitric acid": "dissolves it when concentrated", "sulfuric acid": "dissolves it"}

_MATERIALS = (
    Material(
        "polyether ether ketone",
        ("PEEK", "polyetheretherketone", "carbon-filled PEEK"),
        {
            "tetrahydrofuran": "swells it and lets it burst under pressure",
            "2-methyltetrahydrofuran": _SWELLS,
            "dichloromethane": "swells it and lets it burst under pressure",
            "chloroform": _SWELLS,
            "dimethyl sulfoxide": "swells it",
            **_ACIDS,
        },
    ),
    Material("polyimide", ("Vespel type", "PI"), {"ammonia": "breaks it down"}, amines="amines above pH 10 break it down (unverified)"),
    Material(
        "fluoroelastomer",
        ("FKM", "FPM", "fluorocarbon rubber"),
        {
            "ketone": _SWELLS,
            "ester": _SWELLS,
            "ether": _SWELLS,
            "amide": _SWELLS,
            "sulfoxide": _SWELLS,
        },
        doubtful_in={
            "methanol": "swells it unless it is a grade for alcohols",
            "acetonitrile": _SWELLS,
        },
        amines="amines make it brittle (second-hand)",
    ),
    Material(
        "ethylene propylene rubber",
        ("EPDM", "EPR"),
        {"alkane": _SWELLS, "aromatic": _SWELLS, "chlorinated": _SWELLS, "ether": _SWELLS},
    ),
    Material(
        "nitrile rubber",
        ("NBR", "Buna-N", "acrylonitrile butadiene rubber"),
        {
            "ketone": _SWELLS,
            "ester": _SWELLS,
            "ether": _SWELLS,
            "chlorinated": _SWELLS,
            "aromatic": _SWELLS,
            "sulfoxide": _SWELLS,
        },
        doubtful_in={
            "methanol": _SWELLS,
            "ethanol": _SWELLS,
            "acetonitrile": _SWELLS,
            "amide": _SWELLS,
        },
        amines="amines soften it (unverified)",
        decompression=_BLISTERS,
    ),
    Material(
        "silicone rubber",
        ("VMQ", "PDMS"),
        {"alkane": _SWELLS, "aromatic": _SWELLS, "ether": _SWELLS, "chlorinated": _SWELLS},
        decompression=_BLISTERS,
    ),
    Material("ultra-high molecular weight polyethylene", ("UHMWPE", "UHMW-PE", "PE-UHMW", "polyethylene"), {}),
    Material("perfluoroelastomer", ("FFKM",), {}),
    Material("polytetrafluoroethylene", ("PTFE", "carbon-filled PTFE", "graphite-filled PTFE"), {}),
    Material("stainless steel", ("316", "316L", "steel", "SS316"), {}),
    Material("fused silica", ("silica", "quartz"), {}),
    Material("sapphire", ("ruby", "aluminium oxide", "alumina"), {}),
    Material("titanium", ("Ti",), {}),
    Material("ceramic", ("zirconia", "zirconium oxide"), {}),
    Material("polyphenylene sulfide", ("PPS",), {"nitric acid": "breaks it down"}),
)  # fmt: skip

#: Every material by its name.
MATERIALS: Mapping[str, Material] = {material.name: material for material in _MATERIALS}

_BY_NAME = {
    normalised_name(name): material
    for material in _MATERIALS
    for name in (material.name, *material.synonyms)
}


def find_material(text: str) -> Material | None:
    """Material of a name or abbreviation; None if it is not known."""
    return _BY_NAME.get(normalised_name(text))


def attack(material: Material, liquid: str) -> str | None:
    """What a liquid does to a material.

    Parameters
    ----------
    material : Material
        As found.
    liquid : str
        Name or synonym; a liquid that is not in the tables is looked up by its name alone.

    Returns
    -------
    str or None
        In words; None where nothing is known against it.
    """
    known = find_liquid(liquid)
    name = known.name if known is not None else liquid.strip().casefold()
    if name in material.attacked_by:
        return material.attacked_by[name]
    return material.attacked_by.get(LIQUIDS[name].family) if name in LIQUIDS else None


def doubt(material: Material, liquid: str) -> str | None:
    """What a liquid may do to a material by charts that rate it doubtful; None otherwise."""
    known = find_liquid(liquid)
    if known is None:
        return None
    by_name = material.doubtful_in.get(known.name)
    return by_name if by_name is not None else material.doubtful_in.get(known.family)


def attacks_anything(liquid: str) -> bool:
    """Whether a liquid attacks any material of the table; the usual modifiers attack none."""
    return any(attack(material, liquid) for material in MATERIALS.values())
