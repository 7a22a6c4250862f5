"""What the lines of a sequence are to each other: levels, spans between standards, switches.

Every function goes through the lines once.
"""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from methodlint.documents.kinds.sequence import Line
from methodlint.rehearsal.batch.lines import BLANKS, STANDARDS, Batch, LineRun
from methodlint.rehearsal.run.equilibration import equilibration_volume
from methodlint.rehearsal.run.rehearsal import Rehearsal

# Farther than any sequence reaches, and still within the calendar.
_CENTURY = 100 * 365.25 * 86400.0

Level = tuple[str, float | str]
"""What a level is told by (``"level"``, a dimension, or ``"name"``) and the figure or name."""


def count_of(line: LineRun) -> int:
    """Injections of a line; 0 for a step without one."""
    return line.injections


def level_of(line: Line) -> Level:
    """Level of a standard: its number, else its concentration, else its name."""
    if line.level is not None:
        return "level", round(line.level, 12)
    amount = line.concentration or line.expected
    if amount is not None:
        return amount.dimension, float(f"{amount.si:.9g}")
    return "name", line.sample or ""


def levels(lines: Iterable[LineRun]) -> dict[Level, LineRun]:
    """Distinct levels of the calibrators among the lines, each with the first line that has it."""
    found: dict[Level, LineRun] = {}
    for line in lines:
        if line.line.kind == "calibrator":
            found.setdefault(level_of(line.line), line)
    return found


def top_level(found: Iterable[Level]) -> Level | None:
    """Give the highest level of those told the same way; None if names are all there is."""
    figures = [level for level in found if isinstance(level[1], float)]
    return max(figures, default=None, key=lambda level: (level[0], level[1]))


def ends_of_highest(
    batch: Batch, whole: Batch | None = None
) -> list[tuple[LineRun, LineRun | None]]:
    """Last line of every row of injections of the highest calibrator, with the injection behind it.

    Parameters
    ----------
    batch
        Lines whose calibrators are looked at.
    whole
        The batch that they are a part of, where another line may come behind.

    Returns
    -------
    list of (line, following)
        `following` is the next line that injects anything; None at the end.
    """
    top = top_level(levels(batch.lines))
    own = {line.index for line in batch.lines}
    injecting = [line for line in (whole or batch).lines if line.injects]
    ends: list[tuple[LineRun, LineRun | None]] = []
    for index, line in enumerate(injecting):
        following = injecting[index + 1] if index + 1 < len(injecting) else None
        if top is None or line.index not in own or not _is_top(line, top):
            continue
        if following is None or not _is_top(following, top):
            ends.append((line, following))
    return ends


def _is_top(line: LineRun, top: Level) -> bool:
    """A calibrator of the highest level, or a control that is as high."""
    if line.line.kind not in ("calibrator", "control"):
        return False
    kind, figure = level_of(line.line)
    return kind == top[0] and isinstance(figure, float) and figure >= float(top[1])


@dataclass(frozen=True, slots=True)
class Span:
    """Samples between two standards.

    Attributes
    ----------
    first, last
        First and last line with a sample.
    samples
        Injections of samples.
    begins, ends
        Clock [s] from the standard before to the standard behind, or over the samples alone
        where there is none.
    opened, closed
        Whether a standard stands before and behind it.
    """

    first: LineRun
    last: LineRun
    samples: int
    begins: float
    ends: float
    opened: bool
    closed: bool


def spans_between_standards(batch: Batch) -> list[Span]:
    """Divide the samples at the standards, controls and suitability injections between them."""
    spans: list[Span] = []
    before: LineRun | None = None
    held: list[LineRun] = []
    for line in batch.lines:
        if line.line.kind == "sample":
            held.append(line)
        elif line.line.kind in STANDARDS:
            if held:
                spans.append(_span(held, before, line))
            before, held = line, []
    if held:
        spans.append(_span(held, before, None))
    return spans


def _span(held: Sequence[LineRun], before: LineRun | None, behind: LineRun | None) -> Span:
    return Span(
        first=held[0],
        last=held[-1],
        samples=sum(line.injections for line in held),
        begins=before.ends if before is not None else held[0].begins,
        ends=behind.begins if behind is not None else held[-1].ends,
        opened=before is not None,
        closed=behind is not None,
    )


