"""What runs into each waste vessel over a sequence, and during which injection it is full."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from methodlint.documents.contents.bottle_roles import role_of
from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.kinds.method import Method
from methodlint.documents.kinds.room import Room, WasteVessel
from methodlint.documents.kinds.solvents import Solvents
from methodlint.documents.loading import Loaded
from methodlint.rehearsal.batch.lines import Batch
from methodlint.rehearsal.plan.makeup_flow import equilibration_makeup

__all__ = [
    "DEFAULT_FILL",
    "STREAMS",
    "WasteFill",
    "liquid_streams",
    "waste_fills",
    "without_fractions",
]

DEFAULT_FILL = 0.8
"""Part of a waste vessel that may be filled; common practice, no source."""

STREAMS = ("mobile phase", "makeup", "needle wash", "seal wash", "purge")


@dataclass(frozen=True, slots=True)
class WasteFill:
    """One waste vessel over the sequence.

    Attributes
    ----------
    index
        Number of the vessel in the room's list.
    streams
        What runs into it [m3] over the whole sequence.
    room_left
        Part of the capacity that may be filled, less the present level [m3].
    full
        Number of the injection during which that is used up, 0 if before the first one; None if
        it suffices.
    history
        Clock [s] from the start of the sequence and what has run into it by then [m3]: after the
        equilibration and after every line.
    """

    index: int
    vessel: WasteVessel
    streams: dict[str, float]
    room_left: float
    full: int | None
    history: tuple[tuple[float, float], ...] = ()

    @property
    def volume(self) -> float:
        """All that runs into it [m3]."""
        return sum(self.streams.values())


def waste_fills(
    batch: Batch,
    room: Loaded[Room],
    solvents: Loaded[Solvents] | None,
    instrument: Loaded[Instrument] | None,
    fill: float = DEFAULT_FILL,
    collected: Mapping[str, float] | None = None,
) -> tuple[tuple[WasteFill, ...], tuple[str, ...]]:
    """Add up what runs into each vessel, line by line; linear in the lines.

    All liquid counts that is pumped and not collected: what evaporates in a source or with the gas is not taken
    off, which is the unfavourable side.

    Parameters
    ----------
    batch
        A rehearsed sequence.
    room
        Room with its waste vessels.
    solvents, instrument
        List of bottles and instrument card, for washes and purges.
    fill
        Part of the capacity that may be filled.
    collected
        Modifier that a sample injection sends into fraction vessels [m3], by method.

    Returns
    -------
    fills : tuple of WasteFill
        One per vessel that is not plumbed to a drain and whose capacity and level are known.
    missing : tuple of str
        Figures that the other vessels lack.
    """
    vessels = room.model.waste
    per_line = without_fractions(batch, liquid_streams(batch, solvents, instrument), collected)
    fills = []
    missing = []
    for index, vessel in enumerate(vessels):
        if vessel.drain:
            continue
        takes = set(vessel.receives or (STREAMS if len(vessels) == 1 else ()))
        if not takes:
            missing.append(f"room.waste[{index}].receives")
        if vessel.capacity is None:
            missing.append(f"room.waste[{index}].capacity")
        if vessel.level is None:
            missing.append(f"room.waste[{index}].level")
        if not takes or vessel.capacity is None or vessel.level is None:
            continue
        room_left = fill * vessel.capacity.si - vessel.level.si
        fills.append(_fill(index, vessel, takes, room_left, batch, per_line))
    return tuple(fills), tuple(missing)


def _fill(
    index: int,
    vessel: WasteVessel,
    takes: set[str],
    room_left: float,
    batch: Batch,
    per_line: list[dict[str, float]],
) -> WasteFill:
    sums = dict.fromkeys((stream for stream in STREAMS if stream in takes), 0.0)
    running = 0.0
    full: int | None = None
    last = 0
    history = [(0.0, 0.0)]
    for number, volumes in enumerate(per_line):
        line = batch.lines[number - 1] if number > 0 else None
        added = 0.0
        for stream in sums:
            sums[stream] += volumes.get(stream, 0.0)
            added += volumes.get(stream, 0.0)
        if line is not None and line.injects:
            last = line.last_injection
        if full is None and running + added > room_left:
            full = last
            if line is not None and line.injects and added > 0.0:
                full = line.injection_at((room_left - running) / added)
        running += added
        history.append((line.ends if line is not None else batch.equilibration, running))
    return WasteFill(index, vessel, sums, room_left, full, tuple(history))


def liquid_streams(
    batch: Batch, solvents: Loaded[Solvents] | None, instrument: Loaded[Instrument] | None
) -> list[dict[str, float]]:
    """Volumes [m3] of the streams: before the first line, then by each line."""
    bottles = solvents.model if solvents else None
    card = instrument.model if instrument else None
    wash = card.autosampler.wash_volume if card and card.autosampler else None
    each = seal = 0.0
    for bottle in bottles.bottles if bottles else ():
        if role_of(bottle) == "wash":
            used = bottle.per_injection or wash
            each += used.si if used is not None else 0.0
        elif role_of(bottle) == "seal wash" and bottle.uses is not None:
            seal += bottle.uses.si
    lines_used = {
        name for method in batch.methods.values() if (name := _modifier_line(method)) is not None
    }
    purge = bottles.purge_volume.si if bottles and bottles.purge_volume else 0.0
    first = batch.methods.get(batch.lines[0].method) if batch.lines else None
    found: list[dict[str, float]] = [
        {
            "mobile phase": batch.equilibration_modifier,
            "makeup": equilibration_makeup(first, batch.equilibration),
            "purge": purge * len(lines_used),
            "seal wash": seal * batch.equilibration,
        }
    ]
    for line in batch.lines:
        found.append(
            {
                "mobile phase": line.modifier,
                "makeup": line.makeup,
                "needle wash": each * line.injections,
                "seal wash": seal * (line.ends - line.begins),
            }
        )
    return found


def without_fractions(
    batch: Batch, streams: list[dict[str, float]], collected: Mapping[str, float] | None
) -> list[dict[str, float]]:
    """Streams of `liquid_streams` less the modifier that runs into fraction vessels [m3]."""
    found = streams[:1]
    for line, volumes in zip(batch.lines, streams[1:], strict=True):
        each = (collected or {}).get(line.method, 0.0) if line.line.kind == "sample" else 0.0
        left = max(volumes["mobile phase"] - each * line.injections, 0.0)
        found.append({**volumes, "mobile phase": left})
    return found


def _modifier_line(method: Loaded[Method]) -> str | None:
    phase = getattr(method.model, "mobile_phase", None)
    modifier = phase.modifier if phase is not None else None
    if modifier is None:
        return None
    return modifier.line or ""
