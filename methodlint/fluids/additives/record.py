"""What is kept about one additive of a modifier or makeup liquid."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Literal

from methodlint.fluids.liquids.known import find_liquid

__all__ = ["FULLY_MISCIBLE", "Additive", "Kind"]

Kind = Literal["acid", "amine", "ammonium salt", "ammonia", "nonvolatile salt", "ion pair", "water"]

#: Limit of an additive that mixes with the liquid in all proportions [mol/m3].
FULLY_MISCIBLE = math.inf

#: How much more water than listed leaves a limit valid as a lower bound (volume share).
WATER_REACH = 0.10


@dataclass(frozen=True)
class Additive:
    """An additive; `None` and a missing key are "not known".

    Parameters
    ----------
    name : str
        Name used throughout.
    synonyms : tuple of str
        Other names and abbreviations.
    kind : str
        "acid", "amine", "ammonium salt", "ammonia", "nonvolatile salt", "ion pair" or "water".
    volatile : bool
        False where it leaves a solid or an oil when the liquid is gone.
    molar_mass : float or None
        [kg/mol].
    stock_density : float or None
        Density of the liquid as bought [kg/m3]; None for solids.
    stock_mass_fraction : float
        Part of the additive in the liquid as bought.
    solubility : mapping of str to float
        Limit in dry liquids [mol/m3]; `FULLY_MISCIBLE` where there is none.
    solubility_with_water : mapping of str to tuple of (share, limit)
        Limits [mol/m3] at rising volume shares of water in the liquid, water share 0 not included.
    reacts_with : frozenset of str
        Kinds of additive and families of liquids, and "carbon dioxide".
    persistent : bool
        True where a column holds it through an ordinary flush.
    usual_volume_share : tuple of float or None
        Customary levels as volume shares of the liquid.
    usual_concentration : tuple of float or None
        Customary levels [mol/m3].
    uv_shift : float or None
        How far the liquid's UV cutoff moves up at usual levels [m].
    sources : mapping of str to str
        Source by field name.
    """

    name: str
    synonyms: tuple[str, ...]
    kind: Kind
    volatile: bool
    molar_mass: float | None
    stock_density: float | None = None
    stock_mass_fraction: float = 1.0
    solubility: Mapping[str, float] = field(default_factory=dict, hash=False)
    solubility_with_water: Mapping[str, tuple[tuple[float, float], ...]] = field(
        default_factory=dict, hash=False
    )
    reacts_with: frozenset[str] = frozenset()
    persistent: bool = False
    usual_volume_share: tuple[float, float] | None = None
    usual_concentration: tuple[float, float] | None = None
    uv_shift: float | None = None
    sources: Mapping[str, str] = field(default_factory=dict, repr=False, hash=False)

    def solubility_limit(self, liquid: str, water_share: float = 0.0) -> float | None:
        """Highest concentration that stays dissolved [mol/m3 of liquid].

        Between two listed water shares the limit is interpolated.  Water helps a salt, so a limit above zero
        is kept for a tenth more water than listed; beyond that it is not known.

        Parameters
        ----------
        liquid : str
            Name or synonym of the liquid.
        water_share : float, optional
            Volume share of water in it.

        Returns
        -------
        float or None
            None if not known for this liquid.

        Raises
        ------
        ValueError
            If the share is not within 0 to 1.
        """
        if not 0.0 <= water_share <= 1.0:
            raise ValueError(f"water share {water_share} is not within 0 to 1")
        known = find_liquid(liquid)
        name = known.name if known is not None else liquid
        dry = self.solubility.get(name)
        points = list(self.solubility_with_water.get(name, ()))
        if dry is not None:
            points.insert(0, (0.0, dry))
        if not points or water_share < points[0][0]:
            return None
        for (share, limit), (next_share, next_limit) in pairwise(points):
            if water_share <= next_share:
                part = (water_share - share) / (next_share - share)
                return limit + part * (next_limit - limit)
        share, limit = points[-1]
        if limit == FULLY_MISCIBLE or water_share == share:
            return limit
        return limit if limit > 0.0 and water_share <= share + WATER_REACH else None

    @property
    def stock_concentration(self) -> float | None:
        """Concentration of the liquid as bought [mol/m3]; None for solids."""
        if self.stock_density is None or self.molar_mass is None:
            return None
        return self.stock_density * self.stock_mass_fraction / self.molar_mass
