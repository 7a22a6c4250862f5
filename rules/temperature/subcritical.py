"""Below 31 degC the mobile phase is liquid, which is sound above the saturation of CO2.

Reason
    What counts is one phase, not "supercritical": liquid-like CO2 with modifier works as well.
    This page exists so that nobody takes a low temperature for a mistake.

Unsound, or rather: worth a note
    kind: method
    oven_temperature: 25 degC  # <- here

Sound
    kind: method
    oven_temperature: 40 degC

Remedy
    Nothing. Keep the outlet pressure above the saturation pressure that the note gives.

Source
    Critical point and saturation pressure of CO2: Span and Wagner 1996. That the trade treats
    sub- and supercritical mobile phases alike: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.flow import filled_rows
from methodlint.judging.ask.phase import co2
from methodlint.judging.ask.rule import Finding, RunCase, celsius, show

SUBJECT = "run"
CLASSES = ("note",)
NEEDS = ("method.oven_temperature",)


def judge(case: RunCase) -> Iterator[Finding]:
    """Give the saturation pressure at the lowest temperature of the oven."""
    assert case.method is not None
    rows = filled_rows(case.method)
    coolest = min(row.temperature for row in rows if row.temperature is not None)
    if not co2.TRIPLE_TEMPERATURE < coolest < co2.CRITICAL_TEMPERATURE:
        return
    saturation = float(co2.saturation_pressure(coolest))
    yield case.finding(
        "method.oven_temperature",
        "note",
        f"liquid-like at {show(coolest, 'temperature')}: one phase above the saturation of CO2, "
        f"{show(saturation, 'pressure')}",
        found=celsius(coolest),
        limit=celsius(co2.CRITICAL_TEMPERATURE),
    )
