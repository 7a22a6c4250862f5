"""Everything that is promised about speed, measured in one run.

python -m tests.benchmarks                    measures and writes RESULTS.md
python -m tests.benchmarks cold folders       measures these parts and prints them
python -m tests.benchmarks --quick            fewer turns, small folders: do the scripts work?
python -m tests.benchmarks --folder FOLDER    keeps environments and folders there for next time

Needs the network once, for an environment with `check-jsonschema` and `yamllint`. Two things that
are compared take turns, and the medians are told; nothing here passes or fails.
"""

from __future__ import annotations

import argparse
import dataclasses
import datetime
import json
import os
import platform
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

from tests.benchmarks import cold, folders, inside
from tests.benchmarks.figure import Figure
from tests.benchmarks.places import prepare

PARTS = {"cold": cold, "inside": inside, "folders": folders}
RESULTS = Path(__file__).with_name("RESULTS.md")


def machine() -> str:
    """Processor, cores, system, interpreter, and what else the machine did."""
    name = platform.processor() or platform.machine()
    information = Path("/proc/cpuinfo")
    if information.is_file():
        for line in information.read_text("utf-8", "replace").splitlines():
            if line.startswith("model name"):
                name = line.partition(":")[2].strip()
                break
    load = f", load {os.getloadavg()[0]:.1f}" if hasattr(os, "getloadavg") else ""
    return (
        f"{name}, {os.cpu_count()} cores{load}; {platform.system()}, "
        f"Python {platform.python_version()}"
    )


def rows(figures: Sequence[Figure]) -> list[str]:
    """Lines of the table in markdown."""
    lines = ["| what | compared with | found | wanted |", "| --- | --- | --- | --- |"]
    for one in figures:
        mark = "" if one.reached else " **not reached**"
        lines.append(f"| {one.what} | {one.against} | {one.found}{mark} | {one.wanted} |")
    return lines


def results(figures: Sequence[Figure], before: str, after: str) -> str:
    """The whole page of results."""
    day = datetime.datetime.now(datetime.UTC).date().isoformat()
    lost = sum(not one.reached for one in figures)
    lines = [
        "# How fast it is",
        "",
        "Written by `python -m tests.benchmarks`; see there for what is done.",
        "",
        f"- date: {day}",
        f"- machine at the start: {before}",
        f"- at the end: {after}",
        f"- reached: {len(figures) - lost} of {len(figures)}",
        "",
        "Compared things took turns; medians. Ratios of two programs on one core, and times with",
        "a limit, are processor times: from start to end they depend on what else the machine",
        "does, and are told beside them. What workers gain is told from start to end.",
        "",
        *rows(figures),
        "",
        "The times behind them:",
        "",
        *(f"- {one.what}: {one.detail}" for one in figures if one.detail),
    ]
    return "\n".join(lines) + "\n"


def main(words: Sequence[str] | None = None) -> int:
    """Measure, print, and write if everything was measured."""
    reader = argparse.ArgumentParser(prog="python -m tests.benchmarks")
    reader.add_argument("parts", nargs="*", choices=[[], *PARTS], metavar="PART")
    reader.add_argument("--quick", action="store_true")
    reader.add_argument("--folder", type=Path)
    asked = reader.parse_args(words)
    with tempfile.TemporaryDirectory() as scratch:
        places = prepare((asked.folder or Path(scratch)).absolute(), quick=asked.quick)
        before = machine()
        figures: list[Figure] = []
        for name in asked.parts or PARTS:
            for one in PARTS[name].figures(places):
                mark = " " if one.reached else "!"
                print(f"{mark} {one.what}\n    {one.found} ({one.wanted}); against {one.against}")
                print(f"    {one.detail}", flush=True)
                figures.append(one)
                # what is known so far outlives a run that is broken off
                kept = json.dumps([before, *(dataclasses.asdict(each) for each in figures)])
                (places.folder / "figures.json").write_text(kept, encoding="utf-8")
    if asked.parts or asked.quick:
        return 0
    RESULTS.write_text(results(figures, before, machine()), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
