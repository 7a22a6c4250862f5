"""The instrument card: pumps, the flow train in order, ratings and trips."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import Field, model_validator

from methodlint.documents.kinds.base import (
    AbsolutePressure,
    Date,
    DetectorType,
    Document,
    Name,
    Part,
    PositiveCount,
    PressureFromZero,
    Ratio,
    described,
)
from methodlint.documents.quantities.quantity import (
    Duration,
    Length,
    MassFlow,
    PositiveDuration,
    PositiveMassFlow,
    PositivePower,
    PositivePressureDifference,
    PositiveShareAnyBasis,
    PositiveVolume,
    PositiveVolumeFlow,
    Power,
    Temperature,
    Volume,
    VolumeFlow,
)


class EnvelopePoint(Part):
    """Highest pressure that a pump reaches at a flow; linear between points."""

    flow: VolumeFlow
    pressure: AbsolutePressure


class Pump(Part):
    """One pump with its span."""

    lowest_flow: VolumeFlow | None = described("Least flow it meters.")
    lowest_accurate_flow: PositiveVolumeFlow | None = None
    highest_flow: PositiveVolumeFlow | None = None
    pressure_rating: AbsolutePressure | None = None
    envelope: tuple[EnvelopePoint, ...] = ()


class CO2Pump(Pump):
    """The CO2 pump and its chilled head."""

    head_temperature: Temperature | None = None
    metering: Literal["volume", "mass", "compensated"] = described(
        "'compensated': the volume follows the density at the head.", "volume"
    )
    inlet: Literal["liquid", "vapour", "both"] | None = None
    chiller_capacity: PositivePower | None = None
    booster: bool = False


class ModifierPump(Pump):
    """The modifier pump and the bottle lines it can draw from."""

    lines: tuple[Name, ...] = ()
    highest_share: PositiveShareAnyBasis | None = None


class MakeupPump(Pump):
    """The makeup pump."""

    check_valve: bool | None = None


class TrainPart(Part):
    """One part of the flow train, in the order in which the mobile phase meets it."""

    @model_validator(mode="before")
    @classmethod
    def _source_by_its_detector(cls, data: Any) -> Any:
        """Read `part: MS` as the source of a mass spectrometer."""
        if isinstance(data, dict) and data.get("part") == "MS":
            return {"detector": "MS", **data, "part": "source"}
        return data

    part: Literal[
        "mixer",
        "tube",
        "injector",
        "preheater",
        "valve",
        "filter",
        "guard",
        "column",
        "cell",
        "tee",
        "splitter",
        "regulator",
        "source",
    ]
    name: Name | None = None
    length: Length | None = described("Of a tube; of a splitter, its restrictor to the source.")
    bore: Length | None = described("Inner diameter of a tube, or of a splitter's restrictor.")
    volume: PositiveVolume | None = described("Swept volume.")
    pressure_rating: AbsolutePressure | None = None
    trip: AbsolutePressure | None = described("Own trip at or below the rating.")
    relief: AbsolutePressure | None = described("Own relief at or below the rating.")
    temperature: Temperature | None = None
    detector: DetectorType | None = None
    lamp_used: Duration | None = described("Of a cell's lamp, up to now.")
    lamp_life: PositiveDuration | None = described("Use after which the lamp is changed.")
    highest_absorbance: Ratio | None = described(
        "Absorbance up to which the detector of this cell is linear."
    )
    heat_exchanger: bool | None = described(
        "The mobile phase is brought to the temperature of the cell."
    )
    bypassed: bool = False
    split_ratio: PositiveShareAnyBasis | None = described(
        "Share of the flow that a splitter sends to the source."
    )
    active: bool | None = described("Splitter that keeps its ratio.")
    stands_on: Literal["main line", "branch"] | None = described(
        "Tee downstream of a splitter: on the main line, or on the branch to the source."
    )


class Regulator(Part):
    """The back-pressure regulator."""

    kind: Literal["active", "passive restrictor"] = "active"
    lowest: PressureFromZero | None = described("Lowest pressure it controls.")
    highest: AbsolutePressure | None = None
    accuracy: PositivePressureDifference | None = described(
        "How far the pressure may lie from its setting; 2 bar if absent."
    )
    lowest_mass_flow: MassFlow | None = described(
        "Least mass flow through it at which it controls."
    )
    highest_mass_flow: PositiveMassFlow | None = described(
        "Highest mass flow through it at which it controls."
    )
    heater: Power | None = None
    heated: bool | None = None
    temperature: Temperature | None = None
    vents_to: Name | None = described("Outlet of the room that takes the gas, by its name or kind.")
    gas_separation: Literal["vented separator", "vented vessel", "closed bottle"] | None = None
    ramp: Ratio | None = described("Highest ramp, bar per minute.")


class VentLine(Part):
    """The line from the regulator to where the gas leaves."""

    length: Length
    bore: Length
    collects_liquid: bool = False
    others: MassFlow | None = described(
        "CO2 of other instruments that leaves through the same line."
    )


class Oven(Part):
    """The column oven."""

    lowest: Temperature | None = None
    highest: Temperature | None = None
    cooled: bool | None = None
    length: Length | None = None
    preheater: bool | None = None
    built_in_exchanger: bool = False
    air: Literal["still", "forced"] | None = described(
        "Air around the column: still, or moved by a fan."
    )
    external_jacket: bool = described("The column is heated by a jacket outside the oven.", False)


class VesselType(Part):
    """A vial, insert or plate, as the autosampler sees it."""

    name: Name
    rows: PositiveCount | None = None
    columns: PositiveCount | None = None
    positions: PositiveCount | None = described("For trays numbered 1..n.")
    capacity: PositiveVolume | None = None
    dead_volume: Volume | None = None
    depth: Length | None = None
    pierceable: bool = True


class Autosampler(Part):
    """The autosampler: loop, modes, what it draws extra, its tray."""

    loop: PositiveVolume | None = None
    flow_through_needle: bool = False
    lowest_volume: Volume | None = None
    highest_volume: PositiveVolume | None = None
    largest_part_fill: PositiveShareAnyBasis | None = described(
        "Largest part of the loop in part-filled mode."
    )
    flushes_for_full_loop: Ratio | None = None
    extra_drawn: Volume | None = described("Drawn beside the injection.")
    needle_volume: Volume | None = None
    wash_volume: Volume | None = described("Wash through the needle after each injection.")
    needle_depth: Length | None = None
    bottom_sensing: bool = False
    injects_after_start: bool = False
    tray_lowest: Temperature | None = None
    tray_highest: Temperature | None = None
    tray_temperature: Temperature | None = None
    plates: dict[str, Name] = Field(
        default_factory=dict, description="Plate position to vessel type."
    )
    vessels: tuple[VesselType, ...] = ()
    wash_enters_loop: bool | None = None


class SourceSetting(Part):
    """One row of the maker's table: what dries this much liquid."""

    highest_liquid_flow: PositiveVolumeFlow
    temperature: Temperature | None = None
    gas_flow: PositiveVolumeFlow | None = None


