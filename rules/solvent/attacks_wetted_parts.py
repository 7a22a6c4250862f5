"""No liquid in the flow path attacks a part that it wets.

Reason
    A seal that swells jams or leaks, and a polymer tube under pressure that has taken up
    tetrahydrofuran, dichloromethane or dimethyl sulfoxide can burst.

Unsound
    kind: method
    mobile_phase: {modifier: {liquid: tetrahydrofuran, line: modifier-1}}
    ---
    kind: instrument
    wetted_materials: {column tube: PEEK}  # <- here

Sound
    kind: method
    mobile_phase: {modifier: {liquid: tetrahydrofuran, line: modifier-1}}
    ---
    kind: instrument
    wetted_materials: {column tube: stainless steel}

Remedy
    Use a part of another material, or another liquid.

Source
    Resistance charts of polymers and elastomers (from memory); common practice.
"""

from collections.abc import Iterator

from methodlint.judging.ask.liquids import (
    attack,
    attacks_anything,
    components_of,
    find_material,
    makeup_of,
    pumped_in_steps,
)
from methodlint.judging.ask.rule import At, Finding, Grade, NotChecked, RunCase

SUBJECT = "run"
CLASSES = ("stop", "caution")
NEEDS = ("method.mobile_phase", "instrument")


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Ask every wetted material about modifier and makeup, and about the diluents as traces."""
    flowing, traces = _liquids(case)
    materials = case.get("instrument.wetted_materials")
    if not materials:
        if any(attacks_anything(name) for name in (*flowing, *traces)):
            yield case.not_checked("instrument.wetted_materials", "instrument.wetted_materials")
        return
    for part, material_name in materials.items():
        at = At(case.documents["instrument"], ("wetted_materials", part))
        material = find_material(material_name)
        if material is None:
            yield case.not_checked(at, f"instrument.wetted_materials.{part}", "unknown material")
            continue
        for names, said in ((flowing, "flows"), (traces, "passes as a diluent")):
            bad = [(name, where) for name, where in names.items() if attack(material, name)]
            if not bad:
                continue
            grade: Grade = "stop" if names is flowing else "caution"
            liquid, where = bad[0]
            yield case.finding(
                at,
                grade,
                f"{liquid} {said} through the {part} of {material.name}: it "
                f"{attack(material, liquid)}{_others([name for name, _ in bad[1:]])}",
                remedy=f"use another liquid than {liquid}, or have whoever services the instrument fit "
                f"a {part} of a material that bears it",
                also=(where,),
                cautions=("pressure",) if grade == "stop" else (),
            )
            break


def _others(names: list[str]) -> str:
    return f"; the same with {', '.join(names)}" if names else ""


def _liquids(case: RunCase) -> tuple[dict[str, At], dict[str, At]]:
    """Liquids of the stream, and those that come along by the microlitre, with their places."""
    flowing: dict[str, At] = {}
    modifier = case.method_liquid()
    for name, _ in components_of(modifier) if modifier else ():
        flowing.setdefault(name, case.at("method.mobile_phase.modifier"))
    for liquid, path in pumped_in_steps(case.documents):
        for name, _ in components_of(liquid):
            flowing.setdefault(name, At(case.documents["sequence"], path))
    makeup = makeup_of(case.documents)
    if makeup is not None:
        for name, _ in makeup.components:
            flowing.setdefault(name, At(makeup.document, makeup.path))
    traces: dict[str, At] = {}
    for contact in case.contacts:
        if contact.first.role in ("diluent", "needle wash"):
            for name, _ in contact.first.components:
                if name not in flowing:
                    traces.setdefault(name, At(contact.first.document, contact.first.path))
    return flowing, traces
