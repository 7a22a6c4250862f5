"""The response of an ELSD or CAD over a gradient is compensated, or known to change.

Reason
    Droplets, and with them the response of an aerosol detector, depend on the liquid that arrives.
    Over a gradient of modifier equal amounts give unequal peaks. A makeup whose flow falls as the
    modifier rises keeps the liquid constant.

Unsound
    kind: method
    detectors: [{type: CAD}]  # <- here

Sound, because the composition is constant
    kind: method
    detectors: [{type: CAD}]
    mobile_phase: {modifier: {liquid: methanol, line: modifier-1}, modifier_share: 20 % v/v}
    programme: null

Sound, because the makeup falls as the modifier rises
    kind: method
    detectors: [{type: CAD}]
    makeup:
      liquid: methanol
      programme:
        - {time: 0 min, flow: 0.6 mL/min}
        - {time: 5 min, flow: 0.1 mL/min}

Remedy
    Calibrate each peak at its own composition, or add a makeup that compensates.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.flow import filled_rows
from methodlint.judging.ask.rule import Finding, RunCase, percent, show

SUBJECT = "run"
CLASSES = ("note",)
NEEDS = ("method.detectors",)

_CHANGE = 0.10


def applies(case: RunCase) -> bool:
    """The method uses a detector of aerosols."""
    method = case.method
    return method is not None and any(d.type in ("ELSD", "CAD") for d in method.detectors)


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare the extremes of the programme, unless the makeup goes the other way."""
    assert case.method is not None
    shares = [row.share for row in filled_rows(case.method) if row.share is not None]
    makeup = case.method.makeup
    flows = [row.flow.si for row in makeup.programme] if makeup is not None else []
    if not shares or max(shares) - min(shares) <= _CHANGE or len(set(flows)) > 1:
        return
    yield case.finding(
        "method.detectors",
        "note",
        f"modifier goes from {show(min(shares), 'share')} to "
        f"{show(max(shares), 'share')}: equal amounts give unequal peaks on an aerosol "
        "detector",
        found=percent(max(shares) - min(shares)),
        limit=percent(_CHANGE),
        remedy="calibrate each peak at its own composition, or add a makeup that compensates",
    )
