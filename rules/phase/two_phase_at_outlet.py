"""The mobile phase leaves the column as one phase.

Reason
    Where CO2 and modifier part into two phases, retention, peak shape and the detector's
    baseline go. What counts is one phase, not a temperature or pressure above a critical point:
    liquid CO2 with modifier at 25 degC is sound, and so is 90 % methanol. Behind the regulator
    two phases are by design.

Unsound
    kind: method
    oven_temperature: 60 degC
    outlet_pressure: 90 bar  # <- here
    mobile_phase: {modifier: {liquid: 2-propanol, line: modifier-1}}
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 8 min, modifier_share: 25 % v/v}

Sound
    kind: method
    oven_temperature: 60 degC
    outlet_pressure: 150 bar
    mobile_phase: {modifier: {liquid: 2-propanol, line: modifier-1}}
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 8 min, modifier_share: 25 % v/v}

Put right
    Raise the outlet pressure, or lower the oven temperature; the message says how far.

Source
    Phase boundary: Peng and Robinson 1976 with parameters fitted to published isotherms. Margin
    inside the model's band: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.for_rules import (
    Candidate,
    Finding,
    RunCase,
    When,
    bar,
    judge_limit,
    show,
)

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("run",)
CAUSES = (
    "phase.two-phase-mid-gradient",
    "phase.two-phase-in-cell",
    "phase.near-critical-compressible",
    "phase.density-drop-along-column",
    "pressure.margin-to-boundary-thin",
)

_PRESSURES = (100, 110, 120, 130, 140, 150, 160, 180, 200)
_COOLER = (40, 35, 30)


def judge(case: RunCase) -> Iterator[Finding]:
    """Look at the margin behind the column at every moment and every composition."""
    run = case.run
    margin = run.outlet_margin
    row = int(margin.argmin())
    least = float(margin[row])
    band = run.boundary_band
    verdict = judge_limit(least, 0.0, band, "fault", above=False)
    if verdict is None:
        return
    begins, ends = run.windows(margin < (0.0 if not verdict.possible else band))[0]
    outlet = float(run.column_outlet_pressure[row])
    share = 100.0 * float(run.share[row, -1])
    said = "has two phases" if not verdict.possible else "may have two phases"
    yield case.finding(
        "method.outlet_pressure",
        verdict.grade,
        f"the mobile phase {said} at the column outlet from {show(begins, 'time', 'min')} to "
        f"{show(ends, 'time', 'min')}: {show(outlet, 'pressure')} with {share:.0f} % "
        f"{run.plan.modifier_name}, the boundary there is {show(outlet - least, 'pressure')} "
        f"(band {show(band, 'pressure')})",
        found=bar(outlet),
        limit=bar(outlet - least),
        band=bar(band),
        when=When(begins, ends),
        possible=verdict.possible,
        remedy="raise the outlet pressure or lower the oven temperature",
        candidates=_candidates(case),
        also=(case.at("method.oven_temperature"),),
    )


def _candidates(case: RunCase) -> list[Candidate]:
    found = []
    setting = case.get("method.outlet_pressure").si / 1e5
    for value in _PRESSURES:
        if value > setting:
            change = case.change("method.outlet_pressure", f"{value} bar")
            found.append(case.candidate(f"set the outlet pressure to {value} bar", change))
    oven = case.get("method.oven_temperature").si - 273.15
    for value in _COOLER:
        if value < oven:
            changes = (
                case.change("method.oven_temperature", f"{value} degC"),
                case.change("method.outlet_pressure", "110 bar"),
            )
            text = f"set the oven to {value} degC with an outlet pressure of 110 bar"
            found.append(case.candidate(text, *changes))
    return found
