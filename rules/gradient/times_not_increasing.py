"""The times of a programme start at zero and rise from row to row.

Reason
    A row that goes back in time, or stands at the time of the row before without being marked as
    a step, is read differently by different people and controllers: as a jump, as a typing
    slip, or not at all.

Unsound
    kind: method
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 5 min, modifier_share: 40 % v/v}
      - {time: 4 min, modifier_share: 5 % v/v}  # <- here

Sound
    kind: method
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 4 min, modifier_share: 40 % v/v}
      - {time: 5 min, modifier_share: 5 % v/v}

Sound, because the row says that it is a jump
    kind: method
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 5 min, modifier_share: 40 % v/v}
      - {time: 5 min, modifier_share: 5 % v/v, step: true}

Remedy
    Sort the rows; mark a jump with `step: true`.

Source
    Common practice, no source.
"""

from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from methodlint.judging.ask.rule import (
    Candidate,
    Case,
    Change,
    DocumentCase,
    Finding,
    minutes,
    show,
)

SUBJECT = "document"
CLASSES = ("fault",)
NEEDS = ("method.programme",)


def applies(case: DocumentCase) -> bool:
    """Only a method with a programme has rows to put in order."""
    if case.document.kind != "method" or case.method is None:
        return False
    written = any(path[:1] == ("programme",) for path in case.document.broken)
    return bool(case.method.programme) or written


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Compare each row's time with the row before; the first row with zero."""
    assert case.method is not None
    rows = case.method.programme
    wrong = []
    if rows[0].time.si > 0.0:
        wrong.append((0, f"row 1 begins at {_min(rows[0].time.si)}, not at 0 min"))
    for index, (before, row) in enumerate(pairwise(rows), start=1):
        if row.time.si < before.time.si:
            wrong.append((index, f"row {index + 1} at {_min(row.time.si)} is before {_of(before)}"))
        elif row.time.si == before.time.si and not row.step:
            said = f"row {index + 1} at {_min(row.time.si)} is at the time of {_of(before)}"
            wrong.append((index, f"{said} and is not marked as a step"))
    if not wrong:
        return
    first = wrong[0][0]
    yield case.finding(
        f"method.programme[{first}].time",
        "fault",
        "the programme's times do not rise: " + "; ".join(said for _, said in wrong),
        found=minutes(rows[first].time.si),
        limit=minutes(rows[first - 1].time.si if first else 0.0),
        remedy="sort the rows by time",
        candidates=_candidates(case),
    )


def _min(time: float) -> str:
    return show(time, "time", "min")


def _of(row: Any) -> str:
    return f"the row before it ({_min(row.time.si)})"


def _candidates(case: Case) -> list[Candidate]:
    """Put the rows in order of time, as they are and with jumps marked."""
    assert case.method is not None
    rows = case.method.programme
    data = case.documents["method"].data["programme"]
    order = sorted(range(len(rows)), key=lambda index: rows[index].time.si)
    times = [rows[index].time.si for index in order]
    table = [dict(data[index]) for index in order]
    begins = ""
    if times[0] > 0.0:
        times[0], table[0]["time"] = 0.0, "0 min"
        begins = ", beginning at 0 min"
    text = f"sort the programme by time{begins}: " + ", ".join(_min(time) for time in times)
    stepped = [dict(row) for row in table]
    for index, (before, time) in enumerate(pairwise(times), start=1):
        if time == before:
            stepped[index]["step"] = True
    return [
        case.candidate(text, *_changes(case, data, table)),
        case.candidate(
            f"{text}; rows of equal time marked as steps", *_changes(case, data, stepped)
        ),
    ]


def _changes(case: Case, old: list[Any], new: list[dict[str, Any]]) -> list[Change]:
    found = []
    for index, (before, after) in enumerate(zip(old, new, strict=True)):
        for key in sorted({*before, *after}):
            if before.get(key) != after.get(key):
                found.append(case.change(f"method.programme[{index}].{key}", after.get(key)))
    return found