class MassSpectrometer(Part):
    """Limits of the source and its gas."""

    source: Literal["ESI", "APCI", "APPI"] | None = None
    highest_liquid_flow: PositiveVolumeFlow | None = None
    highest_gas_flow: PositiveVolumeFlow | None = None
    source_power: Power | None = None
    gas: Literal["nitrogen", "air", "argon", "other"] | None = None
    air_permitted: bool | None = described(
        "Whether the maker permits clean air as gas with liquids that burn."
    )
    gas_flow: PositiveVolumeFlow | None = None
    settings: tuple[SourceSetting, ...] = described(
        "Liquid flow that the source dries, by its temperature and gas.", ()
    )
    exhaust_ducted: bool | None = None


class FlameDetector(Part):
    """The flame ionisation detector and its hydrogen."""

    flame_out_shutoff: bool | None = described(
        "Hydrogen is shut off by itself when the flame goes out."
    )
    hydrogen_from: Literal["cylinder in the room", "generator", "line from outdoors"] | None = None
    hydrogen_monitor: bool | None = described("A hydrogen detector in the room shuts the gas off.")


class Collector(Part):
    """Where fractions go: valve, vessels, and how gas and liquid part there."""

    kind: Literal["cyclone", "open bed", "separator"] | None = None
    delay_volume: PositiveVolume | None = described(
        "From the detector cell that triggers to the fraction valve."
    )
    vessels: PositiveCount | None = described("Vessels set out.")
    vessel_capacity: PositiveVolume | None = None
    pressure_rating: AbsolutePressure | None = described(
        "Of a cyclone or separator, whichever is the weakest part."
    )
    vent_length: Length | None = described("Of its gas line.")
    vent_bore: Length | None = None
    inerted: bool | None = described(
        "Vessels are kept under CO2 or nitrogen until they are closed."
    )


