"""The sequence: who injects what, in which order, on which instrument."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from methodlint.documents.kinds.base import (
    AnyLiquid,
    Date,
    Document,
    Moment,
    Name,
    OutletPressure,
    Part,
    Person,
    PlaceName,
    Ratio,
    described,
)
from methodlint.documents.kinds.compact import Block, LineKeys, Scouting, Table
from methodlint.documents.quantities.quantity import (
    Concentration,
    Duration,
    PositiveDuration,
    PositiveVolume,
    ShareAnyBasis,
    Temperature,
    Volume,
    VolumeFlow,
)

LineKind = Literal[
    "blank",
    "zero",
    "matrix blank",
    "conditioning",
    "suitability",
    "calibrator",
    "control",
    "sample",
    "flush",
    "equilibration",
    "shutdown",
    "idle",
]


class Line(Part):
    """One line: an injection, or a step without one (flush, equilibration, shutdown, idle)."""

    kind: LineKind
    sample: Name | None = described("Sample or standard identity.")
    plate: PlaceName | None = None
    well: PlaceName | None = None
    method: Name | None = None
    count: Annotated[int, Field(ge=1, le=10_000, strict=True)] = described(
        "Injections made from this line, one after another.", 1
    )
    replicate: bool = described("An intended repetition of the same sample.", False)
    level: Ratio | None = described("Calibrator level, in the unit's terms.")
    concentration: Concentration | None = None
    stock: Name | None = described("Stock solution that it was made from.")
    stock_verified: bool = described("The stock was compared with an independent one.", False)
    control_level: Literal["lower", "middle", "upper"] | None = None
    volume: PositiveVolume | None = None
    diluent: AnyLiquid | None = None
    fill: Volume | None = described("Liquid in the vial or well.")
    dead_volume: Volume | None = None
    vessel: Name | None = None
    vials: Annotated[int, Field(ge=1, le=1_000, strict=True)] = described(
        "Like vials set out for this position, drawn one after another.", 1
    )
    prepared: Moment | None = described("When this sample was prepared.")
    stability: PositiveDuration | None = described("How long it keeps on the tray.")
    data_file: Name | None = None
    run_length: PositiveDuration | None = None
    duration: Duration | None = described("Of a step without injection.")
    flow: VolumeFlow | None = None
    liquid: AnyLiquid | None = described("What a flush flushes with.")
    modifier_share: ShareAnyBasis | None = described(
        "Of a step with CO2; else that at which its method starts."
    )
    outlet_pressure: OutletPressure | None = described(
        "Regulator during a step; else that at which its method starts."
    )
    column_bypassed: bool = described(
        "A step that goes past the column instead of through it.", False
    )
    flush_volume: PositiveVolume | None = None
    makeup: Literal["on", "off"] | None = None
    co2: Literal["on", "off"] | None = described(
        "Off in shutdown and idle lines unless said; a flush with a flow says it."
    )
    purpose: Literal["regulated", "bioanalysis", "research", "screening", "preparative"] | None = (
        described("Of this line alone; else that of its method.")
    )
    source: Literal["on", "off"] | None = None
    regulator_released: bool | None = None
    refills: tuple[Name, ...] = described(
        "Bottle lines that are filled up again during this pause.", ()
    )
    expires: Date | None = None
    weight: Ratio | None = None
    dilution: Ratio | None = None
    expected: Concentration | None = None


class Slot(Part):
    """The booked time."""

    begins: Moment | None = None
    length: PositiveDuration | None = None
    open_ended: bool = False


class EndState(Part):
    """The state that a booking leaves behind or expects to find."""

    modifier: AnyLiquid | None = None
    column: Name | None = None
    co2: Literal["on", "off"] | None = None
    makeup: Literal["on", "off"] | None = None
    oven_temperature: Temperature | None = None


class Pin(Part):
    """A document of which the sequence names the edition, or the hash of its values."""

    document: Name
    edition: str | int | None = None
    hash: str | None = described("As an approval carries it.")


class Sequence(Document):
    """A list of injections on one instrument."""

    kind: Literal["sequence"]
    instrument: Name | None = None
    supply: Name | None = None
    solvents: Name | None = None
    room: Name | None = None
    method: Name | None = described("Method of lines that name none.")
    pins: tuple[Pin, ...] = described("Editions of methods and cards that it was written for.", ())
    purpose: Literal["regulated", "bioanalysis", "research", "screening", "preparative"] | None = (
        None
    )
    begins: Moment | None = None
    slot: Slot | None = None
    operator: Person | None = None
    phone: Name | None = None
    equilibration: Duration | None = described(
        "Flow at the starting conditions before the first line."
    )
    diluent: AnyLiquid | None = None
    plates: dict[str, Name] = Field(
        default_factory=dict, description="Plate position to vessel type, for this sequence."
    )
    data_file: Name | None = described("Pattern, for example '{date}_{line:03}_{sample}'.")
    lines: tuple[Line, ...] = ()
    table: Table | None = described("CSV text or workbook that holds the lines.")
    named_lines: dict[str, LineKeys] = Field(
        default_factory=dict, description="Lines that blocks refer to by name."
    )
    blocks: tuple[Block, ...] = described(
        "Lines in compact form, in the order in which they are injected.", ()
    )
    scouting: Scouting | None = described(
        "Columns x modifiers x temperatures, each cell a run of its own."
    )
    aliases: dict[str, Name] = Field(
        default_factory=dict, description="A second name of a sample, and the name it stands for."
    )
    prepared: Moment | None = described("When the samples were prepared.")
    stability: PositiveDuration | None = described("How long prepared samples keep on the tray.")
    continues: bool = described("Continues the same block of the same day.", False)
    continuous: bool = described("Open-access queue without an end.", False)
    after: Literal["shutdown", "idle method", "standby", "next booking"] | None = None
    bracketing: Literal["standards", "internal standard", "none"] | None = None
    internal_standard: bool | None = None
    previous: EndState | None = None
    leaves: EndState | None = None
