"""Folders of many methods that share cards: against a reader of YAML, with workers, again."""

from __future__ import annotations

import shutil
import statistics
import subprocess
from collections.abc import Iterator
from pathlib import Path

from tests.benchmarks.cold import both
from tests.benchmarks.figure import Figure, ms
from tests.benchmarks.lab_folder import Kind, lab_of_methods
from tests.benchmarks.measuring import Program, SideBySide, environment, in_turn, on_one_core
from tests.benchmarks.places import Places

_WORDS: dict[Kind, str] = {
    "gradient": "gradients",
    "constant": "methods of constant composition",
    "faulty": "gradients with faults, remedies computed",
}


def figures(places: Places) -> Iterator[Figure]:
    """Measure all of them."""
    few, many = (50, 200) if places.quick else (1_000, 10_000)
    for kind in ("gradient", "constant"):
        yield _against_a_reader(places, kind, few)
    yield _again(places, few)
    yield from _ten_times(places, few, many)
    yield _against_a_reader(places, "faulty", few)


def _lab(places: Places, kind: Kind, count: int) -> Path:
    folder = places.folder / "labs" / f"{kind}-{count}"
    shutil.rmtree(folder, ignore_errors=True)
    lab_of_methods(folder, count, kind)
    return folder


def _against_a_reader(places: Places, kind: Kind, count: int) -> Figure:
    lab = _lab(places, kind, count)
    ours = Program(on_one_core([places.methodlint, "check", "methods"]), lab)
    reader = on_one_core([places.theirs / "yamllint", "-d", "relaxed", "methods"])
    times = in_turn(
        ours, Program(reader, lab), times=places.turns(5) if kind != "faulty" else 1, unseen=0
    )
    return Figure(
        f"{count:,} methods of 1 kB that share cards, one core, physics included: {_WORDS[kind]}",
        "a YAML style check of the same files",
        f"{times.processor_ratio:.2f} x",
        "less than 1 x" if kind != "faulty" else "no target",
        times.processor_ratio < 1.0 or kind == "faulty",
        both(times),
    )


def _ten_times(places: Places, few: int, many: int) -> list[Figure]:
    large = _lab(places, "gradient", many)
    one = Program([places.methodlint, "check", "methods"], large)
    two = Program([places.methodlint, "check", "methods", "--workers", "2"], large)
    small = Program([places.methodlint, "check", "methods"], _lab(places, "gradient", few))
    # The small folder three times: its few seconds vary more than the minute of the large one.
    pair = in_turn(one, two, small, SideBySide(one), small, small, times=1, unseen=0)
    tenth = statistics.median(pair.processor(number) for number in (2, 4, 5))
    # What a second core is worth here: often far less than another one of the first.
    machine = 2.0 * pair.wall() / pair.wall(3)
    factor = many / few
    linear = pair.processor() / tenth
    peak = pair.memory()
    return [
        Figure(
            f"two workers on {many:,} methods, their start included",
            "one process",
            f"{pair.ratio:.2f} x faster; {machine:.2f} x is what the machine gives to two checks "
            "side by side that share nothing",
            "at least 1.7 x",
            pair.ratio >= 1.7,
            f"{ms(pair.wall())} against {ms(pair.wall(1))}; processor time "
            f"{ms(pair.processor())} against {ms(pair.processor(1))}; two whole checks at the same "
            f"time {ms(pair.wall(3))}",
        ),
        Figure(
            f"{many:,} methods",
            f"{few:,} methods, processor time",
            f"{linear:.2f} x",
            f"at most {1.05 * factor:g} x",
            linear <= 1.05 * factor,
            f"{ms(pair.processor())} against {ms(tenth)}, median of three",
        ),
        Figure(
            f"memory at {many:,} methods, largest process",
            f"that at {few:,} methods",
            f"{peak / 1e6:.0f} MB",
            "at most 400 MB",
            peak <= 400e6,
            f"{peak / 1e6:.0f} MB against {pair.memory(2) / 1e6:.0f} MB; with two workers "
            f"{pair.memory(1) / 1e6:.0f} MB",
        ),
    ]


def _again(places: Places, count: int) -> Figure:
    lab, cache = _lab(places, "gradient", count), places.folder / "cache"
    shutil.rmtree(cache, ignore_errors=True)
    command = [places.methodlint, "check", "methods", "--show", "json"]
    fresh, kept = [*command, "--cache", "off"], [*command, "--cache", cache]

    def said(words: list[str | Path]) -> bytes:
        asked = [str(word) for word in words]
        return subprocess.run(
            asked, cwd=lab, env=environment(), stdout=subprocess.PIPE, check=False
        ).stdout

    same = said(fresh) == said(kept) == said(kept)
    times = in_turn(Program(fresh, lab), Program(kept, lab), times=2, unseen=0)
    return Figure(
        f"an unchanged folder of {count:,} methods again",
        "the same check made afresh",
        f"{times.ratio:.0f} x faster, {'the same bytes' if same else 'OTHER BYTES'}",
        "at least 10 x, the same bytes",
        times.ratio >= 10.0 and same,
        f"{ms(times.wall())} against {ms(times.wall(1))}",
    )
