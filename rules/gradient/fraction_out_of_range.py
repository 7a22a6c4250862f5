"""Modifier shares lie within 0 to 100 % and within what the modifier pump may deliver.

Reason
    A share above the cap is cut off or refused by the instrument, and parts of a blend that do
    not add up to 100 % leave open what is in the bottle. 100 % modifier as a wash is sound where
    pressure and flow allow it, and so is 0 %.

Unsound
    kind: method
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 5 min, modifier_share: 120 % v/v}  # <- here

Unsound, because the instrument stops at 50 %
    kind: instrument
    modifier_pump: {highest_share: 50 % v/v}
    ---
    kind: method
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 5 min, modifier_share: 60 % v/v}  # <- here

Sound
    kind: method
    programme:
      - {time: 0 min, modifier_share: 0 % v/v}
      - {time: 5 min, modifier_share: 100 % v/v}

Remedy
    Keep the share within the cap that the message prints; make the parts of a blend 100 %.

Source
    Cap: the instrument card. Parts of a blend to 0.1 %: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.flow import FilledRow, filled_rows, missing_setting
from methodlint.judging.ask.rule import Finding, NotChecked, RunCase, When, percent, show

SUBJECT = "run"
CLASSES = ("fault",)
NEEDS = ("method",)

_TOLERANCE = 1e-9
_BLEND = 0.001


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare the richest row with the cap, and the parts of the blend with 100 %."""
    assert case.method is not None
    every = filled_rows(case.method)
    lacks = missing_setting(every, "modifier_share")
    if lacks is not None:
        yield case.not_checked("method", lacks)
    rows = [row for row in every if row.share is not None]
    richest = max(rows, key=lambda row: row.share or 0.0, default=None)
    if richest is not None and richest.share:
        yield from _richest(case, rows, richest)
    liquid = case.method_liquid()
    if liquid is not None and liquid.liquids:
        total = sum(part.share.si for part in liquid.liquids)
        if abs(total - 1.0) > _BLEND + _TOLERANCE:
            yield case.finding(
                "method.mobile_phase.modifier.liquids",
                "fault",
                f"the parts of the modifier add up to {show(total, 'share')}, not to 100 %: "
                f"{show(total - 1.0, 'share')} off",
                found=percent(total),
                limit=percent(1.0),
                remedy="make the parts add up to 100 %",
            )


def _richest(
    case: RunCase, rows: list[FilledRow], richest: FilledRow
) -> Iterator[Finding | NotChecked]:
    cap = case.get("instrument.modifier_pump.highest_share")
    limit = min(cap.si, 1.0) if cap is not None else 1.0
    share = richest.share or 0.0
    if share <= limit + _TOLERANCE:
        if cap is None and case.instrument is not None:
            yield case.not_checked("instrument", "instrument.modifier_pump.highest_share")
        return
    above = {row.places["modifier_share"] for row in rows if (row.share or 0.0) > limit}
    text = show(limit, "share")
    source = "the modifier pump stops at" if limit < 1.0 else "no stream holds more than"
    yield case.finding(
        richest.places["modifier_share"],
        "fault",
        f"{show(share, 'share')} of modifier at {show(richest.time, 'time', 'min')} "
        f"({richest.number}); {source} {text}: {show(share - limit, 'share')} too much",
        found=percent(share),
        limit=percent(limit),
        when=When(richest.time, richest.time),
        remedy=f"keep the modifier at or below {text}",
        candidates=[
            case.candidate(
                f"set the modifier to {text} v/v there",
                *(case.change(place, f"{text} v/v") for place in sorted(above)),
            )
        ],
        also=(case.at("instrument.modifier_pump.highest_share"),) if limit < 1.0 else (),
    )
