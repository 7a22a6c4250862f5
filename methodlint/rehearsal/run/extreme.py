"""A worst value of a run with its time and band."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Extreme:
    """A worst value with its time and band.

    Attributes
    ----------
    value
        In SI.
    band
        How far above the true value may lie, in the same unit.
    time
        [s] from the start of the run.
    below
        How far below it may lie; as far as above where it is None.
    """

    value: float
    band: float
    time: float
    below: float | None = None

    @property
    def band_words(self) -> str:
        """Both ends of the band of a pressure: ``band -63 to +52 bar``."""
        return pressure_band_words(self.band if self.below is None else self.below, self.band)


def pressure_band_words(below: float, above: float) -> str:
    """Both ends of the band of a pressure [Pa] in words."""
    low, high = (f"{end:.0f}" if end > 9.95 else f"{end:.2g}" for end in (below / 1e5, above / 1e5))
    return f"band +-{high} bar" if low == high else f"band -{low} to +{high} bar"
