"""The column card: geometry, ratings, what it tolerates, what it has seen."""

from __future__ import annotations

from typing import Literal

from methodlint.documents.kinds.base import (
    PH,
    AbsolutePressure,
    AdditiveLimit,
    AnyLiquid,
    Count,
    Date,
    Document,
    Name,
    Part,
    Porosity,
    PositiveCount,
    Ratio,
    described,
)
from methodlint.documents.quantities.quantity import (
    Length,
    PositiveDuration,
    PositivePressureDifference,
    PositiveVolumeFlow,
    ShareAnyBasis,
    Temperature,
    Volume,
)


class FlowResistance(Part):
    """Flow resistance, dimensionless, with the velocity it is based on."""

    value: Ratio
    basis: Literal["superficial", "t0"] = "superficial"


class MeasuredDrop(Part):
    """One measured pressure drop of this column, which calibrates its permeability."""

    pressure_drop: PositivePressureDifference
    flow: PositiveVolumeFlow
    modifier: Name = "methanol"
    modifier_share: ShareAnyBasis
    temperature: Temperature
    outlet_pressure: AbsolutePressure


class InjectionLog(Part):
    """What the column has seen."""

    count: Count
    limit: PositiveCount | None = None
    limit_is_advisory: bool = False
    last_test: Date | None = None
    last_test_passed: bool | None = None
    under_test: bool = described("The runs of today are the test of this column.", False)
    test_interval: PositiveDuration | None = described(
        "Longest time between two tests that the lab allows."
    )


class TemperatureLimit(Part):
    """A temperature limit that holds for certain liquids only."""

    temperature: Temperature
    liquids: tuple[Name, ...]


class Column(Document):
    """A column, a guard column or a set of pieces counted as one."""

    kind: Literal["column"]
    serial: Name | None = None
    phase: (
        Literal[
            "bare silica",
            "bonded silica",
            "hybrid silica",
            "coated polysaccharide",
            "immobilised polysaccharide",
            "brush-type chiral",
            "macrocyclic chiral",
            "polymer",
            "porous graphitic carbon",
        ]
        | None
    ) = described("Class of the stationary phase.")
    selector: Name | None = described("Ligand or chiral selector.")
    length: Length | None = None
    inner_diameter: Length | None = None
    particle_size: Length | None = None
    particle_type: Literal["porous", "superficially porous", "monolith"] | None = None
    external_porosity: Porosity | None = None
    total_porosity: Porosity | None = None
    flow_resistance: FlowResistance | None = None
    measured_drop: MeasuredDrop | None = None
    logbook: Name | None = described("Logbook whose pressures tell its flow resistance.")
    pressure_rating: AbsolutePressure | None = described("Highest pressure at the inlet.")
    drop_rating: PositivePressureDifference | None = described(
        "Highest difference from inlet to outlet."
    )
    temperature_limit: Temperature | None = None
    temperature_limits: tuple[TemperatureLimit, ...] = ()
    ph_limits: tuple[PH, PH] | None = None
    forbidden_liquids: tuple[Name, ...] = ()
    allowed_liquids: tuple[Name, ...] = ()
    trace_tolerated: Volume | None = described(
        "Volume of a forbidden liquid that the maker tolerates."
    )
    additive_limits: tuple[AdditiveLimit, ...] = ()
    storage_liquid: AnyLiquid | None = None
    fast_pressurising: bool = described("The card allows pressure steps.", False)
    injections: InjectionLog | None = None
    last_mobile_phase: AnyLiquid | None = None
    plates: Ratio | None = described("Plate number measured, N.")
