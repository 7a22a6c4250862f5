"""No organic liquid reaches a flame ionisation detector.

Reason
    The flame answers to carbon that burns. CO2 gives no signal, but an organic modifier or makeup
    burns as the solutes do: the baseline rises far above any peak, and soot and water can put the
    flame out. Neat CO2, or water or formic acid as modifier, leave it quiet.

Unsound
    kind: method
    detectors: [{type: FID}]
    mobile_phase: {modifier: {liquid: methanol, line: modifier-1}}  # <- here

Sound, because neat CO2 gives no signal
    kind: method
    detectors: [{type: FID}]
    mobile_phase: {modifier: null, modifier_share: 0 % v/v}
    programme: null

Sound, because water and formic acid hardly answer
    kind: method
    detectors: [{type: FID}]
    mobile_phase: {modifier: {liquid: formic acid, line: modifier-1}}

Remedy
    Run neat CO2 at another pressure or temperature, use another detector, or change the modifier
    to a little water or formic acid if the separation permits it.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.liquids import components_of, makeup_of
from methodlint.judging.ask.rule import Finding, RunCase

SUBJECT = "run"
CLASSES = ("fault",)
NEEDS = ("method.detectors",)

_QUIET = frozenset({"water", "formic acid"})


def applies(case: RunCase) -> bool:
    """The method uses a flame ionisation detector."""
    return case.method is not None and any(d.type == "FID" for d in case.method.detectors)


def judge(case: RunCase) -> Iterator[Finding]:
    """Find what burns in the modifier and in the makeup."""
    modifier, makeup = case.method_liquid(), makeup_of(case.documents)
    streams = (
        ("method.mobile_phase.modifier", "modifier", components_of(modifier) if modifier else ()),
        ("method.makeup", "makeup", makeup.components if makeup else ()),
    )
    for at, role, parts in streams:
        burning = [name for name, share in parts if share > 0.0 and name not in _QUIET]
        if burning:
            yield case.finding(
                at,
                "fault",
                f"{' and '.join(burning)} in the {role} burns in the FID: its signal hides the "
                "peaks, at any share",
                remedy="run neat CO2, or use another detector",
            )
