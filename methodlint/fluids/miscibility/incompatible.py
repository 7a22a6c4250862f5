"""Liquids that must not meet in one waste vessel."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import product

from methodlint.fluids.additives.known import find_additive
from methodlint.fluids.liquids.known import find_liquid, normalised_name

__all__ = ["Clash", "clashes", "classes_of"]

SOURCE = "hazard charts for mixed chemical waste (unverified); common practice"

#: Names that are no liquids or additives of a mobile phase and yet stand in waste vessels.
_CLASSES: dict[str, frozenset[str]] = {
    normalised_name(name): frozenset(classes)
    for name, classes in {
        "nitric acid": ("oxidiser", "strong acid"),
        "aqua regia": ("oxidiser", "strong acid"),
        "perchloric acid": ("oxidiser", "strong acid"),
        "chromic acid": ("oxidiser", "strong acid"),
        "hydrogen peroxide": ("oxidiser",),
        "peracetic acid": ("oxidiser", "acid"),
        "potassium permanganate": ("oxidiser",),
        "sodium hypochlorite": ("oxidiser", "hypochlorite"),
        "bleach": ("oxidiser", "hypochlorite"),
        "hydrochloric acid": ("strong acid",),
        "sulfuric acid": ("strong acid",),
        "sulphuric acid": ("strong acid",),
        "sodium hydroxide": ("strong base",),
        "potassium hydroxide": ("strong base",),
        "sodium azide": ("azide",),
        "sodium cyanide": ("cyanide",),
        "potassium cyanide": ("cyanide",),
        "halogen-free waste": ("halogen-free drum",),
        "non-halogenated waste": ("halogen-free drum",),
    }.items()
}

_BY_FAMILY = {"chlorinated": "halogenated", "acid": "acid", "ketone": "ketone"}

_PAIRS: tuple[tuple[str, str, str], ...] = (
    ("strong acid", "hypochlorite", "acid sets chlorine free from hypochlorite"),
    ("acid", "hypochlorite", "acid sets chlorine free from hypochlorite"),
    ("oxidiser", "organic", "an oxidiser with organic liquid burns or explodes"),
    ("strong acid", "strong base", "strong acid with strong base boils over"),
    ("strong acid", "cyanide", "acid sets hydrogen cyanide free"),
    ("acid", "cyanide", "acid sets hydrogen cyanide free"),
    ("strong acid", "azide", "acid sets hydrazoic acid free, which explodes"),
    ("acid", "azide", "acid sets hydrazoic acid free, which explodes"),
    ("halogenated", "azide", "azide with chlorinated liquid forms explosive organic azides"),
    ("halogenated", "halogen-free drum", "chlorinated liquid spoils a halogen-free drum"),
)

_CHLOROFORM_AND_BASE = "chloroform with acetone and a base reacts violently"


@dataclass(frozen=True, slots=True)
class Clash:
    """Two things that must not meet, and what happens."""

    first: str
    second: str
    why: str


def classes_of(name: str) -> frozenset[str]:
    """Hazard classes of a liquid or of a main constituent of waste; empty if none is known.

    Additives at the usual levels of a mobile phase are not to be asked here: the heat that 0.1 %
    of an acid and of an amine set free is negligible.
    """
    found = _CLASSES.get(normalised_name(name))
    if found is not None:
        return found
    liquid = find_liquid(name)
    if liquid is None:
        additive = find_additive(name)
        if additive is None:
            return frozenset()
        extra = {"acid"} if additive.kind == "acid" else set()
        return frozenset({"organic", *extra}) if additive.kind == "amine" else frozenset(extra)
    if liquid.family == "water":
        return frozenset()
    mine = {"organic"}
    if liquid.family in _BY_FAMILY:
        mine.add(_BY_FAMILY[liquid.family])
    return frozenset(mine)


def clashes(one: Iterable[str], other: Iterable[str]) -> tuple[Clash, ...]:
    """Every dangerous pair between two lists of names.

    Parameters
    ----------
    one, other
        Names of liquids and of other main constituents.

    Returns
    -------
    tuple of Clash
        Each pair once.
    """
    left, right = list(dict.fromkeys(one)), list(dict.fromkeys(other))
    found: dict[frozenset[str], Clash] = {}
    known = {name: classes_of(name) for name in (*left, *right)}
    for first, second in product(left, right):
        mine, theirs = known[first], known[second]
        for a, b, why in _PAIRS if mine and theirs else ():
            if (a in mine and b in theirs) or (b in mine and a in theirs):
                found.setdefault(frozenset((first, second)), Clash(first, second, why))
    together = {_standard(name): name for name in (*left, *right)}
    base = [name for name in (*left, *right) if "strong base" in known[name]]
    if "chloroform" in together and "acetone" in together and base:
        pair = together["chloroform"], together["acetone"]
        found.setdefault(frozenset(pair), Clash(*pair, _CHLOROFORM_AND_BASE))
    return tuple(found.values())


def _standard(name: str) -> str:
    liquid = find_liquid(name)
    return liquid.name if liquid is not None else name
