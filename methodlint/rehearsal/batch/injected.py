"""What one method injects: volumes and diluents, its own and those of the sequence's lines."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from methodlint.documents.kinds.base import Liquid
from methodlint.documents.kinds.method import Method
from methodlint.documents.kinds.sequence import Line
from methodlint.documents.kinds.sequence import Sequence as SequenceModel
from methodlint.documents.loading import Loaded
from methodlint.documents.memo import memoize_last
from methodlint.documents.text.places import Path
from methodlint.fluids.liquids.known import find_liquid
from methodlint.rehearsal.batch.lines import INJECTING
from methodlint.rehearsal.plan.run_plan import components_of

Components = tuple[tuple[str, float], ...]

#: Rank of CO2 among the eluting strengths of liquids; it is as weak as an alkane (common
#: practice, no source).
CO2_STRENGTH = 1.0


@dataclass(frozen=True, slots=True)
class Written:
    """Where a value is written: the document and the path."""

    document: Loaded
    path: Path


@dataclass(frozen=True, slots=True)
class Injected:
    """Injections of like volume and diluent.

    Attributes
    ----------
    volume
        [m3]; None if it is not known.
    volume_at
        Where the volume is written, or the method where it should be.
    diluent
        The diluent as written; None if it is not known.
    components
        Its liquids by their standard names, with volume shares; empty if it is not known.
    diluent_at
        Where the diluent is written, or the method where it should be.
    first_line
        Index of the first line of the sequence that does it; None without a sequence.
    lines
        Indices of all lines that do it.
    """

    volume: float | None
    volume_at: Written
    diluent: Liquid | None
    components: Components
    diluent_at: Written
    first_line: int | None = None
    lines: tuple[int, ...] = ()

    @property
    def words(self) -> str:
        """The diluent in words."""
        return " + ".join(name for name, _ in self.components)

    @property
    def volume_places(self) -> tuple[Written, ...]:
        """Everywhere that the volume is written: once, or in each of the lines."""
        return self._everywhere(self.volume_at)

    @property
    def diluent_places(self) -> tuple[Written, ...]:
        """Everywhere that the diluent is written: once, or in each of the lines."""
        return self._everywhere(self.diluent_at)

    def _everywhere(self, at: Written) -> tuple[Written, ...]:
        if at.path[:1] != ("lines",):
            return (at,)
        return tuple(Written(at.document, ("lines", index, at.path[-1])) for index in self.lines)


def lines_of(documents: dict[str, Loaded]) -> Iterator[tuple[int, Line]]:
    """Lines of the sequence that run this method, injections and steps alike, with indices."""
    if "sequence" not in documents:
        return
    sequence: SequenceModel = documents["sequence"].model
    name = documents["method"].name
    for index, line in enumerate(sequence.lines):
        if (line.method if line.method is not None else sequence.method) == name:
            yield index, line


@memoize_last
def injected(documents: dict[str, Loaded]) -> tuple[Injected, ...]:
    """Group what a method injects by volume and diluent; linear in the lines.

    Parameters
    ----------
    documents
        Documents of one run by kind; `method` is always there.

    Returns
    -------
    tuple of Injected
        In the order of first use. Without a sequence, what the method itself says.
    """
    method = documents["method"]
    groups: dict[object, Injected] = {}
    found: dict[object, list[int]] = {}
    known: dict[int, Components] = {}
    lines: list[tuple[int | None, Line | None]] = [
        (index, line) for index, line in lines_of(documents) if line.kind in INJECTING
    ]
    for index, line in lines or [(None, None)]:
        volume, volume_at = _volume(method, documents, index, line)
        diluent, diluent_at = _diluent(method, documents, index, line)
        if diluent is not None and id(diluent) not in known:
            known[id(diluent)] = components_of(diluent)
        parts = known[id(diluent)] if diluent is not None else ()
        additives = diluent.additives if diluent is not None else ()
        # A group stands in one place or in its lines, never in both.
        places = volume_at.path[:1], diluent_at.path[:1]
        key = (volume, parts, additives, places)
        if key not in groups:
            groups[key] = Injected(volume, volume_at, diluent, parts, diluent_at, index)
            found[key] = []
        if index is not None:
            found[key].append(index)
    return tuple(replace(group, lines=tuple(found[key])) for key, group in groups.items())


def _volume(
    method: Loaded[Method], documents: dict[str, Loaded], index: int | None, line: Line | None
) -> tuple[float | None, Written]:
    if line is not None and line.volume is not None and index is not None:
        return line.volume.si, Written(documents["sequence"], ("lines", index, "volume"))
    injection = method.model.injection
    volume = injection.volume if injection is not None else None
    return volume.si if volume is not None else None, Written(method, ("injection", "volume"))


def _diluent(
    method: Loaded[Method], documents: dict[str, Loaded], index: int | None, line: Line | None
) -> tuple[Liquid | None, Written]:
    if line is not None and line.diluent is not None and index is not None:
        return line.diluent, Written(documents["sequence"], ("lines", index, "diluent"))
    if line is not None:
        sequence: SequenceModel = documents["sequence"].model
        if sequence.diluent is not None:
            return sequence.diluent, Written(documents["sequence"], ("diluent",))
    injection = method.model.injection
    found = injection.diluent if injection is not None else None
    return found, Written(method, ("injection", "diluent"))


def liquid_strength(components: Sequence[tuple[str, float]]) -> float | None:
    """Eluting strength of a liquid or blend in CO2.

    Parameters
    ----------
    components
        Names and volume shares.

    Returns
    -------
    float or None
        Mean of the liquids' ranks by volume, 1 (alkane) to 5 (methanol, water); None if one of
        them is not known or there is none.

    Source
    ------
    Order of the ranks and their mean by volume: common practice, no source.
    """
    total = weighted = 0.0
    for name, share in components:
        liquid = find_liquid(name)
        if liquid is None:
            return None
        total += share
        weighted += share * liquid.strength_rank
    return weighted / total if total > 0.0 else None


def mobile_phase_strength(modifier: Sequence[tuple[str, float]], share: float) -> float | None:
    """Eluting strength of CO2 with so much modifier (volume share as set), in the same ranks."""
    if share == 0.0:
        return CO2_STRENGTH
    own = liquid_strength(modifier)
    return None if own is None else CO2_STRENGTH + share * (own - CO2_STRENGTH)
