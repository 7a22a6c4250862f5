"""Work inside one process: a long sequence, a rehearsal, transfers.

Run with the interpreter of an environment that has the package: it prints what it measured as
JSON. `python -m tests.benchmarks` does so with the wheel in the bare environment.
"""

from __future__ import annotations

import json
import os
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
sys.path.insert(0, str(Path(__file__).resolve().parent))

import rehearsal_of_a_gradient as gradient
from lab_folder import EXAMPLES
from long_sequence import lab_of_sequences, lab_of_written_lines

PAIRS = (
    ("methods/triazole-enantiomers.yaml", "bench-b", None),
    ("methods/triazole-enantiomers.yaml", "bench-c", None),
    ("methods/triazole-enantiomers.yaml", "bench-a", "cellulose-5um"),
    ("methods/triazole-enantiomers.yaml", "bench-b", "diol-3um"),
    ("sound/dye-intermediates.yaml", "bench-b", None),
    ("sound/leaf-waxes.yaml", "bench-c", None),
)


def measured(call: Callable[[], object], times: int, unseen: int = 1) -> tuple[float, float]:
    """Medians of wall and processor time [s] of a call."""
    wall, processor = [], []
    for _ in range(times + unseen):
        begin, used = time.perf_counter(), time.process_time()
        call()
        wall.append(time.perf_counter() - begin)
        processor.append(time.process_time() - used)
    return statistics.median(wall[unseen:]), statistics.median(processor[unseen:])


def sequence(lines: int) -> dict[str, Any]:
    """Whole checks of a sequence of so many lines, and of a tenth of them."""
    from methodlint import check

    found: dict[str, Any] = {}
    for form, lab_of in (("table", lab_of_sequences), ("written", lab_of_written_lines)):
        with tempfile.TemporaryDirectory() as folder:
            files = lab_of(Path(folder) / "lab", (lines // 10, lines))
            os.chdir(folder)
            tenth, whole = (measured(lambda f=file: check(f), 3) for file in files)
            found[form] = {"tenth": tenth, "whole": whole, "verdict": check(files[1]).verdict}
            os.chdir(EXAMPLES)
    return found


def rehearsal() -> dict[str, Any]:
    """A warm rehearsal and fixed numpy work, turn and turn about."""
    plan, run, slices = gradient.prepared()
    pairs = [
        (measured(lambda: gradient.rehearse(plan), 1, 0), measured(gradient.workload, 1, 0))
        for _ in range(gradient.REPEATS + 2)
    ][2:]

    def median(which: int, clock: int) -> float:
        return statistics.median(pair[which][clock] for pair in pairs)

    return {
        "times": int(run.time.size),
        "slices": slices,
        "wall": median(0, 0),
        "processor": median(0, 1),
        "best": min(pair[0][1] for pair in pairs),
        "plain": median(1, 1),
        "ratio": statistics.median(one[1] / other[1] for one, other in pairs),
    }


def transfers() -> dict[str, Any]:
    """Warm transfers of some pairs."""
    from methodlint import transfer

    os.chdir(EXAMPLES)
    found: dict[str, Any] = {}
    for method, to, column in PAIRS:
        try:
            transfer(method, to=to, column=column)
        except ValueError as error:
            found[f"{method} {to} {column}"] = str(error)
            continue
        took = measured(lambda m=method, t=to, c=column: transfer(m, to=t, column=c), 5)
        found[f"{Path(method).stem} to {to}{f' on {column}' if column else ''}"] = took
    return found


if __name__ == "__main__":
    what = {"sequence": lambda: sequence(int(sys.argv[2])), "rehearsal": rehearsal}
    what["transfers"] = transfers
    json.dump(what[sys.argv[1]](), sys.stdout)
