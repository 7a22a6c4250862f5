"""A column stays below its limit of injections through all sequences that are planned on it.

Reason
    Each sequence by itself stays below the limit. One after another they pass it, and the results
    of the last ones hang on a column that nobody has tested for it.

Unsound
    kind: column
    injections: {count: 2970, limit: 3000, last_test_passed: true}
    ---
    kind: sequence
    x-name: second
    begins: 2026-11-24T18:00  # <- here
    slot: null

Sound
    kind: column
    injections: {count: 640, limit: 3000, last_test_passed: true}
    ---
    kind: sequence
    x-name: second
    begins: 2026-11-24T18:00
    slot: null

Remedy
    Plan another column for the sequence that the message names, or test the column before it.

Source
    The column card. Sequences of one week are added to what its log says: common practice, no
    source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.calendar import WEEK, CalendarCase, names_of
from methodlint.judging.ask.rule import Finding, Measure, visible

SUBJECT = "calendar"
CLASSES = ("caution", "note")
NEEDS = ()


def judge(case: CalendarCase) -> Iterator[Finding]:
    """Add its injections to those of the sequences before it."""
    own = case.booking
    for use in own.columns:
        if use.logged is None or use.limit is None or own.begins is None:
            continue
        before = [
            (other, each.injections)
            for other in case.calendar.dated
            if other.begins is not None and own.begins - WEEK < other.begins < own.begins
            for each in other.columns
            if each.path == use.path
        ]
        found = use.logged + sum(count for _, count in before)
        total = found + use.injections
        # Each by itself is the matter of column.used-beyond-logged-injections.
        alone = use.logged + use.injections > use.limit
        if alone or not before or not found <= use.limit < total:
            continue
        yield case.finding(
            "sequence.begins",
            "note" if use.soft else "caution",
            f"{visible(use.name)} has seen {use.logged} injections; "
            f"{found - use.logged} come from {names_of([other for other, _ in before])}, "
            f"{use.injections} from this sequence: {total}, {total - use.limit} more than its limit {use.limit}",
            found=Measure(float(total)),
            limit=Measure(float(use.limit)),
            remedy="change or test the column before this sequence",
        )
