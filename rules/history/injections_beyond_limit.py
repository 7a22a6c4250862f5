"""A column is not used beyond its limit of injections.

Reason
    The card sets a limit, the logbook counts what was really injected: more than any sequence
    planned.

Unsound
    kind: column
    injections: {count: 60, limit: 100}
    ---
    kind: logbook
    entries:
      - {date: 2026-09-01, injections: 60}
      - {date: 2026-09-02, injections: 60}  # <- here

Sound
    kind: column
    injections: {count: 60, limit: 3000}
    ---
    kind: logbook
    entries:
      - {date: 2026-09-01, injections: 60}
      - {date: 2026-09-02, injections: 60}

Remedy
    Test the column and write a new limit with the reason, or change it.

Source
    The column card.
"""

from collections.abc import Iterator

from methodlint.judging.ask.history import HistoryCase, day
from methodlint.judging.ask.rule import Finding, Measure, visible

SUBJECT = "history"
CLASSES = ("caution", "note")
NEEDS = ()


def judge(case: HistoryCase) -> Iterator[Finding]:
    """Count the logged injections on each column against the limit of its card."""
    counts: dict[str, int] = {}
    told: set[str] = set()
    for one in case.history.readings:
        card = case.card(one.column)
        log = card.injections if card is not None else None
        counts[one.column] = counts.get(one.column, 0) + one.injections
        if log is None or log.limit is None or one.column in told:
            continue
        if counts[one.column] > log.limit:
            told.add(one.column)
            total = sum(
                each.injections for each in case.history.readings if each.column == one.column
            )
            yield case.finding(
                case.entry_at(one.entry),
                "note" if log.limit_is_advisory and log.last_test_passed else "caution",
                f"{visible(one.column)} has seen {total} logged injections, {total - log.limit} "
                f"more than its limit {log.limit}; it was passed on {day(one.moment)}",
                found=Measure(float(total)),
                limit=Measure(float(log.limit)),
                remedy="test the column and write a new limit with the reason, or change it",
                also=(case.at(case.columns[one.column], "injections.limit"),),
            )
