"""Water in the modifier against what stays dissolved, place by place from the column outlet on."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from methodlint.fluids.liquids.known import find_liquid
from methodlint.fluids.mixtures import water_limit
from methodlint.rehearsal.plan.surroundings import AMBIENT
from methodlint.rehearsal.run.phase_places import PhasePlace, places_before_regulator
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.states import FloatArray

__all__ = ["WaterShare", "volume_share_of_water", "water_closest_to_limit"]


_SAME = 1e-3
"""Relative difference below which the first of two places is named."""


@dataclass(frozen=True, eq=False)
class WaterShare:
    """Where and when water in the modifier comes closest to forming a second liquid phase.

    Attributes
    ----------
    place, row
        Place, and row of the rehearsal.
    share, limit
        Water in the modifier by moles, and the highest share without a second phase [-].
    band
        How far below the limit two phases may already form, relative to it [-].
    validated
        Whether tie lines were measured with this modifier around this state.
    excess
        Share minus the lower end of the band over time [-], shape (R,).
    """

    place: PhasePlace
    row: int
    share: float
    limit: float
    band: float
    validated: bool
    excess: FloatArray

    @property
    def certain(self) -> bool:
        """Whether the share is above the limit itself."""
        return self.share > self.limit


def water_closest_to_limit(run: Rehearsal, water: float) -> WaterShare | None:
    """Compare water in the modifier with what stays dissolved.

    Parameters
    ----------
    run
        The rehearsal.
    water
        Share of water in the modifier by volume [-].

    Returns
    -------
    WaterShare or None
        None where water stays dissolved with its band everywhere. Where the mixture without
        water has two phases, they are reported as such.
    """
    share = _mole_share(run, water)
    organic = tuple(liquid.name for liquid in run.fluid.modifier.liquids if liquid.name != "water")
    worst: WaterShare | None = None
    for place in run.ask(places_before_regulator):
        x2 = run.fluid.modifier_mole_fraction(place.w_modifier)
        limit = water_limit.highest_water_share(x2, place.temperature, place.pressure, place.margin)
        counts = (place.margin > 0.0) & (run.set_flow > 0.0) & (x2 > 0.0)
        if not counts.any():
            continue
        load = np.where(counts, share / np.maximum(limit, 1e-9), 0.0)
        row = int(np.argmax(load))
        state = float(place.temperature[row]), float(place.pressure[row])
        validated = water_limit.is_validated(organic, *state)
        band = water_limit.BAND if validated else water_limit.BAND_NOT_VALIDATED
        excess = np.where(counts, share - (1.0 - band) * limit, -share)
        if excess[row] <= 0.0:
            continue
        found = WaterShare(place, row, share, float(limit[row]), band, validated, excess)
        if worst is None or found.limit < (1.0 - _SAME) * worst.limit:
            worst = found
    return worst


def _molar_volume(run: Rehearsal) -> float:
    """Of the modifier without its water [m3/mol]."""
    modifier = run.fluid.modifier
    parts = [
        (fraction, fraction * liquid.molar_mass / float(liquid.density(AMBIENT)))
        for fraction, liquid in zip(modifier.mole_fractions, modifier.liquids, strict=True)
        if liquid.name != "water" and liquid.density is not None
    ]
    return sum(volume for _, volume in parts) / sum(fraction for fraction, _ in parts)


def _of_water() -> float:
    water = find_liquid("water")
    assert water is not None and water.density is not None
    return water.molar_mass / float(water.density(AMBIENT))


def _mole_share(run: Rehearsal, by_volume: float) -> float:
    moles = by_volume / _of_water()
    return moles / (moles + (1.0 - by_volume) / _molar_volume(run))


def volume_share_of_water(run: Rehearsal, by_moles: float) -> float:
    """Share of water in the modifier by volume [-] for a share by moles [-]."""
    volume = by_moles * _of_water()
    return volume / (volume + (1.0 - by_moles) * _molar_volume(run))
