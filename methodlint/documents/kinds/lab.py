"""The lab's own policy: thresholds that legitimately differ, classes moved with a reason."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from methodlint.documents.kinds.base import (
    Count,
    Document,
    Name,
    Part,
    PositiveCount,
    Reason,
    described,
)
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
    co2_long: PartsPerMillion | None = described("8 hours.")
    co2_short: PartsPerMillion | None = described("15 minutes.")
    vapours: dict[str, PartsPerMillion] = Field(default_factory=dict)


class TransferAllowances(Part):
    """Spans, plus or minus, inside which this lab transfers without validating anew."""

    length_to_particle: ShareAnyBasis | None = None
    flow: ShareAnyBasis | None = described("After scaling by geometry.")
    minor_relative: ShareAnyBasis | None = None
    minor_absolute: ShareAnyBasis | None = None
    temperature: TemperatureDifference | None = None
    outlet_pressure: ShareAnyBasis | None = described("Relative.")


class ReviewThresholds(Part):
    """From which change on the review of a logbook says something."""

    first_runs: PositiveCount | None = described(
        "Readings that set the level of all later ones; else 5."
    )
    resistance_change: PositiveShareAnyBasis | None = described(
        "Of a column's flow resistance, either way; else 15 %."
    )
    plates_loss: PositiveShareAnyBasis | None = described("Of the plates at first; else 25 %.")
    retention_change: PositiveShareAnyBasis | None = described(
        "Of the retention time at first, either way; else 3 %."
    )
    co2_difference: PositiveShareAnyBasis | None = described(
        "Of the CO2 predicted, beside what the scale may be off; else 10 %."
    )


class Policy(Part):
    """Thresholds; a missing one takes the default printed in the rule's page."""

    purpose: Literal["regulated", "bioanalysis", "research", "screening", "preparative"] | None = (
        described("Purpose of methods and sequences that name none.")
    )
    staffed: StaffedHours | None = described("Staffed hours of rooms that name none.")
    mass_load: PositiveShareAnyBasis | None = described(
        "Sample over packing in preparative work; else 2 % w/w."
    )
    samples_between_brackets: PositiveCount | None = described(
        "Samples in a row between two standards; else 20."
    )
    time_between_brackets: PositiveDuration | None = described(
        "Time between two standards; else 12 h."
    )
    samples_per_control: PositiveCount | None = described(
        "Samples that one control stands for; else 10."
    )
    injections_between_controls: PositiveCount | None = described(
        "Injections in a row without a control; else 20."
    )
    blanks_at_start: Count | None = described("Blanks before the first standard or sample; else 1.")
    conditioning_injections: Count | None = described(
        "Conditioning injections after the start; else 2."
    )
    suitability_replicates: PositiveCount | None = described(
        "Suitability injections; else 5, or 6 for a limit above 2 %."
    )
    calibration_levels: PositiveCount | None = described(
        "Levels of a calibration; else 5, for bioanalysis 6."
    )
    blank_after_highest: bool | None = described(
        "A blank after the highest standard, whatever the purpose."
    )
    bracketing_required: bool | None = described("Brackets of standards, whatever the purpose.")
    cylinder_heel: Mass | None = described(
        "CO2 left in every cylinder on purpose; else what its card says."
    )
    weighing_valid_for: PositiveDuration | None = described(
        "How long a weighing counts when no use is logged; else 1 d."
    )
    monitor_tested_within: PositiveDuration | None = described(
        "Longest time between two tests of a gas monitor; else 365 d."
    )
    boundary_margin: PressureDifference | None = described(
        "Margin kept to the phase boundary; else 15 bar."
    )
    waste_fill: PositiveShareAnyBasis | None = described(
        "Part of a waste vessel that may be filled; else 80 %."
    )
    two_persons_at_vessels: bool | None = described(
        "Two persons change fraction vessels; the bench card asks for both."
    )
    bottle_reserve: ShareAnyBasis | None = described(
        "Liquid beyond the need that a bottle is filled with; else 10 %."
    )
    additive_shelf_life: PositiveDuration | None = described(
        "Of a bottle with additives once opened; else 7 d for acids in alcohols and "
        "ammonia, 30 d for others."
    )
    aqueous_shelf_life: PositiveDuration | None = described(
        "Of a mostly aqueous bottle with additives; else 3 d."
    )
    ether_shelf_life: PositiveDuration | None = described(
        "Of an opened ether that forms peroxides; else 92 d, and never longer."
    )
    exposure_limits: ExposureLimits | None = None
    allowance_set: Literal["none", "pharmacopoeial", "earlier-sfc", "lab"] | None = described(
        "Allowances that transfers are held against where the method names none."
    )
    transfer_allowances: TransferAllowances | None = None
    review: ReviewThresholds | None = described("Thresholds for reviews of logbooks.")


class Lab(Document):
    """The root document of a lab folder."""

    kind: Literal["lab"]
    name: Name | None = None
    policy: Policy | None = None
    classes: tuple[ClassChange, ...] = Field(default=(), max_length=500)
    rule_folders: tuple[Name, ...] = described(
        "Folders of the lab's own rules; each check has to allow them.", ()
    )
    external_registry: bool = False
    phone: Name | None = described("Emergency contact of the lab.")
    emergency: tuple[str, ...] = described("The lab's own emergency steps.", ())
