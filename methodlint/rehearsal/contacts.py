"""Which liquids meet where, at what coldest temperature, and whether CO2 is with them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import cast

from methodlint.documents.kinds.base import Liquid
from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.kinds.method import Method
from methodlint.documents.kinds.room import Room
from methodlint.documents.kinds.sequence import Sequence
from methodlint.documents.kinds.solvents import Bottle, Solvents
from methodlint.documents.loading import Loaded
from methodlint.documents.places import Path
from methodlint.rehearsal.run_plan import AMBIENT, components_of

Components = tuple[tuple[str, float], ...]

_WASHES = ("needle-wash", "strong-wash", "weak-wash", "wash")


@dataclass(frozen=True, slots=True)
class Meeting:
    """One of two liquids that meet: what it is, in which role, and where it is written."""

    role: str
    components: Components
    document: Loaded
    path: Path

    @property
    def words(self) -> str:
        """The liquid in words."""
        return " + ".join(name for name, _ in self.components)


@dataclass(frozen=True, slots=True)
class Contact:
    """Two liquids that meet.

    Attributes
    ----------
    place
        Where they meet, in words.
    temperature
        Coldest temperature there [K].
    in_co2
        They meet inside CO2 under pressure, which dissolves both.
    under_pressure
        What separates could reach a pump or a valve under pressure.
    volume
        Volume of the smaller one that meets the other [m3]; None if not known.
    """

    first: Meeting
    second: Meeting
    place: str
    temperature: float
    in_co2: bool = False
    under_pressure: bool = False
    volume: float | None = None


def contacts_of(documents: dict[str, Loaded]) -> tuple[Contact, ...]:
    """List the contacts of one run from its documents.

    Parameters
    ----------
    documents
        Documents by kind; `method` is always there, the others as far as they are known.
    """
    return tuple(_contacts(documents))


def _contacts(documents: dict[str, Loaded]) -> Iterator[Contact]:
    method = cast(Method, documents["method"].model)
    modifier = _modifier(documents)
    coldest = _coldest(documents)
    makeup = _makeup(documents)
    diluents = list(_diluents(documents))
    washes = list(_washes(documents))
    tray = _tray(documents, coldest)
    if modifier and makeup:
        before = method.makeup is not None and method.makeup.tee == "before the regulator"
        place = "makeup tee before the regulator" if before else "makeup tee after the regulator"
        yield Contact(modifier, makeup, place, coldest, in_co2=before, under_pressure=True)
    for diluent in diluents:
        volume = (
            method.injection.volume.si if method.injection and method.injection.volume else None
        )
        stream = method.injection.stream if method.injection else None
        if modifier:
            yield Contact(
                diluent,
                modifier,
                "injection into the mobile phase" if stream != "modifier" else "modifier stream",
                coldest,
                in_co2=stream != "modifier",
                under_pressure=stream == "modifier",
                volume=volume,
            )
        for wash in washes:
            yield Contact(wash, diluent, "needle and loop", tray, under_pressure=True)
    if modifier:
        for wash in washes:
            yield Contact(
                wash, modifier, "loop, when it is switched into the flow", coldest, in_co2=True
            )


def _modifier(documents: dict[str, Loaded]) -> Meeting | None:
    method = cast(Method, documents["method"].model)
    liquid = method.mobile_phase.modifier if method.mobile_phase else None
    return _meeting("modifier", liquid, documents["method"], ("mobile_phase", "modifier"))


def _makeup(documents: dict[str, Loaded]) -> Meeting | None:
    method = cast(Method, documents["method"].model)
    own = _meeting("makeup", method.makeup, documents["method"], ("makeup",))
    if own is not None or method.makeup is None or "solvents" not in documents:
        return own
    line = method.makeup.line or "makeup"
    for index, bottle in enumerate(_bottles(documents)):
        if bottle.line == line:
            return _meeting("makeup", bottle, documents["solvents"], ("bottles", index))
    return None


def _diluents(documents: dict[str, Loaded]) -> Iterator[Meeting]:
    method = cast(Method, documents["method"].model)
    seen: set[Components] = set()
    if method.injection is not None:
        found = _meeting(
            "diluent", method.injection.diluent, documents["method"], ("injection", "diluent")
        )
        if found is not None:
            seen.add(found.components)
            yield found
    if "sequence" not in documents:
        return
    sequence = cast(Sequence, documents["sequence"].model)
    candidates: list[tuple[Liquid | None, Path]] = [(sequence.diluent, ("diluent",))]
    candidates += [
        (line.diluent, ("lines", index, "diluent")) for index, line in enumerate(sequence.lines)
    ]
    for liquid, path in candidates:
        found = _meeting("diluent", liquid, documents["sequence"], path)
        if found is not None and found.components not in seen:
            seen.add(found.components)
            yield found


def _washes(documents: dict[str, Loaded]) -> Iterator[Meeting]:
    """Washes that enter the loop; one that only rinses the outside meets nothing."""
    instrument = documents.get("instrument")
    sampler = cast(Instrument, instrument.model).autosampler if instrument else None
    for index, bottle in enumerate(_bottles(documents)):
        if bottle.line not in _WASHES:
            continue
        enters = bottle.enters_flow
        if enters is None:
            enters = sampler.wash_enters_loop if sampler else None
        if enters is False:
            continue
        found = _meeting("needle wash", bottle, documents["solvents"], ("bottles", index))
        if found is not None:
            yield found


def _bottles(documents: dict[str, Loaded]) -> tuple[Bottle, ...]:
    loaded = documents.get("solvents")
    return cast(Solvents, loaded.model).bottles if loaded else ()


def _meeting(role: str, liquid: Liquid | None, document: Loaded, path: Path) -> Meeting | None:
    if liquid is None:
        return None
    components = components_of(liquid)
    return Meeting(role, components, document, path) if components else None


def _coldest(documents: dict[str, Loaded]) -> float:
    solvents = documents.get("solvents")
    room = documents.get("room")
    found = [AMBIENT]
    if solvents is not None:
        place = cast(Solvents, solvents.model).coldest_place
        found += [place.si] if place is not None else []
    if room is not None:
        lowest = cast(Room, room.model).lowest_temperature
        found += [lowest.si] if lowest is not None else []
    return min(found)


def _tray(documents: dict[str, Loaded], coldest: float) -> float:
    instrument = documents.get("instrument")
    sampler = cast(Instrument, instrument.model).autosampler if instrument else None
    tray = sampler.tray_temperature if sampler else None
    return min(coldest, tray.si) if tray is not None else coldest
