"""Which mixture model stands for a modifier as written in a method.

Rules for blends (ours; no measured boundary of a blend was at hand):

- Methanol, ethanol, 2-propanol and acetonitrile may be blended. The boundary of the blend is the
  mean, by mole fraction within the modifier, of the boundaries of its components at the same
  stretched composition (see `boundary`); its band is 3 bar wider.
- A share below 2 % by volume of anything else (water, acids, amines, salts) is ignored.
- Water from 2 to 10 % by volume counts with its own volume, viscosity and heat capacity, but
  towards carbon dioxide as the liquid it is dissolved in. The band of the boundary grows by 2 bar
  per per cent of water, that of density by 0.2 %, that of viscosity by 1 %. Where water forms a
  second liquid phase, whatever the pressure, is the subject of `water_limit`.
- Everything else has no model; nor has a modifier with 5 % or more of ignored substances in all.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from methodlint.fluids.liquids.known import LiquidRecord, find_liquid, normalised_name
from methodlint.fluids.mixtures.boundary import PhaseBoundary, load_boundary
from methodlint.fluids.mixtures.interaction_parameters import PAIRS, PairParameters
from methodlint.fluids.mixtures.mixture import MixtureModel, PureCarbonDioxide
from methodlint.fluids.mixtures.modifier_liquid import ModifierLiquid

IGNORED_SHARE = 0.02
HIGHEST_WATER_SHARE = 0.10
_ROOM_TEMPERATURE = 293.15
_CARBON_DIOXIDE = frozenset(normalised_name(n) for n in ("carbon dioxide", "CO2", "124-38-9"))


def is_carbon_dioxide(name: str) -> bool:
    """Whether a name is one of carbon dioxide."""
    return normalised_name(name) in _CARBON_DIOXIDE


@lru_cache(maxsize=256)
def model_for(modifier: str | tuple[tuple[str, float], ...]) -> MixtureModel | None:
    """Model of carbon dioxide with a modifier.

    Parameters
    ----------
    modifier : str or tuple of (str, float)
        Name of a liquid (any synonym), "carbon dioxide", or the components of a blend with their
        volume shares [-].

    Returns
    -------
    MixtureModel or None
        None where there is no model; the rule is told above.
    """
    if isinstance(modifier, str):
        if is_carbon_dioxide(modifier):
            return PureCarbonDioxide(
                "carbon dioxide",
                _modifier({"methanol": 1.0}, 0.0),
                load_boundary("methanol"),
                viscosity_band=0.03,
            )
        modifier = ((modifier, 1.0),)
    total = sum(share for _, share in modifier)
    if not total > 0.0:
        return None
    shares: dict[str, float] = {}
    water = 0.0
    ignored: list[str] = []
    for name, share in modifier:
        share = share / total
        liquid = find_liquid(name)
        if liquid is not None and liquid.name in PAIRS:
            shares[liquid.name] = shares.get(liquid.name, 0.0) + share
        elif liquid is not None and liquid.name == "water":
            water += share
        elif share < IGNORED_SHARE:
            ignored.append(name)
        else:
            return None
    if not shares or water > HIGHEST_WATER_SHARE + 1e-9 or _sum_ignored(modifier) >= 0.05:
        return None
    if water < IGNORED_SHARE:
        if water > 0.0:
            ignored.append("water")
        water = 0.0
    organic = sum(shares.values())
    scale = (1.0 - water) / organic
    shares = {name: share * scale for name, share in sorted(shares.items())}
    return _model(shares, water, tuple(ignored))


def _sum_ignored(modifier: tuple[tuple[str, float], ...]) -> float:
    total = sum(share for _, share in modifier)
    out = 0.0
    for name, share in modifier:
        liquid = find_liquid(name)
        if liquid is None or (liquid.name not in PAIRS and liquid.name != "water"):
            out += share / total
    return out


def _moles(liquid: LiquidRecord, share: float) -> float:
    assert liquid.density is not None
    return share * float(liquid.density(_ROOM_TEMPERATURE)) / liquid.molar_mass


def _known(name: str) -> LiquidRecord:
    liquid = find_liquid(name)
    if liquid is None:
        raise LookupError(f"{name} has parameters but is missing from the table of liquids")
    return liquid


def _modifier(shares: dict[str, float], water: float) -> ModifierLiquid:
    liquids = [_known(name) for name in shares]
    pairs: list[PairParameters] = [PAIRS[name] for name in shares]
    moles = [_moles(liquid, share) for liquid, share in zip(liquids, shares.values(), strict=True)]
    if water > 0.0:
        liquids.append(_known("water"))
        pairs.append(PAIRS[max(shares, key=lambda name: shares[name])])
        moles.append(_moles(liquids[-1], water))
    total = sum(moles)
    return ModifierLiquid(tuple(liquids), tuple(pairs), tuple(m / total for m in moles))


def _blended(boundaries: list[PhaseBoundary], weights: list[float]) -> PhaseBoundary:
    if len(boundaries) == 1:
        return boundaries[0]
    first = boundaries[0]

    def mean(name: str) -> np.typing.NDArray[np.float64]:
        parts = (w * getattr(b, name) for w, b in zip(weights, boundaries, strict=True))
        return np.asarray(sum(parts))

    return PhaseBoundary(
        first.temperature,
        mean("critical_composition"),
        mean("leanest_composition"),
        mean("upper"),
        mean("lower"),
        first.retrograde_nodes,
    )


def _model(shares: dict[str, float], water: float, ignored: tuple[str, ...]) -> MixtureModel:
    modifier = _modifier(shares, water)
    organic = modifier.mole_fractions[: len(shares)]
    weights = [f / sum(organic) for f in organic]
    notes = [f"{name} below 2 % ignored" for name in ignored]
    if water > 0.0:
        notes.append(f"{100 * water:.0f} % water: bands widened")
    if len(shares) > 1:
        notes.append("boundary of the blend is the mean of its components")
    names = list(shares) + (["water"] if water > 0.0 else [])
    return MixtureModel(
        name=" + ".join(names),
        modifier=modifier,
        boundary=_blended([load_boundary(name) for name in shares], weights),
        boundary_of=tuple(shares),
        viscosity_band=0.15 + water,
        extra_boundary_band=(3e5 if len(shares) > 1 else 0.0) + 2e5 * 100.0 * water,
        # No independent model was at hand for acetonitrile.
        extra_density_band=0.2 * water + (0.01 if "acetonitrile" in shares else 0.0),
        note="; ".join(notes),
    )