@dataclass(frozen=True, slots=True)
class Switch:
    """A change from one method to another.

    Attributes
    ----------
    before, after
        Last injection of the one method, first of the other that measures something.
    between
        Everything in between: flushes, equilibration, conditioning, blanks.
    """

    before: LineRun
    after: LineRun
    between: tuple[LineRun, ...]

    @property
    def duration(self) -> float:
        """Time between the two [s], but for lines that say that they still run as the first does."""
        old = [line.ends for line in self.between if line.line.method == self.before.method]
        return self.after.begins - max(old, default=self.before.ends)


MEASURING = frozenset({"suitability", "calibrator", "control", "sample", "zero"})
"""Kinds of line whose injections are measured."""


def first_measured(batch: Batch) -> LineRun | None:
    """First line whose injections are measured; blanks and conditioning are not."""
    return next((line for line in batch.lines if line.line.kind in MEASURING), None)


def switches(batch: Batch) -> list[Switch]:
    """Find the changes of method between injections that measure something."""
    found: list[Switch] = []
    before: LineRun | None = None
    between: list[LineRun] = []
    for line in batch.lines:
        if line.line.kind not in MEASURING:
            between.append(line)
            continue
        if before is not None and before.method != line.method:
            found.append(Switch(before, line, tuple(between)))
        before, between = line, []
    return found


FLUSHES = 5.0
"""Residue volumes that a flush takes to carry a liquid out; common practice, no source."""

OVEN_RATE = 5.0 / 60.0
"""How fast an oven heats or cools [K/s]; common practice, no source."""

OVEN_SOAK = 600.0
"""Time that a column takes to follow its oven [s]; common practice, no source."""

_SAME_TEMPERATURE = 1.0


def residue_volume(run: Rehearsal) -> float:
    """Volume that a method leaves behind, from the mixing point through the column [m3]."""
    return run.dwell_volume + run.hold_up_volume


def flush_volume(line: LineRun, run: Rehearsal | None) -> float:
    """Liquid and CO2 that a line sends through the instrument [m3]; 0 if it does not say."""
    if line.line.flush_volume is not None:
        return line.line.flush_volume.si
    flow = line.line.flow.si if line.line.flow is not None else None
    if flow is None and run is not None and run.metered:
        flow = float(run.set_flow[0])
    return (flow or 0.0) * (line.ends - line.begins)


def time_to_settle(before: Rehearsal, after: Rehearsal, column_volumes: float) -> float:
    """Time that a method needs on the column after another one [s].

    Parameters
    ----------
    before, after
        Rehearsals of the two methods.
    column_volumes
        Hold-up volumes of the new mobile phase that are wanted downstream of the dwell volume.

    Returns
    -------
    float
        The longer of passing that volume at the starting flow and the oven with its soak.
    """
    flow = float(after.set_flow[0])
    if flow <= 0.0:
        return math.inf
    passing = equilibration_volume(after, column_volumes) / flow
    last = float(before.programme.oven_temperature[-1])
    change = abs(float(after.programme.oven_temperature[0]) - last)
    oven = change / OVEN_RATE + OVEN_SOAK if change > _SAME_TEMPERATURE else 0.0
    return max(passing, oven)


def lines_in_words(lines: Sequence[LineRun], most: int = 6) -> str:
    """Name lines as people count them, from 1: `line 4`, `lines 4, 7 and 9`."""
    numbers = [str(line.index + 1) for line in lines[:most]]
    if len(lines) > most:
        return f"lines {', '.join(numbers)} and {len(lines) - most} more"
    if len(numbers) == 1:
        return f"line {numbers[0]}"
    return f"lines {', '.join(numbers[:-1])} and {numbers[-1]}"


def clock_at(begins: datetime.datetime, seconds: float) -> datetime.datetime:
    """Time of day at so many seconds [s] from the start, at most a century on."""
    return begins + datetime.timedelta(seconds=min(seconds, _CENTURY))


def is_blank(line: LineRun | None) -> bool:
    """Whether a line injects a blank."""
    return line is not None and line.line.kind in BLANKS
