"""Additives of modifier and makeup liquids: find one by name, and compare levels in different units."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from types import MappingProxyType

from methodlint.fluids.additives import acids as additive_data_acids
from methodlint.fluids.additives import amines as additive_data_amines
from methodlint.fluids.additives import ion_pairs as additive_data_ion_pairs
from methodlint.fluids.additives import salts as additive_data_salts
from methodlint.fluids.additives.record import FULLY_MISCIBLE, Additive, Kind
from methodlint.fluids.liquids.known import find_liquid, normalised_name

__all__ = [
    "ADDITIVES",
    "FULLY_MISCIBLE",
    "Additive",
    "Kind",
    "concentration",
    "find_additive",
    "same_level",
    "uv_cutoff",
]

#: Every additive by its name, in a fixed order.
ADDITIVES: Mapping[str, Additive] = MappingProxyType(
    {
        additive.name: additive
        for table in (
            additive_data_acids,
            additive_data_amines,
            additive_data_salts,
            additive_data_ion_pairs,
        )
        for additive in table.ADDITIVES
    }
)


def _index() -> dict[str, Additive]:
    index: dict[str, Additive] = {}
    for additive in ADDITIVES.values():
        for name in (additive.name, *additive.synonyms):
            other = index.setdefault(normalised_name(name), additive)
            if other is not additive:
                raise ValueError(f"{name!r} means both {other.name} and {additive.name}")
    return index


_BY_NAME = _index()

#: Units of a level and what one of them is: (basis, factor to SI).
_UNITS: Mapping[str, tuple[str, float]] = {
    "%": ("volume", 0.01),
    "%v/v": ("volume", 0.01),
    "vol%": ("volume", 0.01),
    "%(v/v)": ("volume", 0.01),
    "ml/l": ("volume", 1e-3),
    "%w/v": ("mass", 10.0),
    "%(w/v)": ("mass", 10.0),
    "%m/v": ("mass", 10.0),
    "g/l": ("mass", 1.0),
    "mg/ml": ("mass", 1.0),
    "mg/l": ("mass", 1e-3),
    "m": ("amount", 1e3),
    "mol/l": ("amount", 1e3),
    "mm": ("amount", 1.0),
    "mmol/l": ("amount", 1.0),
    "mol/m3": ("amount", 1.0),
    "um": ("amount", 1e-3),
    "umol/l": ("amount", 1e-3),
    # needs the density of the finished liquid, which is not known here
    "%w/w": ("mass fraction", 0.01),
    "%(w/w)": ("mass fraction", 0.01),
    "%m/m": ("mass fraction", 0.01),
}

_NUMBER = r"[0-9]+(?:\.[0-9]+)?"
_UNIT = (
    r"%\s*\(\s*[vwm]\s*/\s*[vwm]\s*\)|%\s*[vwm]\s*/\s*[vwm]|vol\s*%|%|m[lL]/[lL]|m?g/m?[lL]"
    r"|[mµμu]?mol/[lL]|mol/m3|[mµμu]?M"
)
#: In front of a number these make it a range or a limit, not one level.
_NOT_ONE_LEVEL = re.compile(r"([0-9]\s*(-|–|to)|[<>≤≥~±])\s*$")
_LEVEL = re.compile(rf"(?P<number>{_NUMBER})\s*(?P<unit>{_UNIT})(?![\w/%])")


def find_additive(text: str) -> Additive | None:
    """Additive of a name, synonym or abbreviation.

    Parameters
    ----------
    text : str
        E.g. ``"TFA"``, ``"ammonium hydrogencarbonate"``; case, spaces and hyphens do not matter.

    Returns
    -------
    Additive or None
        None if the name is not known; nothing is guessed from a part of a name.
    """
    return _BY_NAME.get(normalised_name(text))


def additive_name(text: str) -> str:
    """Standard name of an additive; as written if it is not known."""
    known = find_additive(text)
    return known.name if known is not None else text


def concentration(text: str, additive: str | None = None) -> float | None:
    """Concentration that a written level means [mol/m3 of liquid].

    A percentage without a basis is by volume for additives bought as liquids and by mass per volume for
    solids (common practice, no source).

    Parameters
    ----------
    text : str
        E.g. ``"0.1 % v/v formic acid"``, ``"20 mM"``, ``"ammonium acetate 1 g/L"``.
    additive : str, optional
        Name of the additive where the text does not carry it.

    Returns
    -------
    float or None
        None if the text is not one level, or the additive needed to convert it is not known.
    """
    found = list(_LEVEL.finditer(text))
    if len(found) != 1 or _NOT_ONE_LEVEL.search(text[: found[0].start()]):
        return None
    match = found[0]
    unit = re.sub(r"\s+", "", match["unit"]).replace("µ", "u").replace("μ", "u")
    basis, factor = _UNITS.get(unit.casefold(), ("not a basis", 1.0))
    value = float(match["number"]) * factor
    if basis == "amount":
        return value
    known = _named(text) or (find_additive(additive) if additive is not None else None)
    if known is None or known.molar_mass is None or basis not in ("mass", "volume"):
        return None
    if basis == "mass":
        return value / known.molar_mass
    if known.stock_concentration is not None:
        return value * known.stock_concentration
    # a bare "%" of a solid is grams per 100 mL; "% v/v" of a solid means nothing
    return value * 1e3 / known.molar_mass if unit == "%" else None


def same_level(a: str, b: str, additive: str | None = None, tolerance: float = 0.05) -> bool | None:
    """Do two written levels mean the same, within `tolerance` of the larger?

    ``same_level("0.1 % v/v formic acid", "26 mM")`` is true.

    Parameters
    ----------
    a, b : str
        Levels; if only one names the additive, it counts for both.
    additive : str, optional
        Name of the additive where neither text carries it.
    tolerance : float, optional
        Relative difference allowed.

    Returns
    -------
    bool or None
        False also where the two name different additives; None if one of them cannot be read or converted.
    """
    named = [_named(text) for text in (a, b)]
    if named[0] is not None and named[1] is not None and named[0] is not named[1]:
        return False
    shared = named[0] or named[1]
    name = shared.name if shared is not None else additive
    levels = concentration(a, name), concentration(b, name)
    if levels[0] is None or levels[1] is None:
        return None
    return abs(levels[0] - levels[1]) <= tolerance * max(levels[0], levels[1])


def _named(text: str) -> Additive | None:
    match = _LEVEL.search(text)
    rest = text if match is None else f"{text[: match.start()]} {text[match.end() :]}"
    # the liquid it is dissolved in says nothing about the additive
    before_liquid = re.split(r"\s+in\s+", rest.strip(" ,;()"), maxsplit=1)[0]
    return find_additive(before_liquid.strip(" ,;()"))


def uv_cutoff(liquid: str, additives: Iterable[str] = ()) -> float | None:
    """Wavelength below which a liquid with additives absorbs too much for a UV cell [m].

    The liquid's own cutoff, moved up by the largest shift among the additives.

    Parameters
    ----------
    liquid : str
        Name or synonym.
    additives : iterable of str
        Names or synonyms.

    Returns
    -------
    float or None
        None if the liquid's cutoff is not known, an additive is unknown or its shift is.
    """
    known = find_liquid(liquid)
    if known is None or known.uv_cutoff is None:
        return None
    shift = 0.0
    for text in additives:
        additive = find_additive(text)
        if additive is None or additive.uv_shift is None:
            return None
        shift = max(shift, additive.uv_shift)
    return known.uv_cutoff + shift
