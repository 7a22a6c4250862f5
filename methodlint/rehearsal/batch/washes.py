"""The needle washes of a bench: in which order, what they dissolve, what they throw out."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from methodlint.documents.contents.bottle_roles import washes_in_turn
from methodlint.documents.kinds.base import Liquid
from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.kinds.solvents import Bottle, Solvents
from methodlint.documents.loading import Loaded
from methodlint.documents.text.places import Path
from methodlint.fluids.additives.known import concentration, find_additive
from methodlint.fluids.liquids.known import find_liquid
from methodlint.rehearsal.batch.injected import Injected, lines_of
from methodlint.rehearsal.plan.run_plan import components_of

Components = tuple[tuple[str, float], ...]

_GREASE = frozenset({"alkane", "aromatic", "chlorinated", "ether", "ester", "ketone"})
_GREASE_ALCOHOLS = frozenset({"1-propanol", "2-propanol", "1-butanol", "tert-butanol", "ethanol"})
_NOT_POLAR = frozenset({"alkane", "aromatic"})
_GREASY = frozenset({"lipids", "waxes", "hydrocarbons"})
_ENOUGH = 0.25
_SALTS = ("ammonium salt", "nonvolatile salt", "ion pair")


@dataclass(frozen=True, slots=True)
class Wash:
    """One wash.

    Attributes
    ----------
    index
        Of its bottle in the list.
    line
        Its line.
    components
        Liquids by their standard names, with volume shares.
    enters
        Whether it enters the loop; None if the documents do not say.
    bottle
        Its bottle, with the additives.
    """

    index: int
    line: str
    components: Components
    enters: bool | None
    bottle: Bottle | None = None

    @property
    def words(self) -> str:
        """The liquid in words."""
        return " + ".join(name for name, _ in self.components)


def washes_of(documents: dict[str, Loaded]) -> list[Wash]:
    """List the washes of a bench, in the order in which they wash."""
    bottles: Loaded[Solvents] | None = documents.get("solvents")
    if bottles is None:
        return []
    card: Loaded[Instrument] | None = documents.get("instrument")
    sampler = card.model.autosampler if card is not None else None
    general = sampler.wash_enters_loop if sampler is not None else None
    found = []
    for index, bottle in washes_in_turn(bottles.model.bottles):
        parts = components_of(bottle)
        if parts:
            enters = bottle.enters_flow if bottle.enters_flow is not None else general
            found.append(Wash(index, bottle.line, parts, enters, bottle))
    return found


def dissolves(components: Components, analytes: str) -> bool:
    """Whether a liquid dissolves a class of analytes well enough to wash them away.

    Parameters
    ----------
    components
        Liquids with volume shares.
    analytes
        "polar", "ionisable", "lipids", "waxes", "hydrocarbons" or "mixed", which asks for both.

    Source
    ------
    At least a quarter of a liquid that dissolves the class: common practice, no source.
    """
    if analytes == "mixed":
        return dissolves(components, "polar") and dissolves(components, "lipids")
    total = sum(share for _, share in components)
    good = 0.0
    for name, share in components:
        liquid = find_liquid(name)
        if liquid is None:
            # Nothing is known of it, so nothing is said against it.
            good += share
        elif analytes in _GREASY:
            good += share * (liquid.family in _GREASE or liquid.name in _GREASE_ALCOHOLS)
        else:
            good += share * (liquid.family not in _NOT_POLAR)
    return total > 0.0 and good >= _ENOUGH * total


def calibration_span(documents: dict[str, Loaded]) -> float | None:
    """Highest over lowest level of the calibrators of a run; None with fewer than two levels."""
    lowest, highest = math.inf, 0.0
    for _, line in lines_of(documents):
        if line.kind == "calibrator" and line.level is not None:
            lowest, highest = min(lowest, line.level), max(highest, line.level)
    return highest / lowest if 0.0 < lowest < highest else None


def salt_thrown_out(group: Injected, wash: Wash) -> str | None:
    """Name a salt of the diluent that the wash throws out; see `salt_thrown_out_of`."""
    return salt_thrown_out_of(group.diluent, wash)


def salt_thrown_out_of(liquid: Liquid | None, wash: Wash) -> str | None:
    """Name a salt of a liquid that the wash throws out.

    Parameters
    ----------
    liquid
        A diluent, or the wash before.
    wash
        The wash.

    Returns
    -------
    str or None
        None also where a level or a solubility is not known, and where the wash only rinses the
        needle's outside.
    """
    if wash.enters is False or liquid is None or len(wash.components) > 2:
        return None
    water = sum(share for name, share in wash.components if name == "water")
    liquids = [name for name, _ in wash.components if name != "water"]
    if len(liquids) != 1:
        return None
    for entry in liquid.additives:
        additive = find_additive(entry.additive)
        if additive is None or additive.kind not in _SALTS or entry.level is None:
            continue
        level = concentration(entry.level.text, additive.name)
        limit = additive.solubility_limit(liquids[0], min(water, 1.0))
        if level is not None and limit is not None and level > limit:
            return additive.name
    return None


@dataclass(frozen=True, slots=True)
class SaltThrownOut:
    """A salt that falls out in a wash, and the liquid that brings it: words, document, path."""

    salt: str
    wash: Wash
    words: str
    document: Loaded
    path: Path


def salts_thrown_out(
    documents: dict[str, Loaded], washes: Sequence[Wash], groups: Sequence[Injected]
) -> Iterator[SaltThrownOut]:
    """Yield, for every wash, the first salt of a diluent or of the wash before that falls out."""
    before: Wash | None = None
    for wash in washes:
        met: list[tuple[Liquid | None, str, Loaded, Path]] = [
            (
                group.diluent,
                f"diluent {group.words}",
                group.diluent_at.document,
                group.diluent_at.path,
            )
            for group in groups
        ]
        if before is not None and before.enters is not False:
            path: Path = ("bottles", before.index)
            met.append((before.bottle, f"wash {before.words}", documents["solvents"], path))
        for liquid, words, document, where in met:
            salt = salt_thrown_out_of(liquid, wash)
            if salt is not None:
                yield SaltThrownOut(salt, wash, words, document, where)
                break
        before = wash
