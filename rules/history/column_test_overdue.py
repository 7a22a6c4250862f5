"""A column is tested as often as the lab wants it.

Reason
    A test that is overdue or failed leaves every result since then without a base.

Unsound
    kind: column
    injections: {count: 60, limit: 3000, last_test: 2026-06-01, test_interval: 60 d}
    ---
    kind: logbook
    entries:
      - {date: 2026-09-01, injections: 20}
      - {date: 2026-09-20, injections: 20}  # <- here

Sound
    kind: column
    injections: {count: 60, limit: 3000, last_test: 2026-06-01, test_interval: 60 d}
    ---
    kind: logbook
    entries:
      - {date: 2026-09-01, injections: 20, column_test: passed}
      - {date: 2026-09-20, injections: 20}

Remedy
    Run the column's test and write column_test: with what came of it.

Source
    The column card.
"""

from collections.abc import Iterator

from methodlint.judging.ask.history import HistoryCase, day
from methodlint.judging.ask.rule import Finding, Measure, show, visible

SUBJECT = "history"
CLASSES = ("caution",)
NEEDS = ()

_DAY = 86400.0


def judge(case: HistoryCase) -> Iterator[Finding]:
    """Compare the last use of each column with its last test."""
    for name in sorted(case.columns):
        own = [one for one in case.history.readings if one.column == name]
        card = case.card(name)
        log = card.injections if card is not None else None
        if not own:
            continue
        tests = [one for one in own if one.test is not None]
        if tests and tests[-1].test is False:
            yield case.finding(
                case.entry_at(tests[-1].entry, "column_test"),
                "caution",
                f"{visible(name)} failed its last test, on {day(tests[-1].moment)}",
                remedy="regenerate or change the column, and test it again",
            )
            continue
        days = [tests[-1].moment.date()] if tests else []
        days += [log.last_test] if log is not None and log.last_test is not None else []
        if log is None or log.test_interval is None or not days:
            continue
        since = (own[-1].moment.date() - max(days)).days
        if since * _DAY > log.test_interval.si:
            yield case.finding(
                case.entry_at(own[-1].entry),
                "caution",
                f"{visible(name)} was used on {day(own[-1].moment)}, {since} d after its last "
                f"test; the lab allows {show(log.test_interval.si, 'time', 'd')}",
                found=Measure(float(since), "d"),
                limit=Measure(log.test_interval.si / _DAY, "d"),
                remedy="run the column's test and write what came of it",
                also=(case.at(case.columns[name], "injections.test_interval"),),
            )
