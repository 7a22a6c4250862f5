"""The CO2 supply: a cylinder, a bank of cylinders or a bulk tank."""

from __future__ import annotations

import re
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BeforeValidator, Discriminator, Tag

from methodlint.documents.kinds.base import (
    AbsolutePressure,
    Date,
    Document,
    Moment,
    Name,
    Part,
    PositiveCount,
    described,
)
from methodlint.documents.quantities.quantity import (
    Density,
    Mass,
    PartsPerMillion,
    PositiveDuration,
    PositiveMass,
    PositiveShareAnyBasis,
    PositiveVolume,
    PressureDifference,
    Quantity,
    ShareAnyBasis,
    Temperature,
)
from methodlint.documents.quantities.refusal import refused
from methodlint.documents.text.visible import excerpt

_TRIPLE_POINT = 216.592
"""CO2, Span and Wagner, J. Phys. Chem. Ref. Data 25, 1509 (1996) [K]."""


_GRADE = re.compile(r"[Nn]? ?([2-7])\.([0-9])")


def _as_share(value: object) -> object:
    """A grade as the trade writes it, 4.5 or N4.5: four nines and a five, 99.995 %."""
    found = _GRADE.fullmatch(str(value).strip()) if isinstance(value, str | float) else None
    return value if found is None else f"99.{'9' * (int(found[1]) - 2)}{found[2]} %"


def _above_dry_ice(value: Quantity) -> Quantity:
    if value.si - (value.tolerance or 0.0) < _TRIPLE_POINT:
        raise refused(
            "document.value-implausible",
            f'"{excerpt(value.text)}": CO2 is solid below its triple point, '
            "-56.56 degC, and no supply draws from it there",
            "write the temperature that is meant, such as -20 degC for a tank",
        )
    return value


FluidTemperature = Annotated[Temperature, AfterValidator(_above_dry_ice)]
"""Temperature of CO2 that flows, down to its triple point."""


class TemperatureSpan(Part):
    """Lowest and highest temperature of a place over the run."""

    lowest: FluidTemperature
    highest: FluidTemperature


def _one_or_span(value: Any) -> str:
    """Whether one temperature is meant or both ends: only what is meant is told to be wrong."""
    is_span = isinstance(value, TemperatureSpan) or (
        isinstance(value, dict) and not {"lowest", "highest"}.isdisjoint(value)
    )
    return "span" if is_span else "one"


StoreTemperature = Annotated[
    Annotated[FluidTemperature, Tag("one")] | Annotated[TemperatureSpan, Tag("span")],
    Discriminator(_one_or_span),
]


class RatedPart(Part):
    """A part of the supply and the pressure it stands."""

    part: Name
    pressure_rating: AbsolutePressure


class LineSection(Part):
    """A length of line that two valves can close."""

    name: Name
    relief: AbsolutePressure | None = described("Opening pressure of its relief.")
    relieves_upstream: bool = described(
        "One of its valves is a check valve that relieves upstream.", False
    )
    pressure_rating: AbsolutePressure | None = None
    filled_at: FluidTemperature | None = described(
        "Coldest liquid that fills it; else that of the store."
    )
    filled_pressure: AbsolutePressure | None = described(
        "Pressure when it is closed; else that of the store."
    )


class OtherBooking(Part):
    """What another instrument will draw from the same supply."""

    instrument: Name
    mass: Mass | None = described("CO2 that it will take.")
    ends: Moment | None = None


class RecycledCO2(Part):
    """CO2 that was separated from fractions and waste and is used again."""

    modifier_share: ShareAnyBasis | None = described(
        "Modifier that the recovered CO2 still carries, as measured."
    )
    water: PartsPerMillion | None = None


class Supply(Document):
    """Where the CO2 comes from."""

    kind: Literal["supply"]
    withdrawal: Literal["liquid", "vapour", "bulk"] | None = None
    dip_tube: bool | None = None
    water_capacity: PositiveVolume | None = described("Of one cylinder.")
    cylinders: PositiveCount = described("Cylinders connected at the same time.", 1)
    net_mass: Mass | None = described("CO2 in all connected cylinders now.")
    full_mass: PositiveMass | None = described("CO2 in all connected cylinders, freshly filled.")
    weighed: Date | None = None
    used_since_weighed: Mass | None = None
    last_used: Date | None = described("Day of the last logged sequence that drew from it.")
    gross_mass: PositiveMass | None = described("Cylinder and CO2, on the scale.")
    tare_mass: PositiveMass | None = described("Empty cylinder, as stamped.")
    telemetry: bool = False
    store_temperature: StoreTemperature | None = None
    line_temperature: FluidTemperature | None = described(
        "Warmest place of the line from the store to the pump."
    )
    line_loss: PressureDifference | None = None
    test_pressure: AbsolutePressure | None = described(
        "Of the cylinder, as stamped: 190 bar or 250 bar is usual."
    )
    filling_ratio: Density | None = described("kg of CO2 per L, g/mL.")
    place: Literal["outside", "inside", "exhausted cabinet"] | None = None
    flow_stop: Literal["excess-flow valve", "monitor-operated shut-off", "none"] | None = None
    flow_stop_place: Literal["upstream of the wall", "inside"] | None = None
    rated_parts: tuple[RatedPart, ...] = ()
    line_sections: tuple[LineSection, ...] = ()
    cylinder_relief: AbsolutePressure | None = None
    heel: Mass | None = described("Left in the cylinder on purpose.")
    changeover: Literal["automatic", "manual", "none"] | None = None
    spare_mass: Mass | None = None
    padded: bool = described("Pressurised by helium over the liquid.", False)
    moisture: PartsPerMillion | None = described(
        "Water in the CO2, by volume, as certified or measured."
    )
    certificate_until: Date | None = described("Last day of the certificate of this delivery.")
    purifier_changed: Date | None = described(
        "Day on which the purifier or filter was last changed."
    )
    purifier_interval: PositiveDuration | None = described("Longest time between two changes.")
    booster: bool = described("A booster pump lifts the pressure.", False)
    regulator_in_liquid_line: bool | None = None
    grade: Annotated[PositiveShareAnyBasis | None, BeforeValidator(_as_share)] = described(
        "Purity, for example 99.995 %."
    )
    oil_statement: bool | None = described("The supplier states limits for oil and hydrocarbons.")
    recycled: RecycledCO2 | None = described("Where CO2 is used again.")
    bookings: tuple[OtherBooking, ...] = described("What others draw from it during the slot.", ())
    shared_with: tuple[Name, ...] = described("Other instruments on it.", ())
