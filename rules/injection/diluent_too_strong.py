"""A diluent that elutes better than the mobile phase at the start is injected in small volume.

Reason
    In a plug of strong diluent the analytes run ahead until it is diluted: fronting, split and
    broad early peaks. The stronger the diluent, the less of it the column forgives.

Unsound
    kind: method
    injection: {volume: 5 uL, diluent: methanol}
    ---
    kind: sequence
    diluent: methanol  # <- here

Sound
    kind: method
    injection: {volume: 2 uL, diluent: methanol}
    ---
    kind: sequence
    diluent: methanol

Sound, because the mobile phase starts rich in an alcohol as strong
    kind: method
    injection: {volume: 5 uL, diluent: methanol}
    programme:
      - {time: 0 min, modifier_share: 25 % v/v}
      - {time: 5 min, modifier_share: 40 % v/v}
    ---
    kind: sequence
    diluent: methanol

Remedy
    Inject less, or dilute with an alkane and inject twice as much; the tool tries whether the two
    mix: 2-propanol and heptane do, methanol and heptane part.

Source
    Effect: LCGC North America 31(4) 2013, 326 (unverified). 0.5 % of the hold-up volume for methanol, ethanol
    and dimethyl sulfoxide, 1 % for 2-propanol and acetonitrile, nothing below 2 uL unless it is 2 %
    of the hold-up volume, from 20 % of an alcohol as strong on: common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from methodlint.judging.ask.column import (
    Injected,
    diluent_limit,
    injected_by,
    liquid_strength,
    tray_temperature,
)
from methodlint.judging.ask.liquids import components_of, miscible_blend
from methodlint.judging.ask.rule import Candidate, Finding, NotChecked, RunCase, microlitres, show

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("run", "method.injection")
CAUSES = ("injection.overloads-column-volume",)

_ALKANE = "n-heptane"


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare each diluent and volume with what the column takes at the start."""
    by_liquid: dict[object, list[Injected]] = {}
    for group in injected_by(case.documents):
        by_liquid.setdefault(group.components, []).append(group)
    for alike in by_liquid.values():
        group = max(alike, key=lambda one: one.volume or 0.0)
        at = case.at(group.diluent_at.document, group.diluent_at.path)
        if group.diluent is None or liquid_strength(group.components) is None:
            yield case.not_checked(at, "method.injection.diluent", "its strength is not known")
        elif group.volume is None:
            yield case.not_checked("method.injection", "method.injection.volume")
        else:
            limit = diluent_limit(case.run, group, case.method)
            if limit is not None and group.volume > limit * (1.0 + 1e-6):
                yield _finding(case, group, alike, limit)


def _finding(case: RunCase, group: Injected, alike: list[Injected], limit: float) -> Finding:
    volume = group.volume or 0.0
    hold_up = case.run.hold_up_volume
    start = show(float(case.run.pumped_share[0]), "share")
    at = case.at(group.diluent_at.document, group.diluent_at.path)
    return case.finding(
        at,
        "caution",
        f"{_ul(volume)} of {group.words} ({show(volume / hold_up, 'share')} of the hold-up volume "
        f"{show(hold_up, 'volume')}) go into CO2 with {start} {case.run.plan.modifier_name}; up to "
        f"{_ul(limit)} are sound, {_ul(volume - limit)} less",
        found=microlitres(volume),
        limit=microlitres(limit),
        remedy=f"inject at most {_ul(limit)}",
        candidates=_candidates(case, group, alike, limit),
        also=(case.at(group.volume_at.document, group.volume_at.path),),
    )


def _candidates(
    case: RunCase, group: Injected, alike: list[Injected], limit: float
) -> list[Candidate]:
    """Half alkane and twice the volume where they mix on the tray, then the smaller volume."""
    found = []
    diluents = [case.at(written.document, written.path) for written in group.diluent_places]
    too_much = [one for one in alike if (one.volume or 0.0) > limit]
    amounts = [case.at(w.document, w.path) for one in too_much for w in one.volume_places]
    double = _ul(2.0 * (group.volume or 0.0))
    parts = components_of(group.diluent) if group.diluent is not None else ()
    tray = tray_temperature(case.documents)
    plain = len(alike) == 1 and len(parts) == 1
    if plain and not (group.diluent and group.diluent.additives):
        name = parts[0][0]
        halves = ((name, 0.5), (_ALKANE, 0.5))
        if miscible_blend(halves, halves, tray).verdict == "miscible":
            blend = {"liquids": [{"liquid": n, "share": f"{100 * s:g} % v/v"} for n, s in halves]}
            text = f"dilute 1:1 with {_ALKANE} and inject {double}"
            changes = [case.change(at, blend) for at in diluents]
            changes += [case.change(at, double) for at in amounts]
            found.append(case.candidate(text, *changes))
    least = math.floor(limit * 1e10) / 10.0
    if least > 0.0:
        text = f"inject {least:g} uL"
        found.append(case.candidate(text, *(case.change(at, f"{least:g} uL") for at in amounts)))
    return found


def _ul(volume: float) -> str:
    return show(volume, "volume", "uL")
