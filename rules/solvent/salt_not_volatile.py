"""Nothing that never evaporates is dissolved in modifier or makeup.

Reason
    Phosphate, borate, sulfate, sodium and potassium salts and involatile ion-pair agents stay
    behind when CO2 and liquid go: in the regulator, in the source of a mass spectrometer, and as
    particles in the aerosol of an ELSD or CAD, whose signal they are.
    5 mM potassium phosphate at 0.5 mL/min of modifier leaves 0.16 g of solid in eight hours.

Unsound
    kind: method
    mobile_phase:
      modifier:
        liquid: methanol
        line: modifier-1
        additives: [{additive: potassium dihydrogen phosphate, level: 5 mM}]  # <- here

Sound
    kind: method
    mobile_phase:
      modifier:
        liquid: methanol
        line: modifier-1
        additives: [{additive: ammonium formate, level: 10 mM}]

Sound, because a seal wash never enters the flow path
    kind: solvents
    bottles:
      - {line: modifier-1, liquid: methanol, fill: 900 mL, dead_volume: 60 mL}
      - line: seal-wash
        liquid: water
        additives: [{additive: sodium acetate, level: 10 mM}]
        uses: 0.1 mL/min

Remedy
    Use a volatile salt: ammonium formate or acetate.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.flow import mean_makeup_flow
from methodlint.judging.ask.liquids import additives_in_flow
from methodlint.judging.ask.rule import At, Finding, Grade, NotChecked, RunCase, show

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("method.detectors",)
CAUSES = ("makeup.deposits-at-bpr", "makeup.salt-not-soluble", "solvent.salt-not-soluble")

_DAY = 8 * 3600.0
_FOULED = {
    "MS": "it fouls the source",
    "ELSD": "the detector sees nothing but its dry particles",
    "CAD": "the detector sees nothing but its dry particles",
}


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Find involatile additives; a fault with a mass spectrometer or an aerosol detector."""
    used = {detector.type for detector in case.method.detectors} if case.method else set()
    grade: Grade = "fault" if used & _FOULED.keys() else "caution"
    said = [text for name, text in _FOULED.items() if name in used]
    detector = said[0] if said else "it stays in the regulator and its line"
    for at, part, role in additives_in_flow(case):
        if part.additive is None:
            yield case.not_checked(at, "additive", f"'{part.name}' is not a known additive")
            continue
        if part.additive.volatile:
            continue
        yield case.finding(
            at,
            grade,
            f"{part.name} in the {role} never evaporates{_left_per_day(case, at, role)}; {detector}",
            remedy="use ammonium formate or ammonium acetate in its place",
            candidates=[
                case.candidate(
                    f"use 10 mM {salt} in its place",
                    case.change(at, {"additive": salt, "level": "10 mM"}),
                )
                for salt in ("ammonium formate", "ammonium acetate")
            ],
        )


def _left_per_day(case: RunCase, at: At, role: str) -> str:
    """Solid left in eight hours of running, in words; empty where a figure for it is missing."""
    part = next((part for place, part, _ in additives_in_flow(case) if place == at), None)
    run = case.run if case.rehearsal is not None and case.rehearsal.done else None
    if part is None or part.additive is None or part.concentration is None or run is None:
        return ""
    if part.additive.molar_mass is None or run.programme.cycle <= 0.0:
        return ""
    flow = run.modifier_per_cycle / run.programme.cycle
    if role == "makeup":
        flow = mean_makeup_flow(case.method.makeup if case.method else None, run.programme.cycle)
    mass = part.concentration * part.additive.molar_mass * flow * _DAY
    return (
        f": {show(part.concentration, 'amount concentration', 'mM')} at "
        f"{show(flow, 'volume flow', 'mL/min')} leaves {show(mass, 'mass')} in eight hours"
    )
