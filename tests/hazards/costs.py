"""What the dearest inputs cost, each in a process of its own: time and memory."""

from __future__ import annotations

import functools
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.hazards.hostile_lab import ROOT, bombs
from tests.hazards.long_lists import LISTS, lab_with
from tests.hazards.workbooks import hostile_workbooks

_MEASURE = """
import resource, sys, time
def peak():
    # The peak that `resource` tells begins with that of the process that started this one.
    try:
        with open("/proc/self/status") as status:
            return next(int(line.split()[1]) for line in status if line.startswith("VmHWM"))
    except (OSError, StopIteration):
        return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
from methodlint.documents.text.limits import DOCUMENT, SEQUENCE
from methodlint.documents.loading import load
from methodlint.documents.text.reader import read_text
load(read_text(b"kind: method\\nruns_on: [1]\\n", "x"), "x", "x")
load(read_text(b"kind: sequence\\nlines: [1]\\n", "x"), "x", "x")
data = sys.stdin.buffer.read()
before = peak()
begin = time.process_time()
read = read_text(data, "x.yaml", limits=SEQUENCE if b"kind: sequence" in data[:30] else DOCUMENT)
loaded = load(read, "x.yaml", "x") if read.root is not None else None
took = time.process_time() - begin
after = peak()
print(took, (after - before) / 1024, loaded is None)
"""


@functools.cache
def worst_inputs() -> dict[str, str]:
    """Documents below 2 MiB that cost much: bombs, and very many of whatever is allowed."""
    found = {name: f"kind: method\n{text}" for name, text in bombs().items()}
    found |= {
        "list-of-numbers": "kind: sequence\nlines: [" + "1," * 90_000 + "]\n",
        "lines-without-kind": "kind: sequence\nlines: [" + "{}," * 60_000 + "]\n",
        "wrong-words": "kind: sequence\nlines:\n" + "- {kind: sampel, methd: x}\n" * 30_000,
        "sound-lines": "kind: sequence\nlines:\n" + "- {kind: sample, method: x}\n" * 30_000,
        "programme": "kind: method\nprogramme:\n" + "- {time: 1, flow: 1.5}\n" * 30_000,
        "names": "kind: method\nruns_on: [" + "x," * 150_000 + "]\n",
        "hidden": "kind: method\n" + "".join(f"x-{n}: '\u202e'\n" for n in range(60_000)),
        "own-keys": "kind: method\n" + "".join(f"x-{n}: 1\n" for n in range(60_000)),
    }
    return {name: text for name, text in found.items() if len(_bytes(text)) <= 2 * 2**20}


_MEASURE_WORKBOOK = """
import sys, time
from methodlint.documents.tables.lines import lines_of
from methodlint.documents.tables.workbook import read_workbook
def peak():
    with open("/proc/self/status") as status:
        return next(int(line.split()[1]) for line in status if line.startswith("VmHWM"))
data = sys.stdin.buffer.read()
begin = time.process_time()
grid = read_workbook(data, "x.xlsx", None)
took = time.process_time() - begin
after = peak()
print(took, after / 1024, bool(grid.problems))
"""


def _bytes(text: str) -> bytes:
    return text.encode("utf-8", "surrogateescape")


def costs_of(name: str) -> tuple[float, float, bool]:
    """Processor time [s] and memory [MiB] that reading takes, and whether it was refused."""
    return _measured(_MEASURE, _bytes(worst_inputs()[name]))


def workbook_costs_of(name: str) -> tuple[float, float, bool]:
    """Processor time [s] of reading a workbook, memory [MiB] of the whole process, and whether refused."""
    return _measured(_MEASURE_WORKBOOK, hostile_workbooks()[name])


def list_costs_of(name: str) -> float:
    """Processor time [s] of checking documents with a list of very many entries."""
    from methodlint.checking.check import check

    with tempfile.TemporaryDirectory() as folder:
        file = lab_with(Path(folder) / "lab", name, LISTS[name][3])
        begin = time.process_time()
        check(file)
        return time.process_time() - begin


def _measured(script: str, data: bytes) -> tuple[float, float, bool]:
    done = subprocess.run(
        [sys.executable, "-c", script], input=data, cwd=Path(ROOT), capture_output=True,
        timeout=120, check=True,
    )  # fmt: skip
    took, memory, refused = done.stdout.decode().split()
    return float(took), float(memory), refused == "True"
