"""The column's log of injections stays below its limit to the end of the sequence.

Reason
    A column that reaches the end of its use in the middle of a sequence spoils the second half;
    the log shows it beforehand, and so it does of a column that failed its last test.

Unsound
    kind: column
    injections: {count: 2990, limit: 3000, last_test_passed: true}  # <- here

Unsound, because it failed its test
    kind: column
    injections: {count: 640, limit: 3000, last_test_passed: false}  # <- here

Sound
    kind: column
    injections: {count: 640, limit: 3000, last_test_passed: true}

Sound, because the runs are its test
    kind: column
    injections: {count: 640, limit: 3000, last_test_passed: false, under_test: true}

Remedy
    Change the column before the line that the message names, or shorten the sequence.

Source
    The column card.
"""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.judging.ask.column import InjectionLog, cards
from methodlint.judging.ask.rule import (
    BatchCase,
    Finding,
    Grade,
    Loaded,
    Measure,
    NotChecked,
    When,
    show,
)

SUBJECT = "batch"
CLASSES = ("caution", "note")
NEEDS = ("sequence.lines",)

_DAY = 86400.0


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Count the injections on each column, line by line."""
    counts: dict[str, int] = {}
    columns: dict[str, Loaded] = {}
    crossing: dict[str, tuple[int, int]] = {}
    limits: dict[str, float] = {}
    for run in case.runs.values():
        for loaded, card in cards(run.columns):
            columns[loaded.path] = loaded
            log = card.injections
            counts[loaded.path] = log.count if log is not None else 0
            limits[loaded.path] = log.limit if log and log.limit is not None else float("inf")
    for line in case.batch.lines:
        used = case.runs.get(line.method)
        for loaded in used.columns if used is not None and line.injects else ():
            path = loaded.path
            before = counts[path]
            counts[path] = before + line.injections
            if counts[path] > limits[path] and path not in crossing:
                over = line.first_injection + max(int(limits[path]) - before, 0)
                crossing[path] = (line.index, over)
    for path, loaded in columns.items():
        yield from _judge_card(case, loaded, counts[path], crossing.get(path))


def _judge_card(
    case: BatchCase, loaded: Loaded, total: int, crossing: tuple[int, int] | None
) -> Iterator[Finding | NotChecked]:
    card = next(card for _, card in cards((loaded,)))
    log = card.injections
    if log is not None and not log.under_test:
        yield from _test(case, loaded, log)
    if log is None or log.limit is None:
        figure = "column.injections" if log is None else "column.injections.limit"
        yield case.not_checked(case.at(loaded), figure, f"of {loaded.name}")
        return
    if crossing is not None:
        index, number = crossing
        soft = log.limit_is_advisory and log.last_test_passed
        grade: Grade = "note" if soft else "caution"
        yield case.finding(
            case.at(loaded, "injections"),
            grade,
            f"{loaded.name} has seen {log.count} injections and comes to {total}, "
            f"{total - log.limit} more than its limit {log.limit}; it is crossed in line {index + 1}",
            found=Measure(float(total)),
            limit=Measure(float(log.limit)),
            when=When(injection=number, last_injection=case.batch.injections),
            remedy=f"change the column before line {index + 1}",
            also=(case.line_at(index),),
        )


def _test(case: BatchCase, loaded: Loaded, log: InjectionLog) -> Iterator[Finding]:
    if log.last_test_passed is False:
        yield case.finding(
            case.at(loaded, "injections.last_test_passed"),
            "caution",
            f"{loaded.name} failed its last test, and the sequence uses it",
            remedy="regenerate or change the column, and test it again",
        )
    if log.test_interval is None or log.last_test is None or case.as_of is None:
        return
    since = (case.as_of - log.last_test).days * _DAY
    if since > log.test_interval.si:
        yield case.finding(
            case.at(loaded, "injections.last_test"),
            "caution",
            f"{loaded.name} was tested {since / _DAY:.0f} d ago, the lab allows "
            f"{show(log.test_interval.si, 'time', 'd')}",
            found=Measure(since / _DAY, "d"),
            limit=Measure(log.test_interval.si / _DAY, "d"),
            remedy="run the column's test first",
        )
