"""The diluent stays dissolved in the mobile phase that it is injected into.

Reason
    CO2 takes up almost no water, and lean CO2 takes up dimethyl sulfoxide badly. A plug of such a
    diluent travels as a second liquid: split peaks, salt in the loop and in the column's inlet.

Unsound
    kind: method
    mobile_phase: {modifier: {liquid: methanol, line: modifier-1}}
    programme: [{time: 0 min, modifier_share: 3 % v/v}, {time: 5 min, modifier_share: 40 % v/v}]
    ---
    kind: sequence
    diluent: {liquids: [{liquid: water, share: 40 %}, {liquid: methanol, share: 60 %}]}  # <- here

Sound
    kind: method
    programme: [{time: 0 min, modifier_share: 3 % v/v}, {time: 5 min, modifier_share: 40 % v/v}]
    ---
    kind: sequence
    diluent: 2-propanol

Unsound, because even much alcohol does not take so much water up at once
    kind: method
    injection: {volume: 5 uL}
    programme: [{time: 0 min, modifier_share: 20 % v/v}]
    ---
    kind: sequence
    diluent: water  # <- here

Sound, because much alcohol takes a small plug up
    kind: method
    programme: [{time: 0 min, modifier_share: 15 % v/v}]
    ---
    kind: sequence
    diluent: {liquids: [{liquid: water, share: 40 %}, {liquid: methanol, share: 60 %}]}

Remedy
    Dilute with or change to an alcohol, inject less, or start with more modifier.

Source
    Water above 20 to 30 %, dimethyl sulfoxide above 2 uL, both into less than 5 % modifier; an
    alcohol from 15 % on dissolves a plug of up to 2 uL, or one that is half organic; there is no finding where half of the mobile phase is alcohol: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.judging.ask.column import Injected, injected_by
from methodlint.judging.ask.flow import filled_rows
from methodlint.judging.ask.liquids import find_additive, find_liquid
from methodlint.judging.ask.rule import (
    Candidate,
    Finding,
    Grade,
    NotChecked,
    RunCase,
    microlitres,
    percent,
    show,
)

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("method.mobile_phase",)

_LEAN, _RICH = 0.05, 0.15
_WATER_CAUTION, _WATER_FAULT = 0.20, 0.30
_SMALL = 2e-9
_NEAT = 0.9
_HALF = 0.5
_SALTS = ("ammonium salt", "nonvolatile salt", "ion pair")
_BETTER = ("ethanol", "2-propanol", "methanol")


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare each diluent with the modifier share at the start."""
    assert case.method is not None
    share = filled_rows(case.method)[0].share
    if share is None:
        yield case.not_checked("method", "method.mobile_phase.modifier_share")
        return
    seen: set[object] = set()
    for group in injected_by(case.documents):
        at = case.at(group.diluent_at.document, group.diluent_at.path)
        if group.diluent is None:
            yield case.not_checked(at, "method.injection.diluent")
            continue
        said = _wrong(case, group, share)
        if said is None or (group.components, said[0]) in seen:
            continue
        rich = _takes_plugs(case, share)
        if rich and group.volume is None:
            yield case.not_checked(at, "method.injection.volume")
            continue
        seen.add((group.components, said[0]))
        grade, words = said
        yield case.finding(
            at,
            grade,
            f"{words} is injected into CO2 with {show(share, 'share')} "
            f"{case.run.plan.modifier_name or 'modifier'}; from {show(_RICH, 'share')} of an "
            "alcohol on a plug up to 2 uL dissolves",
            found=microlitres(group.volume or 0.0) if rich else percent(share),
            limit=microlitres(_SMALL) if rich else percent(_LEAN if grade == "fault" else _RICH),
            remedy="change the diluent to an alcohol, inject less or start with more modifier",
            candidates=_candidates(case, group),
            also=(case.at("method.mobile_phase"),),
        )


def _wrong(case: RunCase, group: Injected, share: float) -> tuple[Grade, str] | None:
    water = _share_of(group, "water")
    volume = group.volume
    small = volume is not None and volume <= _SMALL * (1.0 + 1e-6)
    amount = f"{show(volume, 'volume', 'uL')} of " if volume is not None else ""
    if share < _LEAN and _share_of(group, "dimethyl sulfoxide") >= _NEAT and not small:
        return "fault", f"{amount}dimethyl sulfoxide"
    written = group.diluent.additives if group.diluent is not None else ()
    known = [(level.additive, find_additive(level.additive)) for level in written]
    salts = [name for name, additive in known if additive and additive.kind in _SALTS]
    words = f"{amount}{group.words} with {show(water, 'share')} water"
    if share < _LEAN and (water > _WATER_FAULT or (water > 0.0 and salts)):
        return "fault", words + (f" and {salts[0]}" if salts else "")
    if share < _LEAN and water > _WATER_CAUTION:
        return "caution", words
    alone = case.get("method.injection.stream") == "modifier"
    organic = water <= _HALF or share >= _HALF or alone
    if water > _WATER_FAULT and not small and not (organic and _takes_plugs(case, share)):
        return "caution", words
    return None


def _takes_plugs(case: RunCase, share: float) -> bool:
    modifier = find_liquid(case.run.plan.modifier_name)
    return share >= _RICH and modifier is not None and modifier.family == "alcohol"


def _share_of(group: Injected, liquid: str) -> float:
    total = sum(share for _, share in group.components)
    return sum(share for name, share in group.components if name == liquid) / total if total else 0


def _candidates(case: RunCase, group: Injected) -> list[Candidate]:
    places = [case.at(written.document, written.path) for written in group.diluent_places]
    return [
        case.candidate(
            f"dissolve the samples in {liquid}", *(case.change(at, liquid) for at in places)
        )
        for liquid in _BETTER
    ]
