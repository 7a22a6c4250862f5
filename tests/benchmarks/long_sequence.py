"""Writes sequences of many lines, for the benchmarks."""

from __future__ import annotations

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
