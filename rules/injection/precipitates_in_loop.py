"""A sample stays dissolved when the mobile phase meets it in the loop.

Reason
    Into a mixed stream, or CO2 alone, the loop's content meets a liquid that dissolves far less
    than the diluent. What precipitates plugs loop, frit or needle seat, at full pump pressure.

Unsound
    kind: method
    purpose: preparative
    injection: {volume: 500 uL, stream: mixed, sample_concentration: 60 mg/mL, solubility: 15 mg/mL}  # <- here

Sound, because the modifier stream carries it
    kind: method
    purpose: preparative
    injection: {volume: 500 uL, stream: modifier, sample_concentration: 60 mg/mL, solubility: 15 mg/mL}

Remedy
    Inject into the modifier stream, or dilute below the solubility in the mobile phase.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import Finding, Measure, NotChecked, RunCase, number, show

SUBJECT = "run"
CLASSES = ("fault",)
NEEDS = ("method.injection.sample_concentration", "method.injection.solubility")


def applies(case: RunCase) -> bool:
    """CO2 meets the loop, and both figures are there or one of them is."""
    injection = case.method.injection if case.method is not None else None
    return (
        injection is not None
        and injection.stream in ("mixed", "CO2")
        and injection.solubility is not None
    )


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare both concentrations in one unit."""
    at = "method.injection.sample_concentration"
    level, limit = case.get(at), case.get("method.injection.solubility")
    if level.dimension != limit.dimension:
        yield case.not_checked(at, at, "concentration and solubility need one kind of unit")
        return
    if level.si <= limit.si:
        return
    mass = level.dimension == "mass concentration"
    said = [show(one.si, level.dimension, "mg/mL") if mass else one.text for one in (level, limit)]
    yield case.finding(
        at,
        "fault",
        f"{said[0]} of sample meet a {case.get('method.injection.stream')} stream that dissolves "
        f"{said[1]}, {number(level.si / limit.si, 2)} times less: it precipitates in the loop",
        found=Measure(level.si, "mg/mL") if mass else None,
        limit=Measure(limit.si, "mg/mL") if mass else None,
        remedy="inject into the modifier stream, or dilute",
        candidates=[
            case.candidate(
                "inject into the modifier stream, if the bench has a valve there",
                case.change("method.injection.stream", "modifier"),
            )
        ],
        also=(case.at("method.injection.solubility"),),
        cautions=("pressure",),
    )
