"""A gradient does not start far above the composition that its first ramp leads to.

Reason
    A first row of 40 % before a ramp to 20 % is most often 4 % with a slip of the key: everything
    leaves the column in the front, and nothing else in the method shows it.

Unsound
    kind: method
    programme:
      - {time: 0 min, modifier_share: 40 % v/v}  # <- here
      - {time: 5 min, modifier_share: 20 % v/v}
      - {time: 6 min, modifier_share: 20 % v/v}
      - {time: 6.5 min, modifier_share: 40 % v/v}

Sound
    kind: method
    programme:
      - {time: 0 min, modifier_share: 4 % v/v}
      - {time: 5 min, modifier_share: 20 % v/v}
      - {time: 6 min, modifier_share: 20 % v/v}
      - {time: 6.5 min, modifier_share: 4 % v/v}

Sound, because the fall is meant
    kind: method
    programme:
      - {time: 0 min, modifier_share: 40 % v/v, reason: falling gradient}
      - {time: 5 min, modifier_share: 20 % v/v}
      - {time: 6 min, modifier_share: 20 % v/v}
      - {time: 6.5 min, modifier_share: 40 % v/v}

Remedy
    Correct the first row, or write into it why it starts so high (`reason:`).

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.flow import filled_rows
from methodlint.judging.ask.rule import Finding, RunCase, When, percent, show

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("method", "method.programme[].modifier_share")

_FALLS = 0.05
_SLIP = 10.0
_EARLY = 0.2


def judge(case: RunCase) -> Iterator[Finding]:
    """Look whether the first change falls, and whether a tenth of the start would make it rise."""
    assert case.method is not None
    rows = filled_rows(case.method)
    first = rows[0]
    after = next((row for row in rows[1:] if row.share != first.share), None)
    if after is None or first.share is None or after.share is None:
        return
    if first.share - after.share < _FALLS or first.share / _SLIP >= after.share:
        return
    if any(row.reason for row in rows[: rows.index(after) + 1]):
        return
    peaks = [p.retention_time.si for p in case.method.expected_peaks if p.retention_time]
    if any(time <= _EARLY * after.time for time in peaks):
        return  # peaks that leave while it is still high explain it
    at = first.places["modifier_share"]
    slip = f"{100.0 * first.share / _SLIP:g} % v/v"
    same = sorted({r.places["modifier_share"] for r in rows if r.share == first.share})
    yield case.finding(
        at,
        "caution",
        f"the run starts with {show(first.share, 'share')} of modifier and falls to "
        f"{show(after.share, 'share')} at {show(after.time, 'time', 'min')}; it may be {slip}",
        found=percent(first.share),
        limit=percent(after.share),
        when=When(first.time, after.time),
        remedy=f"start at {slip} if that is meant, else write a `reason:` into the row",
        candidates=[
            case.candidate(f"start at {slip}", *(case.change(place, slip) for place in same))
        ],
    )
