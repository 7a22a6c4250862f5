"""How much mobile phase a column needs before it is ready for the next injection."""

from __future__ import annotations

import numpy as np

from methodlint.documents.kinds.base import Liquid
from methodlint.fluids.additives.known import find_additive
from methodlint.rehearsal.run.rehearsal import Rehearsal

COLUMN_VOLUMES = 5.0
COLUMN_VOLUMES_WITH_ADDITIVE = 10.0
COLUMN_VOLUMES_WITH_ADDITIVE_LEAN = 20.0
"""Hold-up volumes needed; numbers: common practice, no source. That an additive makes it much
longer, above all in a lean mobile phase: studies of additives in SFC (abstract only)."""

LEAN = 0.05
"""Starting share below which an additive takes longest [v/v]."""


def holds_additive(liquid: Liquid | None) -> bool:
    """Whether a liquid holds an additive that the column takes up; water does not count."""
    if liquid is None:
        return False
    found = [find_additive(item.additive) for item in liquid.additives]
    return any(additive is None or additive.kind != "water" for additive in found)


def column_volumes_wanted(*, additive: bool, start_share: float) -> float:
    """Hold-up volumes of starting mobile phase that a column wants after a gradient."""
    if not additive:
        return COLUMN_VOLUMES
    return COLUMN_VOLUMES_WITH_ADDITIVE_LEAN if start_share < LEAN else COLUMN_VOLUMES_WITH_ADDITIVE


def equilibration_volume(run: Rehearsal, column_volumes: float) -> float:
    """Volume at the pumps [m3]: the dwell volume, then so many hold-up volumes."""
    return run.dwell_volume + column_volumes * run.hold_up_volume


def return_to_start(run: Rehearsal) -> float | None:
    """Time from which the pumps deliver the starting composition until the cycle ends.

    Returns
    -------
    float or None
        [s]; 0 if the composition never changes, None if it does not come back.
    """
    programme = run.programme
    differs = np.flatnonzero(np.abs(programme.share - programme.share[0]) > 1e-9)
    if differs.size == 0:
        return 0.0
    last = int(differs[-1])
    return float(programme.time[last + 1]) if last + 1 < programme.time.size else None


def pumped_after(run: Rehearsal, time: float) -> float:
    """Volume pumped from this time to the end of the cycle [m3]."""
    programme = run.programme
    return float(programme.pumped_volume(programme.cycle) - programme.pumped_volume(time))
