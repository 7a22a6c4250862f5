"""How long the rehearsal of a 15-minute gradient takes, as a ratio to fixed numpy work.

python -m tests.benchmarks.rehearsal_of_a_gradient

Prints the median time of a warm rehearsal (at least 100 times x 30 slices in the column), that of
a workload of plain numpy in the same run, and the ratio of both, which is what to compare between
machines and versions. Nothing here passes or fails.
"""

from __future__ import annotations

import statistics
import sys
import time
from collections.abc import Callable

import numpy as np

from methodlint.rehearsal.plan.run_plan import RunPlan, plan_run
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.rehearse import rehearse
from methodlint.rulebook.examples import lab_with

GRADIENT = """
kind: method
programme:
  - {time: 0 min, modifier_share: 3 % v/v}
  - {time: 2 min, modifier_share: 3 % v/v}
  - {time: 12 min, modifier_share: 45 % v/v}
  - {time: 13 min, modifier_share: 45 % v/v}
  - {time: 13.5 min, modifier_share: 3 % v/v}
run_length: 15 min
settling_time: 4 min
"""
REPEATS = 25


def workload() -> float:
    """Logarithms, a product of matrices and gathers: what the physics is made of."""
    points = np.linspace(1.0, 2.0, 200 * 48).reshape(200, 48)
    place = np.arange(points.size).reshape(points.shape)[:, ::-1]
    total = 0.0
    for _ in range(120):
        values = np.exp(np.log(points) * 1.01) + np.sqrt(points)
        values = values.ravel()[place] @ (values.T[:, :48] * 1e-6)
        total += float(np.cumsum(values, axis=1)[-1, -1])
    return total


def timed(call: Callable[[], object]) -> float:
    """Time of one call [s]."""
    begin = time.perf_counter()
    call()
    return time.perf_counter() - begin


def prepared() -> tuple[RunPlan, Rehearsal, int]:
    """The plan, one rehearsal of it, and how many slices its column has."""
    documents = lab_with(GRADIENT)
    plan = plan_run(documents["method"], (documents["column"],), documents["instrument"])
    run = rehearse(plan)
    bed = run.slices_of(plan.analytical_column)
    return plan, run, bed.stop - bed.start


def main() -> int:
    """Measure and print."""
    plan, run, slices = prepared()
    if run.time.size < 100 or slices < 30:
        print(f"only {run.time.size} times x {slices} slices", file=sys.stderr)
        return 1
    # turn and turn about: whatever else the machine does meets both alike
    pairs = [(timed(lambda: rehearse(plan)), timed(workload)) for _ in range(REPEATS + 2)][2:]
    physics, plain = (statistics.median(column) for column in zip(*pairs, strict=True))
    ratio = statistics.median(one / other for one, other in pairs)
    print(f"rehearsal: {run.time.size} times x {run.volume.size} places ({slices} in the column)")
    print(f"  warm, median of {REPEATS}: {1e3 * physics:8.2f} ms")
    print(f"fixed numpy work:        {1e3 * plain:8.2f} ms")
    print(f"ratio:                   {ratio:8.2f}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
