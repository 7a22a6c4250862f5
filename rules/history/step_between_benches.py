"""A column reads the same resistance on every bench.

Reason
    What a column loses depends on the column. If it reads more on another bench at the same
    setting, that bench's tubes, filters or pressure sensor do, or its card leaves a part out; the
    band of every prediction there is wrong by as much.

Unsound
    kind: instrument
    x-name: bench-b
    ---
    kind: logbook
    entries:
      - {date: 2026-09-01, start_pressure: 217 bar}
      - {date: 2026-09-02, start_pressure: 218 bar}
      - {date: 2026-09-03, start_pressure: 216 bar}
      - {date: 2026-09-04, start_pressure: 217 bar}
      - {date: 2026-09-05, start_pressure: 217 bar}
      - {date: 2026-09-06, start_pressure: 234 bar, instrument: bench-b}  # <- here
      - {date: 2026-09-07, start_pressure: 236 bar, instrument: bench-b}
      - {date: 2026-09-08, start_pressure: 235 bar, instrument: bench-b}
      - {date: 2026-09-09, start_pressure: 234 bar, instrument: bench-b}
      - {date: 2026-09-10, start_pressure: 236 bar, instrument: bench-b}

Sound
    kind: instrument
    x-name: bench-b
    ---
    kind: logbook
    entries:
      - {date: 2026-09-01, start_pressure: 217 bar}
      - {date: 2026-09-02, start_pressure: 218 bar}
      - {date: 2026-09-03, start_pressure: 216 bar}
      - {date: 2026-09-04, start_pressure: 217 bar}
      - {date: 2026-09-05, start_pressure: 217 bar}
      - {date: 2026-09-06, start_pressure: 218 bar, instrument: bench-b}
      - {date: 2026-09-07, start_pressure: 217 bar, instrument: bench-b}
      - {date: 2026-09-08, start_pressure: 219 bar, instrument: bench-b}
      - {date: 2026-09-09, start_pressure: 216 bar, instrument: bench-b}
      - {date: 2026-09-10, start_pressure: 217 bar, instrument: bench-b}

Remedy
    Run both benches without a column at one flow and compare; correct the tubes on the card of the
    bench that differs.

Source
    Medians of the five readings on either side of the change, at least three each. From 15 % on, or
    what the lab's policy sets (review.resistance_change): common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.history import HistoryCase, day, level_words
from methodlint.judging.ask.rule import Finding, Measure, visible

SUBJECT = "history"
CLASSES = ("caution",)
NEEDS = ()


def judge(case: HistoryCase) -> Iterator[Finding]:
    """Report every pair of benches between which a column changes its resistance."""
    for step in case.history.steps:
        before, after = step.readings
        yield case.finding(
            case.entry_at(step.moment.entry),
            "caution",
            f"{visible(step.column)} with {visible(step.method)} reads {level_words(step.size)} on "
            f"{visible(step.second)} against {visible(step.first)} from "
            f"{day(step.moment.moment)} on (medians of {after} and {before} readings)",
            found=Measure(100.0 * step.size, "%"),
            limit=Measure(100.0 * case.history.thresholds.resistance_change, "%"),
            remedy="compare both benches without a column at one flow; correct the tubes on the card",
        )
