"""There is a model of the mobile phase, so that phases and pressures can be judged.

Reason
    Without the phase boundary and viscosity of this modifier nobody can say here whether the
    mobile phase is one phase, nor what the pumps will see. That is no pass.

Unsound
    kind: method
    mobile_phase: {modifier: {liquid: ethyl acetate, line: modifier-1}}  # <- here

Sound
    kind: method
    mobile_phase: {modifier: {liquid: methanol, line: modifier-1}}

Sound, because a part below 2 % does not decide the phases
    kind: method
    mobile_phase:
      modifier:
        liquids: [{liquid: methanol, share: 98.5 % v/v}, {liquid: ethyl acetate, share: 1.5 % v/v}]
        line: modifier-1

Remedy
    Where the method allows it, take methanol, ethanol, 2-propanol or acetonitrile. Else
    measure phases and pressures of this mixture before the run.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.document import is_placeholder
from methodlint.judging.ask.liquids import components_of, similar_liquids
from methodlint.judging.ask.rule import Finding, RunCase, number, visible

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("method.mobile_phase.modifier",)


def applies(case: RunCase) -> bool:
    """Only for a mobile phase that has no model; one left to be filled in is told as that."""
    liquid = case.method_liquid()
    left = any(is_placeholder(name) for name, _ in components_of(liquid)) if liquid else False
    return case.run.plan.no_model and not left


def judge(case: RunCase) -> Iterator[Finding]:
    """Name the modifier and what could not be judged."""
    liquid = case.method_liquid()
    parts = components_of(liquid) if liquid else ()
    names = " + ".join(f"{number(100 * share, 3)} % {name}" for name, share in parts)
    names = parts[0][0] if len(parts) == 1 else names
    remedy = "use a modifier that has a model, or measure its phases and pressures first"
    meant = [(name, other) for name, _ in parts for other in similar_liquids(name)]
    if meant:
        written, other = meant[0]
        remedy = f"did you mean {other}? if '{visible(written)}' is right, {remedy}"
    yield case.finding(
        "method.mobile_phase.modifier",
        "caution",
        f"there is no model of carbon dioxide + {names}: phases, densities and all pressures of "
        f"this run were not judged",
        remedy=remedy,
    )
