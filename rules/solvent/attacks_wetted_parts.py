"""Nothing in the flow path attacks a part that it wets.

Reason
    A seal that swells jams or leaks, and a polymer tube under pressure that has taken up
    tetrahydrofuran, dichloromethane or dimethyl sulfoxide can burst. Amines make fluoroelastomers
    brittle and break polyimide down; CO2 that a soft rubber took up blisters it on venting.

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

Unsound, because the amine breaks the rotor down
    kind: method
    mobile_phase:
      modifier:
        liquid: methanol
        line: modifier-1
        additives: [{additive: diethylamine, level: 0.2 % v/v}]
    ---
    kind: instrument
    wetted_materials: {valve rotor: polyimide}  # <- here

Sound, because the polymer withstands amines
    kind: method
    mobile_phase:
      modifier:
        liquid: methanol
        line: modifier-1
        additives: [{additive: diethylamine, level: 0.2 % v/v}]
    ---
    kind: instrument
    wetted_materials: {valve rotor: PEEK}

Remedy
    Use a part of another material, or another liquid.

Source
    Resistance charts of polymers and elastomers (unverified). Fluoroelastomers and amines: a maker
    of pipe and a trade note of 2025; elastomers and CO2: pages of makers of O-rings (second-hand).
"""

from collections.abc import Iterator

from methodlint.judging.ask.liquids import (
    Material,
    additives_in_flow,
    attack,
    attacks_anything,
    components_of,
    doubt,
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
        worst = False
        for names, said in ((flowing, "flows"), (traces, "passes as a diluent")):
            bad = [(name, where) for name, where in names.items() if attack(material, name)]
            if not bad:
                continue
            worst = True
            grade: Grade = "stop" if names is flowing else "caution"
            liquid, where = bad[0]
            yield case.finding(
                at,
                grade,
                f"{liquid} {said} through the {part} of {material.name}: it "
                f"{attack(material, liquid)}{_others([name for name, _ in bad[1:]])} (unverified)",
                remedy=f"use another liquid than {liquid}, or have whoever services the instrument fit "
                f"a {part} of a material that withstands it",
                also=(where,),
                cautions=("pressure",) if grade == "stop" else (),
            )
            break
        if not worst:
            yield from _slower(case, at, part, material, flowing)


def _slower(
    case: RunCase, at: At, part: str, material: Material, flowing: dict[str, At]
) -> Iterator[Finding]:
    """What ages a part instead of failing it: amines, CO2, liquids that charts call doubtful."""
    why: list[str] = []
    also: list[At] = []
    for place, dissolved, _ in additives_in_flow(case):
        kind = dissolved.additive.kind if dissolved.additive is not None else ""
        if material.amines and kind in ("amine", "ammonia"):
            why.append(f"{dissolved.name} flows through it: {material.amines}")
            also.append(place)
            break
    if material.decompression:
        why.append(material.decompression)
    for name, where in flowing.items():
        found = doubt(material, name)
        if found is not None:
            why.append(f"{name} {found} (unverified)")
            also.append(where)
            break
    if why:
        yield case.finding(
            at,
            "caution",
            f"the {part} is {material.name}: {'; '.join(why)}",
            remedy=f"have whoever services the instrument fit a {part} of a material that withstands "
            "it, and look at the present one until then",
            also=tuple(also),
        )


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
