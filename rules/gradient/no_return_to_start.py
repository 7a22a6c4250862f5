"""A programme leads back to its starting values before the next injection.

Reason
    If composition, flow, outlet pressure or temperature stay where the last row put them, the
    second injection of the sequence meets another mobile phase than the first one.

Unsound
    kind: method
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 5 min, modifier_share: 40 % v/v}  # <- here
    settling_time: null

Sound
    kind: method
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 5 min, modifier_share: 40 % v/v}
      - {time: 5.5 min, modifier_share: 5 % v/v}
    settling_time: null

Sound, because settling time is spent at the starting values
    kind: method
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 5 min, modifier_share: 40 % v/v}
    settling_time: 4 min

Remedy
    Give a settling time, or add a row that returns to the start with enough time after it.

Source
    Common practice, no source.
"""

import math
from collections.abc import Iterator

from methodlint.judging.ask.column import (
    column_volumes_wanted,
    equilibration_volume,
    holds_additive,
)
from methodlint.judging.ask.flow import FilledRow, filled_rows
from methodlint.judging.ask.rule import Candidate, Finding, RunCase, When, show
from methodlint.judging.ask.sequence import follows_itself

SUBJECT = "run"
CLASSES = ("fault",)
NEEDS = (
    "method.programme",
    "method.programme[].modifier_share",
    "method.programme[].flow",
    "method.programme[].outlet_pressure",
    "method.programme[].temperature",
)

_WORDS = {
    "share": ("composition", "share"),
    "flow": ("flow", "volume flow"),
    "outlet_pressure": ("outlet pressure", "pressure"),
    "temperature": ("oven temperature", "temperature"),
}


def applies(case: RunCase) -> bool:
    """Neither isocratic methods nor those that are never followed by themselves."""
    if case.method is None or not case.method.programme:
        return False
    return follows_itself(case)


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare the last row with the first, unless settling time leads back."""
    assert case.method is not None
    settling = case.method.settling_time
    if settling is not None and settling.si > 0.0:
        return
    rows = filled_rows(case.method)
    first, last = rows[0], rows[-1]
    if last.same_as(first):
        return
    left = [words for key, words in _WORDS.items() if _differs(first, last, key)]
    said = "; ".join(
        f"{word} ends at {show(getattr(last, key), dimension)}, starts at "
        f"{show(getattr(first, key), dimension)}"
        for key, (word, dimension) in _WORDS.items()
        if (word, dimension) in left
    )
    yield case.finding(
        f"method.programme[{len(case.method.programme) - 1}]",
        "fault",
        f"nothing leads back to the starting values: {said}",
        when=When(last.time, last.time),
        remedy="add a row with the starting values, or a settling time",
        candidates=_candidates(case, first),
        also=(case.at("method.programme[0]"),),
    )


def _differs(first: FilledRow, last: FilledRow, key: str) -> bool:
    begins, ends = getattr(first, key), getattr(last, key)
    return begins is not None and ends is not None and begins != ends


def _candidates(case: RunCase, first: FilledRow) -> list[Candidate]:
    run = case.rehearsal
    if run is None or not run.done or not first.flow or first.share is None:
        return []
    wanted = column_volumes_wanted(
        additive=holds_additive(case.method_liquid()), start_share=first.share
    )
    needed = equilibration_volume(run, wanted) / first.flow
    text = f"{math.ceil(needed / 6.0) / 10.0:g} min"
    change = case.change("method.settling_time", text)
    return [case.candidate(f"add a settling time of {text} at the starting values", change)]
