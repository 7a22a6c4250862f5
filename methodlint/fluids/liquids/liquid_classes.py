"""Classes of liquids as column cards name them: "alcohols", "chlorinated solvents", "aqueous"."""

from __future__ import annotations

import functools
import re
from collections.abc import Mapping

from methodlint.fluids.liquids.known import LIQUIDS, find_liquid, normalised_name

__all__ = ["is_in", "known_on_a_list", "members"]

_FAMILIES: Mapping[str, tuple[str, ...]] = {
    "alcohol": ("alcohol",),
    "alkanol": ("alcohol",),
    "lower alcohol": ("alcohol",),
    "alkane": ("alkane",),
    "aliphatic hydrocarbon": ("alkane",),
    "hydrocarbon": ("alkane", "aromatic"),
    "aromatic": ("aromatic",),
    "aromatic hydrocarbon": ("aromatic",),
    "arene": ("aromatic",),
    "ketone": ("ketone",),
    "ether": ("ether",),
    "ester": ("ester",),
    "acetate": ("ester",),
    "nitrile": ("nitrile",),
    "amide": ("amide",),
    "sulfoxide": ("sulfoxide",),
    "sulphoxide": ("sulfoxide",),
    "acid": ("acid",),
    "carboxylic acid": ("acid",),
    "organic acid": ("acid",),
    "amine": ("amine",),
    "chlorinated": ("chlorinated",),
    "chlorinated hydrocarbon": ("chlorinated",),
    "chloroalkane": ("chlorinated",),
    "halogenated": ("chlorinated", "fluorinated"),
    "halogenated hydrocarbon": ("chlorinated", "fluorinated"),
    "fluorinated": ("fluorinated",),
    "fluorinated alcohol": ("fluorinated",),
    "water": ("water",),
    "aqueous": ("water",),
    "aqueous buffer": ("water",),
    "aqueous mobile phase": ("water",),
    "polar aprotic": ("nitrile", "amide", "sulfoxide", "ketone"),
    "dipolar aprotic": ("nitrile", "amide", "sulfoxide", "ketone"),
    "protic": ("alcohol", "water", "acid"),
}
"""Families of `Liquid.family` by the word for the class, in the singular."""

# Members that have no data here: names and nothing else, general chemistry (unverified).
_OTHERS: Mapping[str, tuple[str, ...]] = {
    "alcohol": ("2-butanol", "isobutanol", "1-pentanol", "1-hexanol", "1-octanol", "benzyl alcohol",
                "ethylene glycol", "propylene glycol", "glycerol", "2-methoxyethanol",
                "2,2,2-trifluoroethanol", "hexafluoro-2-propanol", "hexafluoroisopropanol"),
    "alkane": ("hexanes", "n-octane", "n-decane", "methylcyclohexane", "petroleum ether",
               "cyclopentane", "isohexane", "petroleum benzine"),
    "aromatic": ("benzene", "xylene", "xylenes", "o-xylene", "m-xylene", "p-xylene", "ethylbenzene",
                 "anisole", "pyridine", "chlorobenzene", "nitrobenzene"),
    "ketone": ("2-butanone", "methyl ethyl ketone", "MEK", "methyl isobutyl ketone", "MIBK",
               "cyclohexanone", "cyclopentanone"),
    "ether": ("1,2-dimethoxyethane", "diglyme", "cyclopentyl methyl ether", "anisole",
              "dibutyl ether", "2-methoxyethanol"),
    "ester": ("methyl acetate", "propyl acetate", "isopropyl acetate", "butyl acetate",
              "ethyl formate", "ethyl lactate", "dimethyl carbonate", "diethyl carbonate",
              "propylene carbonate"),
    "nitrile": ("propionitrile", "butyronitrile"),
    "amide": ("N,N-dimethylacetamide", "DMAc", "DMA", "N-methyl-2-pyrrolidone", "NMP",
              "N-methylpyrrolidone", "formamide"),
    "acid": ("trifluoroacetic acid", "TFA", "propionic acid", "phosphoric acid"),
    "amine": ("diethylamine", "DEA", "triethylamine", "TEA", "isopropylamine", "butylamine",
              "ammonia", "pyridine", "ethanolamine"),
    "chlorinated": ("1,2-dichloroethane", "carbon tetrachloride", "chlorobenzene",
                    "trichloroethylene", "tetrachloroethylene", "1,1,1-trichloroethane"),
    "fluorinated": ("2,2,2-trifluoroethanol", "hexafluoro-2-propanol", "hexafluoroisopropanol",
                    "trifluoroacetic acid", "TFA", "benzotrifluoride"),
    "other": ("carbon disulfide", "nitromethane", "sulfolane", "acetic anhydride"),
}  # fmt: skip

_ENDING = re.compile(r"(?:solvent|liquid|eluent)s?$")


@functools.cache
def _others() -> dict[str, frozenset[str]]:
    found: dict[str, set[str]] = {}
    for family, names in _OTHERS.items():
        for name in names:
            found.setdefault(normalised_name(name), set()).add(family)
    return {name: frozenset(families) for name, families in found.items()}


@functools.cache
def _classes() -> dict[str, tuple[str, ...]]:
    return {normalised_name(word): families for word, families in _FAMILIES.items()}


@functools.lru_cache(maxsize=1024)
def _families_of_class(word: str) -> tuple[str, ...] | None:
    plain = _ENDING.sub("", normalised_name(word))
    known = _classes()
    return known.get(plain) or known.get(plain.removesuffix("s"))


def _families_of_liquid(name: str) -> frozenset[str]:
    known = find_liquid(name)
    others = _others().get(normalised_name(name), frozenset())
    return others | {known.family} if known is not None else others


def is_in(name: str, words: tuple[str, ...]) -> bool:
    """Whether a liquid is one of those that a list names, alone or by their class.

    Parameters
    ----------
    name
        Name or synonym of a liquid.
    words
        Names and classes, such as ``("alcohols", "THF")``.
    """
    known = find_liquid(name)
    plain = known.name if known is not None else normalised_name(name)
    families = _families_of_liquid(name)
    for word in words:
        other = find_liquid(word)
        if plain == (other.name if other is not None else normalised_name(word)):
            return True
        if other is None and not families.isdisjoint(_families_of_class(word) or ()):
            return True
    return False


def known_on_a_list(word: str) -> bool:
    """Whether a word is a liquid, or a class of liquids, that something is known of."""
    return (
        find_liquid(word) is not None
        or _families_of_class(word) is not None
        or normalised_name(word) in _others()
    )


def members(word: str) -> tuple[str, ...]:
    """Name the liquids with data that a word on a list means."""
    return tuple(name for name in LIQUIDS if is_in(name, (word,)))
