"""Which liquids reach the column, and how each of them gets there.

Makeup joins downstream of the column and is not among them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from methodlint.documents.contents.bottle_roles import role_of
from methodlint.documents.contents.dwell import dwell_volume
from methodlint.documents.kinds.base import AdditiveLevel, Liquid
from methodlint.documents.kinds.column import Column
from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.kinds.method import Method
from methodlint.documents.kinds.sequence import Sequence
from methodlint.documents.kinds.solvents import Solvents
from methodlint.documents.loading import Loaded
from methodlint.documents.text.places import Path
from methodlint.rehearsal.batch.injected import injected
from methodlint.rehearsal.batch.lines import INJECTING
from methodlint.rehearsal.plan.run_plan import components_of

Components = tuple[tuple[str, float], ...]

_FLOWING = INJECTING | {"equilibration", "flush"}


@dataclass(frozen=True, slots=True)
class Arrival:
    """A liquid that reaches the column.

    Attributes
    ----------
    role
        What it is: "modifier", "diluent", "needle wash", "residue", "flush" or "storage liquid".
    way
        How it gets to the column, in words.
    components
        Its liquids by their standard names, with volume shares.
    additives
        Additives in it.
    document, path
        Where it is written.
    volume
        How much of it arrives at once [m3]; None for a stream, or where it is not known.
    certain
        False where the documents do not say whether it reaches the column at all.
    ph
        pH of its aqueous part; None if it is not given.
    paths
        Every place of the document where it is written, `path` among them.
    """

    role: str
    way: str
    components: Components
    additives: tuple[AdditiveLevel, ...]
    document: Loaded
    path: Path
    volume: float | None = None
    certain: bool = True
    ph: float | None = None
    paths: tuple[Path, ...] = ()

    @property
    def words(self) -> str:
        """The liquid in words."""
        return " + ".join(name for name, _ in self.components)


def arrivals(
    documents: dict[str, Loaded],
    columns: tuple[Loaded[Column], ...] = (),
    neighbours: Mapping[str, Loaded] | None = None,
) -> tuple[Arrival, ...]:
    """List the liquids that reach the column in one run, each way and liquid once.

    Parameters
    ----------
    documents
        Documents of the run by kind; `method` is always there.
    columns
        Column cards of the run, whose storage liquids arrive too.
    neighbours
        Methods of the sequence by name, whose modifiers stay behind in the lines.
    """
    found: dict[tuple[object, ...], Arrival] = {}
    places: dict[tuple[object, ...], dict[Path, None]] = {}
    for arrival in _arrivals(documents, columns, neighbours or {}):
        key = (arrival.role, arrival.components, arrival.additives, arrival.ph)
        known = found.get(key)
        if known is None or _more(arrival, known):
            found[key] = arrival
        paths = places.setdefault(key, {})
        if arrival.document is found[key].document:
            paths.update(dict.fromkeys(arrival.paths))
    return tuple(replace(arrival, paths=tuple(places[key])) for key, arrival in found.items())


def _more(arrival: Arrival, known: Arrival) -> bool:
    return (arrival.volume or 0.0) > (known.volume or 0.0) and known.volume is not None


def _arrivals(
    documents: dict[str, Loaded],
    columns: tuple[Loaded[Column], ...],
    neighbours: Mapping[str, Loaded],
) -> Iterator[Arrival]:
    method = documents["method"]
    way = "it is pumped as the modifier"
    yield from _arrival("modifier", way, _modifier(method), method, ("mobile_phase", "modifier"))
    for group in injected(documents):
        at = group.diluent_at
        first = "" if group.first_line is None else f", first in line {group.first_line + 1}"
        way = f"it is injected with the sample{first}"
        for arrival in _arrival("diluent", way, group.diluent, at.document, at.path, group.volume):
            yield replace(arrival, paths=tuple(place.path for place in group.diluent_places))
    yield from _washes(documents)
    yield from _residues(documents, neighbours)
    for column in columns:
        stored = column.model.storage_liquid
        way = "the column card has it stored in this liquid"
        yield from _arrival("storage liquid", way, stored, column, ("storage_liquid",))


def _arrival(
    role: str,
    way: str,
    liquid: Liquid | None,
    document: Loaded,
    path: Path,
    volume: float | None = None,
    certain: bool = True,
) -> Iterator[Arrival]:
    if liquid is None:
        return
    parts = components_of(liquid)
    if parts or liquid.additives:
        yield Arrival(
            role, way, parts, liquid.additives, document, path, volume, certain, liquid.ph, (path,)
        )


def _washes(documents: dict[str, Loaded]) -> Iterator[Arrival]:
    bottles: Loaded[Solvents] | None = documents.get("solvents")
    if bottles is None:
        return
    card: Loaded[Instrument] | None = documents.get("instrument")
    sampler = card.model.autosampler if card is not None else None
    loop = sampler.loop.si if sampler is not None and sampler.loop is not None else None
    for index, bottle in enumerate(bottles.model.bottles):
        if role_of(bottle) != "wash":
            continue
        enters = bottle.enters_flow
        if enters is None and sampler is not None:
            enters = sampler.wash_enters_loop
        if enters is False:
            continue
        way = "it stays in the loop after the wash and is switched into the flow"
        path: Path = ("bottles", index)
        yield from _arrival("needle wash", way, bottle, bottles, path, loop, enters is True)


def _residues(documents: dict[str, Loaded], neighbours: Mapping[str, Loaded]) -> Iterator[Arrival]:
    """What is left in the lines by what ran before, and what flushes bring."""
    if "sequence" not in documents:
        return
    loaded = documents["sequence"]
    sequence: Sequence = loaded.model
    own = documents["method"].name
    dwell = _dwell(documents)
    left: _Left | None = None
    if sequence.previous is not None and sequence.previous.modifier is not None:
        where: Path = ("previous", "modifier")
        left = _Left(sequence.previous.modifier, loaded, where, "the booking before")
    in_use = ""
    for index, line in enumerate(sequence.lines):
        if line.kind not in _FLOWING and line.liquid is None:
            continue
        if line.kind not in INJECTING and line.liquid is not None:
            # A flush without a method flushes the column that is in use.
            if (line.method or in_use or sequence.method) == own and not line.column_bypassed:
                does = "flushes with" if line.kind == "flush" else "pumps"
                way = f"line {index + 1} {does} it"
                at: Path = ("lines", index, "liquid")
                yield from _arrival("flush", way, line.liquid, loaded, at)
            left = None
            continue
        in_use = line.method or (in_use if line.kind == "flush" else "") or sequence.method or ""
        if in_use != own:
            left = _left_by(neighbours.get(in_use), index)
        elif left is not None:
            if not _same(left.liquid, _modifier(documents["method"])):
                way = f"{left.source} leaves it in the lines, line {index + 1} pushes it on"
                yield from _arrival("residue", way, left.liquid, left.document, left.path, dwell)
            left = None


def pumped_in_steps(documents: dict[str, Loaded]) -> Iterator[tuple[Liquid, Path]]:
    """Liquids that flushes and other steps pump, past the column too, and where each is written."""
    loaded: Loaded[Sequence] | None = documents.get("sequence")
    if loaded is None:
        return
    for index, line in enumerate(loaded.model.lines):
        if line.kind not in INJECTING and line.liquid is not None:
            yield line.liquid, ("lines", index, "liquid")


@dataclass(frozen=True, slots=True)
class _Left:
    liquid: Liquid
    document: Loaded
    path: Path
    source: str


def _left_by(method: Loaded[Method] | None, index: int) -> _Left | None:
    liquid = _modifier(method) if method is not None else None
    if method is None or liquid is None:
        return None
    source = f"method '{method.name}' of line {index + 1}"
    return _Left(liquid, method, ("mobile_phase", "modifier"), source)


def _modifier(method: Loaded[Method]) -> Liquid | None:
    phase = method.model.mobile_phase
    return phase.modifier if phase is not None else None


def _same(first: Liquid, second: Liquid | None) -> bool:
    return second is not None and (
        components_of(first) == components_of(second) and first.additives == second.additives
    )


def _dwell(documents: dict[str, Loaded]) -> float | None:
    card: Loaded[Instrument] | None = documents.get("instrument")
    return dwell_volume(card.model) if card is not None else None
