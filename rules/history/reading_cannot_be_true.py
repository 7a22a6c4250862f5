"""A reading can be true.

Reason
    A pressure below the regulator's, a peak before the mobile phase itself, a cylinder that got
    heavier: such a reading was misread or belongs elsewhere. It takes no part in the review, and it
    is reported.

Unsound
    kind: logbook
    entries:
      - {date: 2026-09-01, start_pressure: 217 bar}
      - {date: 2026-09-02, start_pressure: 140 bar}  # <- here

Sound
    kind: logbook
    entries:
      - {date: 2026-09-01, start_pressure: 217 bar}
      - {date: 2026-09-02, start_pressure: 215 bar}

Remedy
    Correct the reading, or take it out and write why under remarks.

Source
    Physics of the flow train as for pressure.measured-pressure-not-used; that no column has more
    plates than particles along it: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.history import HistoryCase
from methodlint.judging.ask.rule import Finding, counted

SUBJECT = "history"
CLASSES = ("caution",)
NEEDS = ()


def judge(case: HistoryCase) -> Iterator[Finding]:
    """Report what cannot be true, and entries without a day."""
    for doubt in case.history.doubts:
        yield case.finding(
            case.entry_at(doubt.entry, doubt.key.partition("[")[0]),
            "caution",
            f"entry {doubt.entry + 1}: {doubt.why}; it is left out",
            remedy="correct the reading, or take it out and write why under remarks",
        )
    undated = case.history.undated
    if undated:
        many = counted(len(undated), "entry")
        yield case.finding(
            case.entry_at(undated[0]),
            "caution",
            f"{many} without a day cannot be put in order and are left out, first entry "
            f"{undated[0] + 1}",
            remedy="write date: with the day of each",
        )
