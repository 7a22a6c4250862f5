"""The lab's own policy: thresholds that legitimately differ, classes moved with a reason."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from methodlint.documents.kinds.base import Count, Document, Name, Part
from methodlint.documents.quantity import (
    Duration,
    Mass,
    PartsPerMillion,
    Pressure,
    ShareAnyBasis,
    TemperatureDifference,
)


class ClassChange(Part):
    """A rule whose class this lab raises or lowers; a stop cannot be lowered."""

    rule: Name
    to: Literal["stop", "fault", "caution", "note"]
    reason: Annotated[str, Field(min_length=3)]


class ExposureLimits(Part):
    """Limits of gases and vapours in room air, by the jurisdiction that sets them."""

    jurisdiction: Name | None = None
    co2_long: PartsPerMillion | None = Field(default=None, description="8 hours.")
    co2_short: PartsPerMillion | None = Field(default=None, description="15 minutes.")
    vapours: dict[str, PartsPerMillion] = Field(default_factory=dict)


class TransferAllowances(Part):
    """Spans, plus or minus, inside which this lab transfers without validating anew."""

    length_to_particle: ShareAnyBasis | None = None
    flow: ShareAnyBasis | None = Field(default=None, description="After scaling by geometry.")
    minor_relative: ShareAnyBasis | None = None
    minor_absolute: ShareAnyBasis | None = None
    temperature: TemperatureDifference | None = None
    outlet_pressure: ShareAnyBasis | None = Field(default=None, description="Relative.")


class Policy(Part):
    """Thresholds; a missing one takes the default printed in the rule's page."""

    samples_between_brackets: Count | None = None
    time_between_brackets: Duration | None = None
    samples_per_control: Count | None = None
    blanks_at_start: Count | None = None
    conditioning_injections: Count | None = None
    suitability_replicates: Count | None = None
    calibration_levels: Count | None = None
    blank_after_highest: bool | None = None
    bracketing_required: bool | None = None
    cylinder_heel: Mass | None = None
    boundary_margin: Pressure | None = None
    waste_fill: ShareAnyBasis | None = None
    additive_shelf_life: Duration | None = None
    exposure_limits: ExposureLimits | None = None
    transfer_allowances: TransferAllowances | None = None


class Lab(Document):
    """The root document of a lab folder."""

    kind: Literal["lab"]
    name: Name | None = None
    policy: Policy | None = None
    classes: tuple[ClassChange, ...] = ()
    rule_folders: tuple[Name, ...] = ()
    external_registry: bool = False
    phone: Name | None = Field(default=None, description="Emergency contact of the lab.")
    emergency: tuple[str, ...] = Field(default=(), description="The lab's own emergency steps.")
