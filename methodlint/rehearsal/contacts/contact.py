"""Two liquids that meet: which, where, how cold, and what else is with them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from methodlint.documents.loading import Loaded
from methodlint.documents.text.places import Path

Components = tuple[tuple[str, float], ...]

Site = Literal["tee", "injection", "needle", "loop", "seal", "pump", "bottle", "waste"]
"""Where two liquids meet: makeup tee, modifier stream or mixed stream at the injection, needle,
loop when it is switched in, behind the pump's seal, inside a pump that changes over, inside one
bottle, in a waste vessel."""


@dataclass(frozen=True, slots=True)
class ContactLiquid:
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
    site
        The same as `place`, as one of a few words.
    temperature_given
        A document gives the temperature; False where that of an ordinary room is taken.
    least_co2_share
        Least volume share of CO2 in the stream there, as set at the pumps; None if it is not known,
        0 where there is none.
    share_of_first
        Least and greatest volume share of the first in the two while both flow steadily; None if it
        is not known. Starts and stops run through every share.
    line
        Index of the line of the sequence that brings them together; None if none does.
    """

    first: ContactLiquid
    second: ContactLiquid
    place: str
    temperature: float
    in_co2: bool = False
    under_pressure: bool = False
    volume: float | None = None
    site: Site = "injection"
    temperature_given: bool = True
    least_co2_share: float | None = 0.0
    share_of_first: tuple[float, float] | None = None
    line: int | None = None
