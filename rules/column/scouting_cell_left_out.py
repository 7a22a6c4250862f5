"""A cell of a scouting matrix that harms its column is not run.

Reason
    A matrix of columns and modifiers is written down in one go, and sooner or later it holds a
    pair that must not meet: a coated selector and a liquid that dissolves it, or an oven hotter
    than the card allows. Such a cell is left out of the plan, and nobody should wait for its
    chromatogram.

Unsound
    kind: column
    phase: coated polysaccharide
    ---
    kind: sequence
    lines: null
    method: null
    scouting:
      base: method
      columns: [column]
      modifiers:
        - {liquid: methanol, line: modifier-1}
        - {liquid: acetone, line: modifier-2}  # <- here
      equilibration: 15 min
      lines: {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}

Sound
    kind: column
    phase: coated polysaccharide
    ---
    kind: sequence
    lines: null
    method: null
    scouting:
      base: method
      columns: [column]
      modifiers:
        - {liquid: methanol, line: modifier-1}
        - {liquid: ethanol, line: modifier-2}
      equilibration: 15 min
      lines: {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}

Sound, because the pair is left out on purpose
    kind: column
    phase: coated polysaccharide
    ---
    kind: sequence
    lines: null
    method: null
    scouting:
      base: method
      columns: [column]
      modifiers:
        - {liquid: methanol, line: modifier-1}
        - {liquid: acetone, line: modifier-2}
      leave_out: [{column: column, modifier: acetone}]
      equilibration: 15 min
      lines: {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}

Remedy
    Take the modifier or the column out, or write the pair under `leave_out:` of the matrix if the
    rest is to be run. A cell that needs a flush before it stands where no order of the cells
    spares a column the liquid of another: run it in a sequence of its own.

Source
    The column cards. What coated polysaccharides withstand: see column.solvent-forbidden.
"""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding
from methodlint.judging.ask.sequence import LeftOut

SUBJECT = "batch"
CLASSES = ("caution",)
NEEDS = ()


def applies(case: BatchCase) -> bool:
    """Only a sequence with a matrix."""
    return case.scouted is not None


def judge(case: BatchCase) -> Iterator[Finding]:
    """Tell which cells are left out, one finding for each pair, and which cannot be reached."""
    assert case.scouted is not None
    told: set[tuple[int, int, bool, int]] = set()
    for item in case.scouted.left_out:
        cell = item.cell
        key = (
            cell.column,
            cell.modifier,
            item.by_liquid,
            0 if item.by_liquid else cell.temperature,
        )
        if key not in told:
            told.add(key)
            yield _finding(case, item)
    for name in case.scouted.apart:
        yield case.finding(
            "sequence.scouting",
            "caution",
            f"no order of the cells leads to '{name}' without carrying the liquid of another cell "
            "onto a column that it is never run with",
            remedy="run this cell in a sequence of its own, after a flush with the column out",
        )


def _finding(case: BatchCase, item: LeftOut) -> Finding:
    cell = item.cell
    matrix = case.sequence.scouting if case.sequence is not None else None
    assert matrix is not None
    column = ("scouting", "columns", cell.column) if matrix.columns else ("scouting", "base")
    other = ("modifiers", cell.modifier) if item.by_liquid else ("temperatures", cell.temperature)
    given = matrix.modifiers if item.by_liquid else matrix.temperatures
    sequence = case.documents["sequence"]
    return case.finding(
        case.at(sequence, ("scouting", *other) if given else column),
        "caution",
        f"the cell is left out of the plan: {item.reason}",
        remedy="write the pair under leave_out: if the rest is to be run"
        if item.by_liquid
        else "take the temperature or the column out of the matrix",
        also=(case.at(sequence, column),),
    )