class Trips(Part):
    """What stops the instrument by itself."""

    high_pressure: AbsolutePressure | None = described("Hard limit it enforces.")
    stops: tuple[Literal["CO2 pump", "modifier pump", "makeup pump"], ...] | None = described(
        "Pumps that a pressure trip stops; all of them if absent."
    )
    low_pressure_stop: bool | None = None
    leak_sensor: bool | None = None
    co2_alarm_interlock: bool | None = None
    waste_level: bool | None = None


class ClosedSection(Part):
    """A part of the flow path that stays full of liquid and is closed at both ends."""

    name: Name
    holds: Literal["CO2", "modifier"]
    closed_at: Temperature
    closed_pressure: AbsolutePressure
    warmest: Temperature | None = described("Else that of the room.")
    pressure_rating: AbsolutePressure | None = None
    relief: AbsolutePressure | None = None


class Qualification(Part):
    """A qualification or calibration of a part of the instrument, or of a balance used with it."""

    of: Literal[
        "pumps", "oven", "injector", "wavelength", "detector response", "regulator", "balance"
    ]
    done: Date | None = None
    due: Date | None = described("Last day on which it counts.")
    passed: bool | None = None


class LeakTest(Part):
    """Pressure decay, or a search for leaks under pressure."""

    on: Date
    passed: bool | None = None


class DataFiles(Part):
    """How the instrument names data files."""

    existing: Literal["overwrite", "refuse", "suffix"] | None = None
    replaced_characters: str | None = None
    longest_path: PositiveCount | None = None


class Instrument(Document):
    """An instrument with its flow train."""

    kind: Literal["instrument"]
    co2_pump: CO2Pump | None = None
    modifier_pump: ModifierPump | None = None
    makeup_pump: MakeupPump | None = None
    train: tuple[TrainPart, ...] = described(
        "Parts in flow order, from the pumps to the regulator and on.", ()
    )
    dwell_volume: PositiveVolume | None = described(
        "From the mixing point to the column inlet, mixer included, as measured."
    )
    dwell_measured_by: Literal["ramp", "step at half height", "parts"] = described(
        "How the dwell volume was found: delay of a ramp, half height of a step (which holds "
        "0.69 of a stirred mixer), or sum of the volumes of the parts.",
        "ramp",
    )
    extra_column_sigma: PositiveVolume | None = described(
        "Standard deviation of a peak outside the column."
    )
    autosampler: Autosampler | None = None
    oven: Oven | None = None
    regulator: Regulator | None = None
    vent_line: VentLine | None = None
    ms: MassSpectrometer | None = None
    fid: FlameDetector | None = None
    collector: Collector | None = None
    trips: Trips | None = None
    fitted_columns: dict[str, Name] = Field(
        default_factory=dict, description="Selector position to column card."
    )
    parked_columns: Literal["closed", "vented"] | None = None
    closed_sections: tuple[ClosedSection, ...] = described(
        "Loops, heads and lines that valves close at both ends.", ()
    )
    wetted_materials: dict[str, Name] = Field(default_factory=dict)
    cycle_overhead: Duration | None = described(
        "Between the end of one run and the start of the next."
    )
    qualifications: tuple[Qualification, ...] = described(
        "What was qualified or calibrated, and until when it counts.", ()
    )
    opened: Date | None = described("Day on which a fitting of the flow path was last undone.")
    leak_test: LeakTest | None = described("The last one.")
    reference_detector: Literal["single wavelength", "reference possible"] | None = None
    data_files: DataFiles | None = None
