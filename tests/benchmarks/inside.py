"""Work inside one process of the bare environment, see `warm`; and a cold transfer."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path
from typing import Any

from tests.benchmarks.figure import Figure, ms
from tests.benchmarks.measuring import Program, environment, in_turn
from tests.benchmarks.places import EXAMPLES, Places

_WARM = Path(__file__).with_name("warm.py")


def figures(places: Places) -> list[Figure]:
    """Measure all of them."""
    return [*_sequences(places), _rehearsal(places), *_transfers(places)]


def _told(places: Places, *words: str) -> Any:
    command = [str(places.ours / "python"), str(_WARM), *words]
    done = subprocess.run(command, env=environment(), stdout=subprocess.PIPE, check=True)
    return json.loads(done.stdout)


def _sequences(places: Places) -> list[Figure]:
    lines = 1_000 if places.quick else 10_000
    told = _told(places, "sequence", str(lines))
    words = {"table": "its lines in a table", "written": "every line written out in YAML"}
    found = []
    for form, times in told.items():
        (wall, used), (_, tenth) = times["whole"], times["tenth"]
        found.append(
            Figure(
                f"check of a sequence of {lines:,} lines, {words[form]}",
                f"one of {lines // 10:,} lines: {used / tenth:.1f} x",
                ms(used),
                "at most 3 s",
                used <= 3.0,
                f"start to end {ms(wall)}",
            )
        )
    return found


def _rehearsal(places: Places) -> Figure:
    told = _told(places, "rehearsal")
    return Figure(
        f"warm rehearsal of a 15-minute gradient, {told['times']} times x {told['slices']} slices",
        f"fixed numpy work: {told['ratio']:.2f} x",
        ms(told["processor"]),
        "at most 15 ms",
        told["processor"] <= 0.015,
        f"best {ms(told['best'])}, start to end {ms(told['wall'])}; "
        f"the fixed work {ms(told['plain'])}",
    )


def _transfers(places: Places) -> list[Figure]:
    told = _told(places, "transfers")
    slowest = max(told, key=lambda pair: told[pair][1])
    words = [
        "transfer", "methods/triazole-enantiomers.yaml", "--to", "bench-b", "--column", "diol-3um",
    ]  # fmt: skip
    cold = Program([places.methodlint, *words], EXAMPLES, statuses=(0, 1, 4))
    bare = Program([places.ours / "python", "-c", "pass"], EXAMPLES)
    times = in_turn(cold, bare, times=places.turns(7))
    return [
        Figure(
            f"warm `methodlint.transfer`, slowest of {len(told)} pairs: {slowest}",
            "-",
            ms(told[slowest][1]),
            "at most 200 ms",
            told[slowest][1] <= 0.2,
            ", ".join(f"{pair} {ms(took[1])}" for pair, took in told.items()),
        ),
        Figure(
            "cold `methodlint transfer`",
            "an interpreter that does nothing",
            ms(times.processor()),
            "at most 2 s",
            times.processor() <= 2.0,
            f"start to end {ms(times.wall())}",
        ),
    ]
