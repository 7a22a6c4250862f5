"""Lab folders with sequences of many lines, for the benchmarks.

Nothing but the standard library is imported here.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterable
from pathlib import Path

_EXAMPLES = Path(__file__).resolve().parents[2] / "example_methods"

# The example lab's bottles, cylinder and column would not last for so many lines.
_ENOUGH = {
    "solvents/bench-a-bottles.yaml": [
        ("fill: 900 mL", "fill: 30 L"),
        ("fill: 500 mL", "fill: 30 L"),
        ("expires: 2026-12-10", "expires: 2027-12-10"),
    ],
    "rooms/separations-room.yaml": [("capacity: 5 L, level: 0.4 L", "capacity: 60 L, level: 0 L")],
    "supplies/yard-cylinder.yaml": [
        ("water_capacity: 50 L", "water_capacity: 500 L"),
        ("net_mass: 31.0 kg", "net_mass: 310 kg"),
        ("full_mass: 37.5 kg", "full_mass: 375 kg"),
    ],
    "columns/amylose-3um.yaml": [("limit: 2000", "limit: 20000")],
}


def _rows(count: int) -> tuple[str, int]:
    """Rows of a table of so many lines, and the number of plates that they fill."""
    rows = ["kind,sample,plate,well,fill [mL],level,control_level,count"]
    rows += [
        "blank,ethanol,1,A1,1.5,,,",
        "conditioning,pool,1,A2,1,,,2",
        "suitability,SST,1,A3,1,,,5",
    ]
    rows += [f"calibrator,C{n},1,B{n},0.5,{n * n},," for n in range(1, 7)]
    rows.append("blank,ethanol,1,A1,,,,")
    number = 0
    while len(rows) < count - 4:
        if number % 10 == 0:
            which = number // 10 % 9
            word = "upper" if which % 2 else "lower"
            rows.append(f"control,QC {which},1,C{which + 1},1,,{word},")
        row, column = divmod(number % 54, 9)
        rows.append(f"sample,{number:05},{2 + number // 54},{'ABCDEF'[row]}{column + 1},0.5,,,")
        number += 1
    rows += ["control,QC 0,1,C1,1,,lower,", "suitability,SST,1,A3,,,,"]
    return "\n".join(rows) + "\n", 2 + number // 54


def lab_of_sequences(folder: Path, counts: Iterable[int]) -> list[Path]:
    """Copy the example lab to a new folder, with bottles, cylinder and column for many lines.

    Returns
    -------
    list of Path
        A sequence for each of the counts, its lines in a table beside it.
    """
    shutil.copytree(_EXAMPLES, folder)
    for name, changes in _ENOUGH.items():
        text = (folder / name).read_text(encoding="utf-8")
        for old, new in changes:
            assert old in text, (name, old)
            text = text.replace(old, new)
        (folder / name).write_text(text, encoding="utf-8")
    head = (folder / "sound" / "overnight-table.yaml").read_text(encoding="utf-8")
    head = head.replace("length: 14 h", "length: 2000 h").replace(
        "stability: 48 h", "stability: 3000 h"
    )
    files = []
    for count in counts:
        table, plates = _rows(count)
        (folder / "sound" / f"large-{count}.csv").write_text(table, encoding="utf-8")
        text = head.replace("overnight-samples.csv", f"large-{count}.csv")
        stand = ", ".join(f'"{plate}": vial rack' for plate in range(1, plates + 1))
        text = text.replace("blocks:", f"plates: {{{stand}}}\nblocks:")
        files.append(folder / "sound" / f"large-{count}.yaml")
        files[-1].write_text(text, encoding="utf-8")
    return files


def lab_of_written_lines(folder: Path, counts: Iterable[int]) -> list[Path]:
    """The same with every line written out in the document itself."""
    lab_of_sequences(folder, ())
    files = []
    for count in counts:
        files.append(folder / "sound" / f"written-{count}.yaml")
        files[-1].write_text(sequence_text(count, "triazole-enantiomers"), encoding="utf-8")
    return files


_HEAD = """\
kind: sequence
title: A long sequence of an invented laboratory
instrument: bench-a
supply: yard-cylinder
solvents: bench-a-bottles
room: separations-room
method: {method}
purpose: research
begins: 2026-11-24T09:00
operator: bench A duty analyst
phone: "+00 000 0142"
equilibration: 10 min
diluent: ethanol
data_file: "{{date}}_{{line:05}}_{{sample}}"
plates: {{{plates}}}
lines:
"""


_ROWS, _COLUMNS = 32, 48  # of a plate with 1536 wells


def sequence_text(lines: int, method: str) -> str:
    """Write a sequence of this many lines, each from a well of its own, a blank every twenty."""
    count = -(-lines // (_ROWS * _COLUMNS))
    plates = ", ".join(f'"{number + 1}": 1536-well' for number in range(count))
    rows = [_HEAD.format(method=method, plates=plates)]
    for number in range(lines):
        plate, well = divmod(number, _ROWS * _COLUMNS)
        row, column = divmod(well, _COLUMNS)
        letters = f"{'A' if row > 25 else ''}{chr(ord('A') + row % 26)}"
        kind, sample = ("blank", "ethanol") if number % 20 == 0 else ("sample", f"S{number:05d}")
        if number % 20 == 10:
            kind, sample = "control", f"QC {number}"
        where = f"plate: {plate + 1}, well: {letters}{column + 1}, fill: 1 mL"
        rows.append(f"  - {{kind: {kind}, sample: {sample}, {where}}}\n")
    return "".join(rows)
