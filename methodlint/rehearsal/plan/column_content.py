"""What fills a column when a line begins, and the programme that pushes it out.

Neat alcohol is ten times as viscous as CO2 with a fifth of it: a line whose own liquid is thin may
begin with the highest pressure of all.
"""

from __future__ import annotations

from dataclasses import dataclass

from methodlint.rehearsal.plan.programme import Programme, SetPoint, programme_from_rows

__all__ = ["Content", "pushing_programme"]

_SAME_SHARE = 0.05
_RICH = 0.5


@dataclass(frozen=True, slots=True)
class Content:
    """Mobile phase between the pumps and the regulator.

    Attributes
    ----------
    liquid
        Components of the modifier with their volume shares.
    share
        Modifier share [-]; 1 where it is neat.
    flow
        Set flow at which it was pumped in [m3/s].
    """

    liquid: tuple[tuple[str, float], ...]
    share: float
    flow: float

    def may_be_thicker(self, liquid: tuple[tuple[str, float], ...], share: float) -> bool:
        """Whether it may be more viscous than what pushes it: richer, or as rich in another liquid."""
        if not self.liquid or self.share <= 0.0:
            return False
        richer = self.share - share > _SAME_SHARE
        other = self.liquid != liquid and self.share >= max(share - _SAME_SHARE, _RICH)
        return richer or other


def pushing_programme(
    content: Content, start: SetPoint, ramp: float, length: float, mixer_volume: float
) -> Programme:
    """Constant settings that meet another content, reached from its flow within the ramp.

    Parameters
    ----------
    content
        What is pushed out.
    start
        The settings, at time 0.
    ramp
        Time in which the pumps reach their flow [s]; 0 where they step.
    length
        [s].
    mixer_volume
        [m3].
    """
    first = min(content.flow, start.flow) if ramp > 0.0 else start.flow
    before = SetPoint(0.0, content.share, first, start.outlet_pressure, start.oven_temperature)
    begins = SetPoint(0.0, start.share, first, start.outlet_pressure, start.oven_temperature)
    reached = SetPoint(ramp, start.share, start.flow, start.outlet_pressure, start.oven_temperature)
    rows = [before, begins, *([reached] if ramp > 0.0 else [])]
    return programme_from_rows(rows, max(length, ramp), 0.0, mixer_volume)
