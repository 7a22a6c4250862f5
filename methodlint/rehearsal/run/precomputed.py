"""What every rule asks of a run, computed for many runs in few calls of the mobile phase.

A call for a hundred states costs hardly less than one for a thousand: in a folder of methods most
of the time of the rules went into small calls. The results are those that each run would compute
for itself, and are kept with it in the same place.
"""

from __future__ import annotations

import contextlib
from collections.abc import Sequence

import numpy as np

from methodlint.fluids.validity import OutOfRange
from methodlint.rehearsal.run.along_column import look_at_cooling, look_at_softest
from methodlint.rehearsal.run.regulator import worst_regulator_loads
from methodlint.rehearsal.run.rehearsal import Rehearsal

__all__ = ["precompute"]


def precompute(runs: Sequence[Rehearsal]) -> None:
    """Compute what column outlet, cooling along the column and regulator are like.

    Parameters
    ----------
    runs
        Rehearsals; those without arrays are passed over.
    """
    groups: dict[int, list[Rehearsal]] = {}
    for run in runs:
        if run.done and run.time.size:
            groups.setdefault(id(run.fluid), []).append(run)
    for group in groups.values():
        if len(group) > 1:
            # What lies outside the model is told by the run that it belongs to, when asked.
            with contextlib.suppress(OutOfRange):
                _outlets(group)
                look_at_softest(group)
            with contextlib.suppress(OutOfRange):
                look_at_cooling(group)
    with_loads = [run for group in groups.values() for run in group if len(group) > 1]
    asked = [(run, run.plan.method, run.plan.instrument) for run in with_loads]
    for run, load in zip(with_loads, worst_regulator_loads(asked), strict=True):
        vars(run).setdefault("heater_load", load)


def _outlets(runs: Sequence[Rehearsal]) -> None:
    states = [run.outlet_states for run in runs]
    stacked = [np.concatenate([state[number] for state in states]) for number in range(3)]
    behind = np.cumsum([state[0].size for state in states])[:-1]
    fluid = runs[0].fluid
    found = {
        "outlet_compressibility": fluid.compressibility(*stacked),
        "outlet_expansivity": fluid.expansivity(*stacked),
    }
    for name, values in found.items():
        for run, own in zip(runs, np.split(np.asarray(values), behind), strict=True):
            vars(run).setdefault(name, own)
