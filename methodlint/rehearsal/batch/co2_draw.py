"""The CO2 that a sequence takes, injection by injection."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Co2Draw:
    """CO2 taken over a sequence: plain figures, without the runs that they come from.

    Attributes
    ----------
    demand
        Of the whole sequence [kg].
    starts
        Clock [s] and CO2 [kg] used until the start of every injection.
    duration
        Of the sequence [s].
    band
        Relative half width of the mass beside that of the pump [-].
    """

    demand: float
    starts: tuple[tuple[float, float], ...]
    duration: float
    band: float = 0.0

    def injection_when_used(self, mass: float) -> int | None:
        """Number of the injection during which this much CO2 [kg] has been taken.

        Returns
        -------
        int or None
            0 if it happens before the first injection, None if it never happens.
        """
        if mass >= self.demand:
            return None
        number = 0
        for count, (_, used) in enumerate(self.starts, start=1):
            if used > mass:
                break
            number = count
        return number

    def clock_of(self, injection: int | None) -> float | None:
        """Clock [s] at the start of an injection; the end of the sequence after the last one."""
        if injection is None:
            return None
        if injection > len(self.starts):
            return self.duration
        return self.starts[injection - 1][0] if injection > 0 else 0.0
