"""Places of vials and wells: one spelling for all, geometry of plates, what lies nearby."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from string import ascii_uppercase

from methodlint.documents.kinds.instrument import VesselType
from methodlint.documents.text.names import edit_distance

_WELL = re.compile(
    r"(?:(?:P(?:LATE)?\s*)?(?P<plate>\d+)\s*[:;/\-]\s*)?"
    r"(?:(?P<row>[A-Z]{1,2})\s*[,\-]?\s*)?(?P<number>\d{1,4})"
)
_PLATE = re.compile(r"(?:P(?:LATE)?\s*)?0*(\d+)")


@dataclass(frozen=True, slots=True)
class Geometry:
    """Rows and columns of a plate, or the number of places of a numbered tray.

    Attributes
    ----------
    rows, columns
        Of a plate with lettered rows; both 0 for a numbered tray.
    positions
        Places of a tray numbered 1 to n; 0 for a plate.
    """

    rows: int = 0
    columns: int = 0
    positions: int = 0

    @property
    def words(self) -> str:
        """The span of valid places: `A1 to H12`, or `1 to 54`."""
        if self.positions:
            return f"1 to {self.positions}"
        return f"A1 to {row_letters(self.rows - 1)}{self.columns}"

    def holds(self, well: Well) -> bool:
        """Tell whether a well lies on it."""
        if self.positions:
            return well.row is None and 1 <= well.number <= self.positions
        return well.row is not None and well.row < self.rows and 1 <= well.number <= self.columns


@dataclass(frozen=True, slots=True)
class Well:
    """A place on a plate or tray.

    Attributes
    ----------
    row
        Row counted from 0; None on a numbered tray.
    number
        Column, or number on a tray, counted from 1.
    """

    row: int | None
    number: int

    @property
    def name(self) -> str:
        """The one spelling: `A1`, or `7`."""
        return f"{'' if self.row is None else row_letters(self.row)}{self.number}"


@dataclass(frozen=True, slots=True)
class TrayPlace:
    """A plate and a well; the plate is None where nothing names it."""

    plate: str | None
    well: Well

    @property
    def words(self) -> str:
        """The place in words."""
        return f"plate {self.plate}, well {self.well.name}" if self.plate else self.well.name


#: Rows and columns of microplates; footprint and well positions are standardised
#: (ANSI/SLAS 1-2004 and 4-2004; unverified).
STANDARD_PLATES: Mapping[int, Geometry] = {
    6: Geometry(2, 3),
    12: Geometry(3, 4),
    24: Geometry(4, 6),
    48: Geometry(6, 8),
    96: Geometry(8, 12),
    384: Geometry(16, 24),
    1536: Geometry(32, 48),
}
_STANDARD_NAME = re.compile(r"(\d+)[\s\-]*(?:deep[\s\-]*)?well(?:[\s\-]*plate)?", re.IGNORECASE)


def row_letters(row: int) -> str:
    """Letters of a row counted from 0: A to Z, then AA to AZ and on."""
    first, second = divmod(row, 26)
    return (ascii_uppercase[first - 1] if first else "") + ascii_uppercase[second]


def row_number(letters: str) -> int:
    """Row counted from 0 of its letters: A is 0, AA is 26."""
    number = 0
    for letter in letters:
        number = number * 26 + ascii_uppercase.index(letter) + 1
    return number - 1


@lru_cache(maxsize=4096)
def read_plate(text: str | None) -> str | None:
    """Write the name of a plate in one spelling: `1` and `01` are the same plate."""
    if text is None:
        return None
    match = _PLATE.fullmatch(text.strip().upper())
    return match[1] if match else text.strip()


@lru_cache(maxsize=1 << 16)
def read_place(plate: str | None, well: str | None) -> TrayPlace | None:
    """Read a plate and a well as written.

    `A1`, `A01` and `a1` are the same well. A plate written in front of the well, as some tables
    of samples have it, is read too.

    Parameters
    ----------
    plate
        As written; a plate named within the well counts where this is None.
    well
        As written.

    Returns
    -------
    Place or None
        None if the text is no place, or the well names another plate than `plate` does.
    """
    match = _WELL.fullmatch(well.strip().upper()) if well else None
    if match is None:
        return None
    named, inside = read_plate(plate), read_plate(match["plate"])
    if named is not None and inside is not None and named != inside:
        return None
    row = row_number(match["row"]) if match["row"] else None
    return TrayPlace(named if named is not None else inside, Well(row, int(match["number"])))


def geometry_of(vessel: VesselType | None, name: str | None = None) -> Geometry | None:
    """Geometry of a vessel type.

    Parameters
    ----------
    vessel
        As the instrument card declares it; None if it does not.
    name
        Name of the type. A standard microplate (`96-well`, `384-well`) needs no declaration.

    Returns
    -------
    Geometry or None
        None if the card does not give it and the name is no standard plate.
    """
    if vessel is not None and vessel.rows and vessel.columns:
        return Geometry(vessel.rows, vessel.columns)
    if vessel is not None and vessel.positions:
        return Geometry(positions=vessel.positions)
    match = _STANDARD_NAME.fullmatch((vessel.name if vessel else name or "").strip())
    return STANDARD_PLATES.get(int(match[1])) if match else None


def nearest_places(geometry: Geometry, well: Well | None, count: int = 3) -> tuple[str, ...]:
    """Name the valid places next to one that is not on the plate.

    First the place at the edge of the plate, then those one slip of the finger away.

    Parameters
    ----------
    geometry
        Of the plate or tray.
    well
        What was asked for; None if it could not be read.
    count
        Give no more than this many.
    """
    if well is None or (geometry.positions and well.row is not None):
        return ()
    if not geometry.positions and well.row is None:
        return ()
    found: dict[str, None] = {}
    if geometry.positions:
        found[str(min(max(well.number, 1), geometry.positions))] = None
        candidates = [str(n) for n in range(1, geometry.positions + 1)]
    else:
        row = min(well.row or 0, geometry.rows - 1)
        column = min(max(well.number, 1), geometry.columns)
        found[f"{row_letters(row)}{column}"] = None
        rows = [row_letters(r) for r in range(geometry.rows)]
        candidates = [f"{r}{c}" for r in rows for c in range(1, geometry.columns + 1)]
    for name in candidates:
        if len(found) >= count:
            break
        if edit_distance(well.name, name, 1) <= 1:
            found.setdefault(name)
    return tuple(found)[:count]
