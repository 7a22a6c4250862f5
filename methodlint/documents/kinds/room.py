"""The room: air, vents, monitors, waste vessels and the people in it."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Discriminator, Field, Tag

from methodlint.documents.kinds.base import (
    AnyLiquid,
    ClockTime,
    Date,
    Document,
    Name,
    Part,
    RoomPressure,
    described,
)
from methodlint.documents.quantities.quantity import (
    AirChangeRate,
    MassFlow,
    PartsPerMillion,
    PositiveVolume,
    Temperature,
    Volume,
)


class Outlet(Part):
    """One place where gas leaves the instruments."""

    name: Name
    of: Literal["separator", "MS exhaust", "rough pump", "waste bottle", "collector", "other"]
    ducted: bool | None = described("Led outdoors or to extraction.")
    draught: Literal["fan", "passive"] | None = described("What moves the gas along the duct.")
    flow_verified: Date | None = described("Day on which the draught was last measured.")
    interlock: bool | None = described("A fan that fails stops the instrument or alarms.")
    inerted: bool = described("Swept with nitrogen up to where it leaves outdoors.", False)
    trap: Name | None = described("Trap or filter that holds back what the samples give off.")


class Monitor(Part):
    """A fixed gas monitor."""

    gas: Literal["CO2", "O2"]
    place: str | None = None
    low: bool | None = described("Mounted low on the wall.")
    tested: Date | None = described("Last bump test or calibration.")
    self_test: bool = described("It tests itself continuously.", False)
    audible: bool | None = None


Weekday = Literal["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"]


class Staffed(Part):
    """Hours during which somebody is there, local time HH:MM."""

    begins: ClockTime
    ends: ClockTime
    days: tuple[Weekday, ...] | None = Field(
        default=None, min_length=1, description="Days of the week; without them every day."
    )


def _hours_or_word(value: Any) -> str:
    """Whether hours are meant or a word: only what is meant is told to be wrong."""
    if isinstance(value, (list, tuple)):
        return "spells"
    return "hours" if isinstance(value, (Staffed, dict)) else "word"


StaffedHours = Annotated[
    Annotated[Staffed, Tag("hours")]
    | Annotated[tuple[Staffed, ...], Field(min_length=1, max_length=50), Tag("spells")]
    | Annotated[Literal["always"], Tag("word")],
    Discriminator(_hours_or_word),
]


class WasteVessel(Part):
    """A waste vessel and what it holds."""

    name: Name
    capacity: PositiveVolume | None = None
    level: Volume | None = None
    contents: tuple[AnyLiquid, ...] = Field(default=(), max_length=100)
    drain: bool = described("Plumbed to a drain for solvents.", False)
    vented: bool | None = None
    halogenated: bool = described("It is the vessel for halogenated waste, kept apart.", False)
    receives: tuple[Literal["mobile phase", "makeup", "needle wash", "seal wash", "purge"], ...] = (
        described("Streams that end in it; a single vessel takes them all.", ())
    )


class OtherVent(Part):
    """CO2 that another instrument vents into the same room."""

    instrument: Name
    mass_flow: MassFlow


class RiskAssessment(Part):
    """The assessment of a CO2 release, as filed."""

    on_file: bool
    reference: str | None = None
    date: Date | None = None


class Room(Document):
    """The room that the instrument stands in."""

    kind: Literal["room"]
    volume: PositiveVolume | None = None
    air_changes: AirChangeRate | None = None
    air_changes_at_night: AirChangeRate | None = None
    outdoor_co2: PartsPerMillion | None = None
    lowest_temperature: Temperature | None = None
    highest_temperature: Temperature | None = None
    air_pressure: RoomPressure | None = None
    below_ground: bool = False
    outlets: tuple[Outlet, ...] = ()
    monitors: tuple[Monitor, ...] | None = described("An empty list says that there are none.")
    other_vents: tuple[OtherVent, ...] = ()
    staffed: StaffedHours | None = described(
        "When somebody is there: hours, a list of them, or 'always'."
    )
    holidays: tuple[Date, ...] = Field(
        default=(), max_length=1000, description="Days on which nobody is there."
    )
    risk_assessment: RiskAssessment | None = None
    waste: tuple[WasteVessel, ...] = ()
