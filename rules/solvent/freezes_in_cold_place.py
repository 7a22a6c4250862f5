"""No liquid freezes where it is kept.

Reason
    Dimethyl sulfoxide freezes at 18.5 degC, tert-butanol at 25 degC, dioxane at 12 degC and
    cyclohexane at 6.7 degC: in a bottle at night, in a line at the chilled pump head, in a vial
    on the cooled tray.

Unsound
    kind: sequence
    diluent: DMSO  # <- here

Sound
    kind: sequence
    diluent: {liquids: [{liquid: DMSO, share: 85 %}, {liquid: water, share: 15 %}]}

Remedy
    Warm the tray or the place, or mix in a tenth of another liquid.

Source
    Freezing points: CRC Handbook of Chemistry and Physics. The reserve of 3 K and the tenth that
    lowers a freezing point enough: common practice, no source.
"""

import math
from collections.abc import Iterator

from methodlint.judging.ask.liquids import coldest_place, components_of, find_liquid
from methodlint.judging.ask.rule import (
    At,
    BatchCase,
    Candidate,
    Finding,
    NotChecked,
    celsius,
    number,
    show,
)

SUBJECT = "batch"
CLASSES = ("fault",)
NEEDS = ("solvents.bottles",)

_RESERVE = 3.0
_PURE = 0.9


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Compare freezing points with the coldest place of bottles, and of the tray for diluents."""
    coldest, given = coldest_place(case.documents)
    places: list[tuple[At, tuple[tuple[str, float], ...], str, float, bool]] = [
        (
            case.at(f"solvents.bottles[{index}]"),
            components_of(bottle),
            f"the bottle on {bottle.line}",
            coldest,
            given,
        )
        for index, bottle in enumerate(case.solvents.bottles if case.solvents else ())
    ]
    tray = case.get("instrument.autosampler.tray_temperature")
    seen = set()
    for contact in case.contacts:
        liquid = contact.first
        if liquid.role == "diluent" and liquid.components not in seen:
            seen.add(liquid.components)
            cold = tray.si if tray is not None else coldest
            at = At(liquid.document, liquid.path)
            places.append(
                (at, liquid.components, "the vial on the tray", cold, given or bool(tray))
            )
    for at, parts, place, cold, known in places:
        name, share = max(parts, key=lambda part: part[1], default=("", 0.0))
        liquid_data = find_liquid(name)
        if liquid_data is None or liquid_data.freezing_point is None or share <= _PURE:
            continue
        freezes = liquid_data.freezing_point
        if freezes + _RESERVE <= cold:
            continue
        if not known:
            yield case.not_checked(at, "solvents.coldest_place")
            continue
        yield case.finding(
            at,
            "fault",
            f"{name} in {place} freezes at {show(freezes, 'temperature')}, it gets "
            f"{show(cold, 'temperature')} there: {number(cold - freezes, 2)} K left, "
            f"{_RESERVE:g} K are recommended",
            found=celsius(cold),
            limit=celsius(freezes + _RESERVE),
            remedy=f"keep it above {show(freezes + _RESERVE, 'temperature')}, or mix in a tenth of "
            "another liquid",
            candidates=_candidates(case, freezes) if tray is not None and "tray" in place else (),
        )


def _candidates(case: BatchCase, freezes: float) -> list[Candidate]:
    warm = f"{math.ceil(freezes - 273.15 + _RESERVE)} degC"
    change = case.change("instrument.autosampler.tray_temperature", warm)
    return [case.candidate(f"set the tray to {warm}", change)]
