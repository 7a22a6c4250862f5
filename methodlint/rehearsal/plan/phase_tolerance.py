"""What stationary phases bear, where their card does not say it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from methodlint.documents.kinds.column import Column
from methodlint.documents.loading import Loaded
from methodlint.fluids.liquids.known import find_liquid, normalised_name
from methodlint.fluids.liquids.liquid_classes import is_in

COATED = "coated polysaccharide"

#: Liquids that swell or dissolve a coated polysaccharide. Tetrahydrofuran and chloroform:
#: reviews in Polym. J. 38, 91 (2006) and J. Chromatogr. A 1363, 51 (2014); the rest: common
#: practice, no source.
DISSOLVE_COATED = frozenset(
    {
        "dichloromethane",
        "chloroform",
        "tetrahydrofuran",
        "ethyl acetate",
        "acetone",
        "dimethyl sulfoxide",
        "N,N-dimethylformamide",
        "toluene",
    }
)

#: Families, and one liquid, that a coated polysaccharide bears (common practice, no source).
SAFE_FOR_COATED = frozenset({"alcohol", "alkane"})
SAFE_LIQUIDS_FOR_COATED = frozenset({"acetonitrile"})

#: Temperature limits usual for a class of phase [K] (common practice, no source): they are told
#: to the user, never judged by.
USUAL_TEMPERATURE_LIMIT = {
    COATED: (313.15, 323.15),
    "bare silica": (333.15, 363.15),
    "bonded silica": (333.15, 363.15),
    "hybrid silica": (333.15, 363.15),
}

#: Additive limits of a coated polysaccharide by volume (common practice, no source).
USUAL_ADDITIVE_SHARE = {"diethylamine": 0.005, "trifluoroacetic acid": 0.005}

Verdict = Literal["forbidden", "allowed", "not known"]


@dataclass(frozen=True, slots=True)
class Tolerance:
    """Whether a column bears a liquid, and who says so."""

    verdict: Verdict
    authority: str


def tolerance(card: Column, liquid: str) -> Tolerance:
    """Tell whether a column bears a liquid.

    The card's own lists come first, by name and by class of liquid; what a list of allowed ones
    leaves out is not known to be borne. Then comes what is usual for a coated polysaccharide. Every
    other class of phase bears what its card does not forbid.

    Parameters
    ----------
    card
        The column card.
    liquid
        Name or synonym.
    """
    name = _standard(liquid)
    if is_in(liquid, card.forbidden_liquids):
        return Tolerance("forbidden", "the column card")
    if is_in(liquid, card.allowed_liquids):
        return Tolerance("allowed", "the column card")
    harms = card.phase == COATED and name in DISSOLVE_COATED
    if card.allowed_liquids and not harms:
        return Tolerance("not known", "the column card allows others only")
    if card.phase != COATED:
        return Tolerance("allowed", "nothing forbids it")
    known = find_liquid(liquid)
    if harms:
        return Tolerance("forbidden", "the tolerance of coated polysaccharides")
    if known is not None and (known.family in SAFE_FOR_COATED or name in SAFE_LIQUIDS_FOR_COATED):
        return Tolerance("allowed", "the tolerance of coated polysaccharides")
    return Tolerance("not known", "neither the column card nor the usual list")


def replacement(card: Column, liquid: str) -> Iterator[str]:
    """Name liquids that a column bears, the usual ones first."""
    for other in ("2-propanol", "ethanol", "methanol", "n-heptane"):
        if other != _standard(liquid) and tolerance(card, other).verdict == "allowed":
            yield other


def _standard(liquid: str) -> str:
    known = find_liquid(liquid)
    return known.name if known is not None else normalised_name(liquid)


def cards(columns: tuple[Loaded[Column], ...]) -> Iterator[tuple[Loaded, Column]]:
    """Typed cards of the columns of a run, in flow order."""
    for loaded in columns:
        if isinstance(loaded.model, Column):
            yield loaded, loaded.model
