"""The tubes of a bench keep their width.

Reason
    When every column on a bench reads more from one week on, it is not the columns: a tube, a
    filter or the injector blocks. Changing columns then costs columns and mends nothing.

Unsound
    kind: column
    x-name: other
    ---
    kind: logbook
    entries:
      - {date: 2026-09-01, start_pressure: 217 bar}
      - {date: 2026-09-01, column: other, start_pressure: 217 bar}
      - {date: 2026-09-02, start_pressure: 218 bar}
      - {date: 2026-09-02, column: other, start_pressure: 216 bar}
      - {date: 2026-09-03, start_pressure: 216 bar}
      - {date: 2026-09-03, column: other, start_pressure: 218 bar}
      - {date: 2026-09-04, start_pressure: 217 bar}
      - {date: 2026-09-04, column: other, start_pressure: 217 bar}
      - {date: 2026-09-05, start_pressure: 217 bar}
      - {date: 2026-09-05, column: other, start_pressure: 217 bar}
      - {date: 2026-09-06, start_pressure: 218 bar}
      - {date: 2026-09-06, column: other, start_pressure: 218 bar}
      - {date: 2026-09-07, start_pressure: 237 bar}  # <- here
      - {date: 2026-09-07, column: other, start_pressure: 238 bar}
      - {date: 2026-09-08, start_pressure: 238 bar}
      - {date: 2026-09-08, column: other, start_pressure: 239 bar}
      - {date: 2026-09-09, start_pressure: 239 bar}
      - {date: 2026-09-09, column: other, start_pressure: 240 bar}
      - {date: 2026-09-10, start_pressure: 240 bar}
      - {date: 2026-09-10, column: other, start_pressure: 241 bar}

Sound
    kind: column
    x-name: other
    ---
    kind: logbook
    entries:
      - {date: 2026-09-01, start_pressure: 217 bar}
      - {date: 2026-09-01, column: other, start_pressure: 217 bar}
      - {date: 2026-09-02, start_pressure: 218 bar}
      - {date: 2026-09-02, column: other, start_pressure: 216 bar}
      - {date: 2026-09-03, start_pressure: 216 bar}
      - {date: 2026-09-03, column: other, start_pressure: 218 bar}
      - {date: 2026-09-04, start_pressure: 217 bar}
      - {date: 2026-09-04, column: other, start_pressure: 217 bar}
      - {date: 2026-09-05, start_pressure: 217 bar}
      - {date: 2026-09-05, column: other, start_pressure: 217 bar}
      - {date: 2026-09-06, start_pressure: 218 bar}
      - {date: 2026-09-06, column: other, start_pressure: 218 bar}
      - {date: 2026-09-07, start_pressure: 217 bar}
      - {date: 2026-09-07, column: other, start_pressure: 217 bar}
      - {date: 2026-09-08, start_pressure: 218 bar}
      - {date: 2026-09-08, column: other, start_pressure: 218 bar}
      - {date: 2026-09-09, start_pressure: 216 bar}
      - {date: 2026-09-09, column: other, start_pressure: 216 bar}
      - {date: 2026-09-10, start_pressure: 217 bar}
      - {date: 2026-09-10, column: other, start_pressure: 217 bar}

Remedy
    Release the pressure, then look at the injector, the filters and the tubes between mixer and
    column; note the pressure without a column before and after.

Source
    Two columns at least, all that ran since then, each by the statistics of history.column-
    resistance-rises, and by pressures that agree within a factor of 2.5: common practice, no
    source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.history import HistoryCase, day
from methodlint.judging.ask.rule import Finding, bar, visible

SUBJECT = "history"
CLASSES = ("caution",)
NEEDS = ()
CAUSES = ("history.column-resistance-rises",)


def judge(case: HistoryCase) -> Iterator[Finding]:
    """Report benches on which all columns read more."""
    for one in case.history.blocked:
        names = ", ".join(visible(name) for name in one.columns)
        yield case.finding(
            case.entry_at(one.entry),
            "caution",
            f"every column on {visible(one.bench)} reads more since about {day(one.began)} "
            f"({names}; {bar(one.excess).value:.0f} bar): the tubes, the filters or the injector "
            "block rather than the columns",
            found=bar(one.excess),
            remedy="release the pressure, then look at injector, filters and tubes before the column",
        )
