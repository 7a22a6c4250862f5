"""Every segment of a transferred gradient lasts as many column volumes as in the source.

Reason
    Selectivity in a gradient follows the change of composition per column volume. A segment
    that keeps its minutes on a smaller column becomes a slower gradient, and peaks change places.

Unsound
    kind: method
    transferred_from: assay-on-long-column
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 5 min, modifier_share: 40 % v/v}  # <- here
      - {time: 6 min, modifier_share: 40 % v/v}
      - {time: 6.5 min, modifier_share: 5 % v/v}
    ---
    kind: method
    x-name: assay-on-long-column
    column: long-column
    ---
    kind: column
    x-name: long-column
    length: 250 mm

Sound
    kind: method
    transferred_from: assay-on-long-column
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 5 min, modifier_share: 40 % v/v}
      - {time: 6 min, modifier_share: 40 % v/v}
      - {time: 6.5 min, modifier_share: 5 % v/v}
    ---
    kind: method
    x-name: assay-on-long-column
    column: long-column
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 8.33 min, modifier_share: 40 % v/v}
      - {time: 10 min, modifier_share: 40 % v/v}
      - {time: 10.83 min, modifier_share: 5 % v/v}
    ---
    kind: column
    x-name: long-column
    length: 250 mm

Remedy
    Multiply the durations by the factor that the finding gives; the initial hold is judged by
    itself, with the dwell.

Source
    tG2 = tG1 (F1/F2)(L2 d2^2)/(L1 d1^2): USP <621> (unverified). Within 5 %: common practice, no
    source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import Finding, Measure, RunCase, minutes, number, show

SUBJECT = "run"
CLASSES = ("fault",)
NEEDS = ("run", "source.run")

_SPAN = 0.05
_SAME_SHARE = 0.05
_ROUNDING = 0.7  # s: times are typed in hundredths of a minute


def applies(case: RunCase) -> bool:
    """Only gradients have segments to scale."""
    return case.transferred


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare durations segment by segment."""
    both = case.comparison
    if not both.gradient or not both.source_rows or not both.target_rows:
        return
    one, two = both.segments(both.source_rows), both.segments(both.target_rows)
    low, high = min(both.time_factors), max(both.time_factors)
    assert case.source is not None
    also = (case.source.at("method.programme"),)
    same = len(one) == len(two) and all(
        abs(a.row.share - b.row.share) <= _SAME_SHARE for a, b in zip(one, two, strict=True)
    )
    if not same:
        yield case.finding(
            "method.programme",
            "fault",
            f"the programme has {len(two)} segments, the source's has {len(one)}, or they end at "
            "other shares: it is another gradient",
            remedy="keep every segment of the source and scale its duration",
            also=also,
        )
        return
    wrong = []
    for a, b in zip(one, two, strict=True):
        least = a.duration * low * (1.0 - _SPAN) - _ROUNDING
        most = a.duration * high * (1.0 + _SPAN) + _ROUNDING
        if not least <= b.duration <= most:
            wrong.append((a, b))
    if not wrong:
        return
    first, second = wrong[0]
    wanted = first.duration * both.time_factors[1]
    table = "; ".join(
        f"to {show(b.row.share, 'share')}: {show(b.duration, 'time', 'min')}, needed "
        f"{show(a.duration * both.time_factors[1], 'time', 'min')}"
        for a, b in wrong
    )
    index = second.row.index
    yield case.finding(
        f"method.programme[{index}]" if index is not None else "method.programme",
        "fault",
        f"{len(wrong)} of {len(two)} segments of the gradient do not keep their column volumes, "
        f"factor {number(both.time_factors[1], 3)} by hold-up times ({number(both.time_factors[0], 3)} by "
        f"geometry): {table}",
        found=minutes(second.duration),
        limit=minutes(wanted),
        band=Measure(wanted * _SPAN / 60.0, "min"),
        remedy=f"multiply the source's durations by {number(both.time_factors[1], 3)}",
        also=also,
    )
