"""Limits of solvent vapour in air that jurisdictions list, and the lowest of them that applies."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from methodlint.fluids.liquids.known import find_liquid, normalised_name

__all__ = ["ListedLimit", "is_listed", "listed_limit"]


@dataclass(frozen=True, slots=True)
class ListedLimit:
    """A limit in air as listed.

    Attributes
    ----------
    fraction
        Volume fraction [-].
    words
        Jurisdiction and span; the tag of the source included.
    """

    fraction: float
    words: str


_EU = "European Union, indicative, 8 h (unverified)"
_US = "29 CFR 1910.1000 and substance standards (unverified)"
_CALIFORNIA = "California, 8 h (second-hand)"
_ONTARIO = "Ontario, 8 h (open data)"

# [ppm]; 29 CFR 1910.1052 for dichloromethane, a ceiling for chloroform; directives 91/322/EEC,
# 2000/39/EC, 2006/15/EC, 2009/161/EU and 2017/164/EU.
_LISTED: Mapping[str, Mapping[str, float]] = {
    _US: {
        "methanol": 200, "ethanol": 1000, "1-propanol": 200, "2-propanol": 400, "1-butanol": 100,
        "tert-butanol": 100, "n-pentane": 1000, "n-hexane": 500, "n-heptane": 500,
        "cyclohexane": 300, "toluene": 200, "tetrahydrofuran": 200, "1,4-dioxane": 100,
        "diethyl ether": 400, "diisopropyl ether": 500, "acetonitrile": 40, "acetone": 1000,
        "ethyl acetate": 400, "dichloromethane": 25, "chloroform": 50,
        "N,N-dimethylformamide": 10, "acetic acid": 10, "formic acid": 5,
    },
    _EU: {
        "methanol": 200, "n-pentane": 1000, "n-hexane": 20, "n-heptane": 500, "cyclohexane": 200,
        "toluene": 50, "tetrahydrofuran": 50, "1,4-dioxane": 20, "methyl tert-butyl ether": 50,
        "diethyl ether": 100, "acetonitrile": 40, "acetone": 500, "ethyl acetate": 200,
        "dichloromethane": 100, "chloroform": 2, "N,N-dimethylformamide": 5, "acetic acid": 10,
        "formic acid": 5,
    },
    _CALIFORNIA: {"acetic acid": 10, "acetone": 500, "acetonitrile": 40},
}  # fmt: skip

_NAMES: Mapping[str, tuple[str, ...]] = {
    "eu": (_EU,),
    "europeanunion": (_EU,),
    "us": (_US,),
    "usa": (_US,),
    "unitedstates": (_US,),
    "osha": (_US,),
    "california": (_CALIFORNIA, _US),
    "ontario": (_ONTARIO,),
}


def listed_limit(liquid: str, jurisdiction: str | None) -> ListedLimit | None:
    """Lowest limit that is listed for a liquid.

    Parameters
    ----------
    liquid
        Name or synonym.
    jurisdiction
        As the lab writes it. One that has no list here, or none at all, gets the lowest limit of
        all lists: a limit in force somewhere is worth keeping.

    Returns
    -------
    ListedLimit or None
        None where no list names the liquid.
    """
    known = find_liquid(liquid)
    if known is None:
        return None
    found = {words: table[known.name] for words, table in _LISTED.items() if known.name in table}
    if known.exposure_limit_ppm is not None:
        found[_ONTARIO] = known.exposure_limit_ppm
    own = _NAMES.get(normalised_name(jurisdiction or ""), ())
    counted = {words: value for words, value in found.items() if words in own} or found
    if not counted:
        return None
    words = min(counted, key=lambda name: (counted[name], name))
    return ListedLimit(counted[words] * 1e-6, words)


def is_listed(jurisdiction: str | None) -> bool:
    """Whether there is a list of this jurisdiction."""
    return normalised_name(jurisdiction or "") in _NAMES
