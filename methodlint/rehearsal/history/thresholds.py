"""From which change on a review says something; labs set them in their policy."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Thresholds"]


@dataclass(frozen=True, slots=True)
class Thresholds:
    """Shares by which something has to change before it is reported.

    All of them are common practice, no source.

    Attributes
    ----------
    first_runs
        Readings that set the level of all later ones.
    resistance_change
        Of a column, either way [-].
    plates_loss
        Of the plates at first [-].
    retention_change
        Of the retention time at first, either way [-].
    co2_difference
        Of the CO2 that was predicted [-], beside what the scale may be off.
    """

    first_runs: int = 5
    resistance_change: float = 0.15
    plates_loss: float = 0.25
    retention_change: float = 0.03
    co2_difference: float = 0.10
