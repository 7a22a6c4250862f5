"""What is dissolved in the mobile phase passes the regulator dissolved.

Reason
    In the regulator CO2 turns to gas and the salt is left to the liquid alone, cold. Where that
    is very little for a large part of the run, or where a makeup takes its solubility away,
    solid builds up on needle and seat: the outlet pressure wanders, then the regulator blocks.

Unsound
    kind: method
    mobile_phase:
      modifier:
        liquid: methanol
        line: modifier-1
        additives: [{additive: ammonium acetate, level: 40 mM}]  # <- here

Sound
    kind: method
    mobile_phase:
      modifier:
        liquid: methanol
        line: modifier-1
        additives: [{additive: ammonium acetate, level: 20 mM}]

Remedy
    Add makeup upstream of the regulator, take less salt, or flush with pure modifier every few
    injections.

Source
    20 mM, 0.1 mL/min and a fifth of the run: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.flow import makeup_flow_at
from methodlint.judging.ask.liquids import Dissolved, dissolved_in, makeup_of, salt_limit_in
from methodlint.judging.ask.rule import (
    Candidate,
    Finding,
    Grade,
    Measure,
    NotChecked,
    RunCase,
    show,
)

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("run",)

_LITTLE = 0.1e-6 / 60.0
_STRONG = 20.0
_PART_OF_RUN = 0.2
_MAKEUP_FLOWS = (0.1, 0.15, 0.2, 0.3)


def applies(case: RunCase) -> bool:
    """The modifier carries something that is a solid or an oil when the liquid is gone."""
    return bool(_solids(case))


def _solids(case: RunCase) -> list[Dissolved]:
    modifier = case.method_liquid()
    found = dissolved_in(modifier) if modifier is not None else ()
    return [part for part in found if part.salt or (part.additive and not part.additive.volatile)]


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Follow the liquid that arrives at the regulator, makeup upstream of it included."""
    run = case.run
    makeup = case.method.makeup if case.method else None
    before = makeup is not None and makeup.tee == "before the regulator"
    modifier = run.set_flow * run.share[:, -1]
    added = makeup_flow_at(makeup if before else None, run.time)
    dry = (modifier + added < _LITTLE).astype(float)
    little = run.integral(dry) / max(run.programme.cycle, 1e-9)
    for part in _solids(case):
        at = f"method.mobile_phase.modifier.additives[{part.index}]"
        if part.concentration is None:
            yield case.not_checked(at, "level", f"no level of {part.name}")
            continue
        strong = part.concentration > _STRONG or not (part.additive and part.additive.volatile)
        why = ""
        grade: Grade = "fault"
        if strong and little > _PART_OF_RUN:
            why = (
                f"for {100 * little:.0f} % of the run less than "
                f"{show(_LITTLE, 'volume flow', 'mL/min')} of liquid reaches the regulator"
            )
        elif before and part.salt:
            grade = "caution"
            why = _taken_away(case, part, float(modifier.max()), float(added.max()))
        if why:
            yield case.finding(
                at,
                grade,
                f"{show(part.concentration, 'amount concentration')} {part.name} deposits in the "
                f"regulator: {why}{_rate(case, part)}",
                found=Measure(100 * little, "%"),
                limit=Measure(100 * _PART_OF_RUN, "%"),
                remedy="add makeup upstream of the regulator, or take less salt",
                candidates=_candidates(case, part),
            )


def _rate(case: RunCase, part: Dissolved) -> str:
    """Solid per hour of running, in words."""
    if part.additive is None or part.additive.molar_mass is None or part.concentration is None:
        return ""
    mean = case.run.modifier_per_cycle / max(case.run.programme.cycle, 1e-9)
    rate = part.concentration * part.additive.molar_mass * mean * 3600.0
    return f"; {show(rate, 'mass')} of it arrive per hour"


def _taken_away(case: RunCase, part: Dissolved, modifier: float, added: float) -> str:
    """Whether the makeup holds so little of the salt that it comes out of the two together."""
    makeup = makeup_of(case.documents)
    liquid = case.method_liquid()
    if makeup is None or liquid is None or part.additive is None or modifier + added <= 0.0:
        return ""
    share = modifier / (modifier + added)
    limit = salt_limit_in(part.additive, liquid, makeup.components, share)
    level = (part.concentration or 0.0) * share
    if limit is None or level <= limit:
        return ""
    return (
        f"modifier and makeup ({makeup.words}) together hold about "
        f"{show(limit, 'amount concentration', 'mM')} of it, and "
        f"{show(level, 'amount concentration', 'mM')} arrive"
    )


def _candidates(case: RunCase, part: Dissolved) -> list[Candidate]:
    found = []
    if case.get("method.makeup") is None:
        for flow in _MAKEUP_FLOWS:
            name = case.run.plan.modifier_name
            value = {"liquid": name, "flow": f"{flow} mL/min", "tee": "before the regulator"}
            text = f"add {flow} mL/min of {name} as makeup upstream of the regulator"
            found.append(case.candidate(text, case.change("method.makeup", value)))
    if part.additive is not None and part.additive.volatile:
        at = f"method.mobile_phase.modifier.additives[{part.index}].level"
        found.append(case.candidate("take 20 mM of the salt", case.change(at, "20 mM")))
    return found
