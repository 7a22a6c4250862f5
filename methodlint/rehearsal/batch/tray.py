"""The autosampler's tray as a sequence uses it: which vessel stands where."""

from __future__ import annotations

from dataclasses import dataclass, field

from methodlint.documents.kinds.instrument import Autosampler, VesselType
from methodlint.documents.kinds.sequence import Line, Sequence
from methodlint.rehearsal.batch.positions import TrayPlace, Well, read_place, read_plate


@dataclass(frozen=True)
class Tray:
    """Plates by their position and vessel types by their name.

    Attributes
    ----------
    plates
        Name of the vessel type on each plate position; the sequence's word counts before the
        instrument's.
    vessels
        Vessel types that the instrument card declares.
    """

    plates: dict[str, str] = field(default_factory=dict)
    vessels: dict[str, VesselType] = field(default_factory=dict)

    def place(self, line: Line) -> TrayPlace | None:
        """Place that a line draws from; None if it has none or it cannot be read.

        A line that names no plate means the only one, or plate 1 where several stand.
        """
        place = read_place(line.plate, line.well)
        if place is None or place.plate is not None:
            return place
        only = next(iter(self.plates)) if len(self.plates) == 1 else "1"
        return TrayPlace(only, place.well)

    def vessel_name(self, line: Line, place: TrayPlace | None) -> str | None:
        """Name of the vessel type: the line's own, else that of its plate."""
        if line.vessel is not None:
            return line.vessel
        return self.plates.get(place.plate or "") if place is not None else None

    def vessel(self, line: Line, place: TrayPlace | None) -> VesselType | None:
        """Vessel type of a line, if the card declares it."""
        name = self.vessel_name(line, place)
        return self.vessels.get(name) if name is not None else None


def tray_of(sampler: Autosampler | None, sequence: Sequence | None) -> Tray:
    """Build the tray of a sequence on an instrument."""
    plates: dict[str, str] = {}
    for named in (sampler.plates if sampler else {}, sequence.plates if sequence else {}):
        plates.update({read_plate(plate) or plate: vessel for plate, vessel in named.items()})
    vessels = {vessel.name: vessel for vessel in sampler.vessels} if sampler else {}
    return Tray(plates, vessels)


__all__ = ["Tray", "TrayPlace", "Well", "tray_of"]
