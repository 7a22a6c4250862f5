"""There is no pressure regulator in a line that carries liquid CO2.

Reason
    Liquid CO2 comes at its saturation pressure. A regulator lowers the pressure, so the liquid
    boils in it: snow, plugs and a starved pump.

Unsound
    kind: supply
    regulator_in_liquid_line: true  # <- here

Sound
    kind: supply
    regulator_in_liquid_line: false

Sound, because a booster downstream of it lifts the pressure of a bulk supply again
    kind: supply
    withdrawal: bulk
    booster: true
    regulator_in_liquid_line: true

Remedy
    Replace the regulator by a filter, a shut-off valve and a relief.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding

SUBJECT = "batch"
CLASSES = ("fault",)
NEEDS = ("supply.regulator_in_liquid_line",)


def applies(case: BatchCase) -> bool:
    """Gas may be regulated, and so may a bulk supply ahead of its booster."""
    supply = case.supply
    if supply is None:
        return True
    boosted = supply.withdrawal == "bulk" and supply.booster
    return supply.withdrawal != "vapour" and not boosted


def judge(case: BatchCase) -> Iterator[Finding]:
    """Report the regulator."""
    if case.get("supply.regulator_in_liquid_line"):
        text = "replace the regulator by a filter, a shut-off valve and a relief"
        yield case.finding(
            "supply.regulator_in_liquid_line",
            "fault",
            "a pressure regulator in the liquid line makes the CO2 boil: snow, plugs and a "
            "starved pump",
            remedy=text,
            candidates=[
                case.candidate(text, case.change("supply.regulator_in_liquid_line", False))
            ],
            cautions=("cold", "pressure"),
        )
