"""What limits a regulator setting: phase boundary, compressibility, the regulator itself."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.quantities.format import number
from methodlint.scaling.headroom import USABLE_SHARE
from methodlint.scaling.settled import Settled

__all__ = [
    "BOUNDARY_MARGIN",
    "HIGHEST_COMPRESSIBILITY",
    "SettingLimits",
    "boundary_at",
    "least_setting_for_stiffness",
    "setting_limits",
]

BOUNDARY_MARGIN = 15e5
"""Kept above the phase boundary [Pa] (common practice, no source)."""

HIGHEST_COMPRESSIBILITY = 1e-7
"""d ln(density)/dP at the column outlet, 1 %/bar [1/Pa] (common practice, no source)."""

_SHARES = 41
_PRESSURE_STEP = 1e5
_LOOK_UP_TO = 200e5


@dataclass(frozen=True, slots=True)
class SettingLimits:
    """Span of a regulator setting, and what sets its ends.

    Attributes
    ----------
    lowest, highest
        [Pa]; highest is infinite where nothing limits it.
    lowest_because, highest_because
        In words.
    boundary
        Phase boundary that was looked at [Pa]; 0 where the mobile phase never splits.
    """

    lowest: float
    highest: float
    lowest_because: str
    highest_because: str
    boundary: float

    def clamp(self, setting: float) -> float:
        """The nearest setting inside the span."""
        return min(max(setting, self.lowest), self.highest)


def boundary_at(state: Settled, w_lowest: float, w_highest: float) -> float:
    """Highest phase boundary downstream of the column over the compositions that occur [Pa].

    Parameters
    ----------
    state
        A settled state of the target; its temperatures downstream of the column count.
    w_lowest, w_highest
        Mass fractions of modifier that occur [-].
    """
    run = state.run
    start = run.slices_of(run.plan.analytical_column).stop - 1
    temperatures = np.array(sorted(set(run.temperature[0, start:].tolist())))
    w = np.linspace(w_lowest, w_highest, _SHARES)
    high = run.fluid.upper_boundary_pressure(w[:, None], temperatures[None, :])
    return float(np.max(high))


def least_setting_for_stiffness(state: Settled, limit: float, boundary: float) -> float:
    """Pressure at the column outlet from which on the mobile phase is stiff enough [Pa].

    Parameters
    ----------
    state
        Gives composition and temperature at the outlet.
    limit
        Highest compressibility [1/Pa].
    boundary
        Below it nothing is looked at [Pa].
    """
    run = state.run
    end = run.slices_of(run.plan.analytical_column).stop - 1
    begin = max(boundary, 60e5) + 0.5e5
    pressures = np.arange(begin, begin + _LOOK_UP_TO, _PRESSURE_STEP)
    found = run.fluid.compressibility(run.w_modifier[0, end], run.temperature[0, end], pressures)
    too_soft = np.flatnonzero(found > limit)
    return 0.0 if too_soft.size == 0 else float(pressures[too_soft[-1]] + _PRESSURE_STEP)


def setting_limits(
    target: Settled,
    source: Settled,
    instrument: Instrument,
    w_span: tuple[float, float],
    margin: float = BOUNDARY_MARGIN,
    usable: float = USABLE_SHARE,
) -> SettingLimits:
    """Span of the regulator setting at one corner.

    Parameters
    ----------
    target, source
        Settled states of the corner; where the source itself runs softer than the usual limit of
        compressibility, its own is the limit.
    w_span
        Lowest and highest mass fraction of modifier that occur around this corner [-].
    margin
        Kept above the phase boundary [Pa].
    usable
        Share of the rating of a part downstream of the column that may be used; what a part beyond it
        means for a method that is written already is said by the rules of that part.
    """
    regulator = instrument.regulator
    boundary = boundary_at(target, *w_span)
    # From the regulator to the column outlet something is lost: the outlet stands higher.
    behind = target.outlet_pressure - target.row.outlet_pressure
    allowed = max(HIGHEST_COMPRESSIBILITY, source.outlet_compressibility * 1.001)
    stiff = least_setting_for_stiffness(target, allowed, boundary) - behind
    candidates = [(0.0, "nothing")]
    if boundary > 0.0:
        candidates.append((boundary + margin, _margin_words(boundary, margin)))
    candidates.append(
        (stiff, f"compressibility at the column outlet, at most {number(allowed * 1e7, 2)} %/bar")
    )
    if regulator is not None and regulator.lowest is not None:
        candidates.append((regulator.lowest.si, "the lowest pressure that the regulator controls"))
    lowest, low_words = max(candidates, key=lambda item: item[0])
    tops: list[tuple[float, str]] = [(float("inf"), "nothing")]
    if regulator is not None and regulator.highest is not None:
        tops.append((regulator.highest.si, "the highest pressure that the regulator controls"))
    tops += _ratings(instrument, "regulator")
    tops += [
        (
            # What the source itself runs with may be kept, up to the rating.
            max(usable * rating, min(rating, source.outlet_pressure)) - max(behind, 0.0),
            f"nine tenths of the rating of the {name}" if usable < 1.0 else f"the rating of {name}",
        )
        for rating, name in _behind_column(instrument)
    ]
    highest, high_words = min(tops, key=lambda item: item[0])
    return SettingLimits(lowest, highest, low_words, high_words, boundary)


def _margin_words(boundary: float, margin: float) -> str:
    return f"{margin / 1e5:.0f} bar above the phase boundary of {boundary / 1e5:.0f} bar"


def _behind_column(instrument: Instrument) -> Sequence[tuple[float, str]]:
    """Ratings of the parts between column and regulator, which stand at or above the setting."""
    parts = [item for item in instrument.train if not item.bypassed]
    kinds = [item.part for item in parts]
    if "column" not in kinds or "regulator" not in kinds:
        return []
    between = parts[kinds.index("column") + 1 : kinds.index("regulator")]
    return [
        (item.pressure_rating.si, item.name or item.part)
        for item in between
        if item.pressure_rating is not None
    ]


def _ratings(instrument: Instrument, part: str) -> Sequence[tuple[float, str]]:
    return [
        (item.pressure_rating.si, f"the rating of the {part}")
        for item in instrument.train
        if item.part == part and item.pressure_rating is not None
    ]
