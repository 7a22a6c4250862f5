"""The logbook: what was read at the benches while they ran."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from methodlint.documents.kinds.base import (
    AbsolutePressure,
    Document,
    Moment,
    Name,
    Part,
    PositiveCount,
    Ratio,
    described,
)
from methodlint.documents.kinds.compact import Table
from methodlint.documents.quantities.quantity import (
    PositiveDuration,
    PositiveMass,
    ShareAnyBasis,
    Temperature,
)


class PeakReading(Part):
    """One named peak as it came out."""

    name: Name
    retention_time: PositiveDuration | None = None
    plates: Ratio | None = None
    tailing: Ratio | None = None


class LogEntry(Part):
    """What was read of one run or of one sequence; everything but the day may be left out."""

    date: Moment | None = described("Day, or day and time of the start.")
    instrument: Name | None = None
    method: Name | None = described("Of the readings.")
    sequence: Name | None = described("What was run, if it was a sequence.")
    column: Name | None = described("Else that of the method.")
    supply: Name | None = None
    injections: PositiveCount | None = described("Made in this entry.")
    start_pressure: AbsolutePressure | None = described(
        "At the pumps, at the composition that the method starts with."
    )
    start_share: ShareAnyBasis | None = described("Modifier then, if it was another one.")
    highest_pressure: AbsolutePressure | None = described("Highest at the pumps over the run.")
    highest_share: ShareAnyBasis | None = described("Modifier set then.")
    outlet_pressure: AbsolutePressure | None = described("At the regulator, as read.")
    oven_temperature: Temperature | None = described("As read.")
    peak: Name | None = described("A peak by its name; more under `peaks`.")
    retention_time: PositiveDuration | None = None
    plates: Ratio | None = None
    tailing: Ratio | None = None
    peaks: tuple[PeakReading, ...] = Field(default=(), max_length=100)
    weight_before: PositiveMass | None = described("Cylinder on the scale before the run.")
    weight_after: PositiveMass | None = described("Cylinder on the scale after the run.")
    cylinder_changed: bool | None = described("Another cylinder was connected before this run.")
    column_test: Literal["passed", "failed"] | None = None
    bottles_changed: tuple[Name, ...] = ()
    remarks: str | None = None
    by: Name | None = described("Initials or a role; never asked for.")


class Logbook(Document):
    """What happened, entry by entry; what all entries share is written once above them."""

    kind: Literal["logbook"]
    instrument: Name | None = described("Of entries that name none.")
    method: Name | None = described("Of entries that name none.")
    supply: Name | None = described("Of entries that name none.")
    table: Table | None = described("CSV text or workbook that holds entries.")
    entries: tuple[LogEntry, ...] = ()
