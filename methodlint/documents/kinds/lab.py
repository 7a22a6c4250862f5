"""The lab's own policy: thresholds that legitimately differ, classes moved with a reason."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from methodlint.documents.kinds.base import Count, Document, Name, Part, PositiveCount, Reason
from methodlint.documents.kinds.room import StaffedHours
from methodlint.documents.quantities.quantity import (
    Mass,
    PartsPerMillion,
    PositiveDuration,
    PositiveShareAnyBasis,
    PressureDifference,
    ShareAnyBasis,
    TemperatureDifference,
)


class ClassChange(Part):
    """A rule whose class this lab raises or lowers; a stop cannot be lowered."""

    rule: Name
    to: Literal["stop", "fault", "caution", "note"]
    reason: Reason


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


class ReviewThresholds(Part):
    """From which change on the review of a logbook says something."""

    first_runs: PositiveCount | None = Field(
        default=None, description="Readings that set the level of all later ones; else 5."
    )
    resistance_change: PositiveShareAnyBasis | None = Field(
        default=None, description="Of a column's flow resistance, either way; else 15 %."
    )
    plates_loss: PositiveShareAnyBasis | None = Field(
        default=None, description="Of the plates at first; else 25 %."
    )
    retention_change: PositiveShareAnyBasis | None = Field(
        default=None, description="Of the retention time at first, either way; else 3 %."
    )
    co2_difference: PositiveShareAnyBasis | None = Field(
        default=None,
        description="Of the CO2 predicted, beside what the scale may be off; else 10 %.",
    )


class Policy(Part):
    """Thresholds; a missing one takes the default printed in the rule's page."""

    purpose: Literal["regulated", "bioanalysis", "research", "screening", "preparative"] | None = (
        Field(default=None, description="Purpose of methods and sequences that name none.")
    )
    staffed: StaffedHours | None = Field(
        default=None, description="Staffed hours of rooms that name none."
    )
    mass_load: PositiveShareAnyBasis | None = Field(
        default=None, description="Sample over packing in preparative work; else 2 % w/w."
    )
    samples_between_brackets: PositiveCount | None = Field(
        default=None, description="Samples in a row between two standards; else 20."
    )
    time_between_brackets: PositiveDuration | None = Field(
        default=None, description="Time between two standards; else 12 h."
    )
    samples_per_control: PositiveCount | None = Field(
        default=None, description="Samples that one control stands for; else 10."
    )
    injections_between_controls: PositiveCount | None = Field(
        default=None, description="Injections in a row without a control; else 20."
    )
    blanks_at_start: Count | None = Field(
        default=None, description="Blanks before the first standard or sample; else 1."
    )
    conditioning_injections: Count | None = Field(
        default=None, description="Conditioning injections after the start; else 2."
    )
    suitability_replicates: PositiveCount | None = Field(
        default=None, description="Suitability injections; else 5, or 6 for a limit above 2 %."
    )
    calibration_levels: PositiveCount | None = Field(
        default=None, description="Levels of a calibration; else 5, for bioanalysis 6."
    )
    blank_after_highest: bool | None = Field(
        default=None, description="A blank after the highest standard, whatever the purpose."
    )
    bracketing_required: bool | None = Field(
        default=None, description="Brackets of standards, whatever the purpose."
    )
    cylinder_heel: Mass | None = Field(
        default=None, description="CO2 left in every cylinder on purpose; else what its card says."
    )
    weighing_valid_for: PositiveDuration | None = Field(
        default=None, description="How long a weighing counts when no use is logged; else 1 d."
    )
    monitor_tested_within: PositiveDuration | None = Field(
        default=None, description="Longest time between two tests of a gas monitor; else 365 d."
    )
    boundary_margin: PressureDifference | None = Field(
        default=None, description="Margin kept to the phase boundary; else 15 bar."
    )
    waste_fill: PositiveShareAnyBasis | None = Field(
        default=None, description="Part of a waste vessel that may be filled; else 80 %."
    )
    bottle_reserve: ShareAnyBasis | None = Field(
        default=None, description="Liquid beyond the need that a bottle is filled with; else 10 %."
    )
    additive_shelf_life: PositiveDuration | None = Field(
        default=None,
        description="Of a bottle with additives once opened; else 7 d for acids in alcohols and "
        "ammonia, 30 d for others.",
    )
    aqueous_shelf_life: PositiveDuration | None = Field(
        default=None, description="Of a mostly aqueous bottle with additives; else 3 d."
    )
    ether_shelf_life: PositiveDuration | None = Field(
        default=None,
        description="Of an opened ether that forms peroxides; else 92 d, and never longer.",
    )
    exposure_limits: ExposureLimits | None = None
    allowance_set: Literal["none", "pharmacopoeial", "earlier-sfc", "lab"] | None = Field(
        default=None,
        description="Allowances that transfers are held against where the method names none.",
    )
    transfer_allowances: TransferAllowances | None = None
    review: ReviewThresholds | None = Field(
        default=None, description="Thresholds for reviews of logbooks."
    )


class Lab(Document):
    """The root document of a lab folder."""

    kind: Literal["lab"]
    name: Name | None = None
    policy: Policy | None = None
    classes: tuple[ClassChange, ...] = Field(default=(), max_length=500)
    rule_folders: tuple[Name, ...] = Field(
        default=(), description="Folders of the lab's own rules; each check has to allow them."
    )
    external_registry: bool = False
    phone: Name | None = Field(default=None, description="Emergency contact of the lab.")
    emergency: tuple[str, ...] = Field(default=(), description="The lab's own emergency steps.")
