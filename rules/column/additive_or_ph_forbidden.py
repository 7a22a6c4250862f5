"""Additives and pH of what flows through the column stay within what it withstands.

Reason
    Acid and base loosen a coated selector, amines attack bare silica; an aqueous buffer outside
    the column's span dissolves it. pH means something only where the liquid is aqueous: 20 mM
    formate in methanol has no pH that a card's limit could be compared with.

Unsound
    kind: column
    phase: coated polysaccharide
    ---
    kind: method
    mobile_phase:
      modifier: {liquid: ethanol, line: modifier-2, additives: [{additive: DEA, level: 1 % v/v}]}  # <- here

Unsound
    kind: column
    additive_limits: [{additive: ammonium formate, level: 10 mM}]
    ---
    kind: method
    mobile_phase:
      modifier: {liquid: methanol, line: modifier-1, additives: [{additive: AmF, level: 20 mM}]}  # <- here

Sound
    kind: column
    phase: coated polysaccharide
    ---
    kind: method
    mobile_phase:
      modifier: {liquid: ethanol, line: modifier-2, additives: [{additive: DEA, level: 0.1 % v/v}]}

Sound, because no pH is defined in methanol
    kind: column
    ph_limits: [2, 8]
    ---
    kind: method
    mobile_phase:
      modifier: {liquid: methanol, line: modifier-1, ph: 9, additives: [{additive: AmF, level: 20 mM}]}

Remedy
    Lower the level, or use a volatile ammonium salt and a column that withstands it.

Source
    The column card. Without one: 0.5 % diethylamine or trifluoroacetic acid on coated
    polysaccharides, 0.5 % of an amine on bare silica, pH from 20 % water on: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.judging.ask.column import additive_limit, cards, highest_share, level_in
from methodlint.judging.ask.flow import Arrival, arrivals
from methodlint.judging.ask.rule import Finding, Loaded, Measure, NotChecked, RunCase, number

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("column.phase",)

_STREAMS = ("modifier", "residue", "flush")
_AQUEOUS = 0.20


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Ask every card about every stream that flows through it."""
    reaching = [
        arrival
        for arrival in arrivals(case.documents, (), case.neighbours)
        if arrival.role in _STREAMS
    ]
    for loaded, _ in cards(case.columns):
        for arrival in reaching:
            yield from _additives(case, loaded, arrival)
            yield from _ph(case, loaded, arrival)


def _additives(case: RunCase, loaded: Loaded, arrival: Arrival) -> Iterator[Finding | NotChecked]:
    card = next(card for _, card in cards((loaded,)))
    share = highest_share(case.method) if case.method is not None else None
    for index, entry in enumerate(arrival.additives):
        limit = additive_limit(card, entry.additive)
        if limit is None:
            continue
        at = case.at(arrival.document, (*arrival.path, "additives", index))
        level = level_in(entry, limit, share if arrival.role == "modifier" else 1.0)
        if level is None:
            reason = f"its level cannot be compared with {limit.words}, {limit.authority}"
            yield case.not_checked(at, f"level of {entry.additive}", reason)
        elif level > limit.level * (1.0 + 1e-3):
            written = entry.level.text if entry.level is not None else ""
            yield case.finding(
                at,
                limit.grade,
                f"{written} {entry.additive} flows through {loaded.name} as {arrival.role}, it "
                f"withstands {limit.words} ({number(level, 3)} against {number(limit.level, 3)} mM); "
                f"{limit.authority}",
                found=Measure(level, "mM"),
                limit=Measure(limit.level, "mM"),
                remedy=f"lower {entry.additive} to {limit.words}",
                candidates=[
                    case.candidate(
                        f"lower {entry.additive} to {limit.words}",
                        case.change(
                            case.at(at.document, (*at.path, "level")), f"{limit.level:.6g} mM"
                        ),
                    )
                ]
                if limit.level > 0.0
                else [],
                also=(case.at(loaded, "additive_limits"),),
            )


def _ph(case: RunCase, loaded: Loaded, arrival: Arrival) -> Iterator[Finding | NotChecked]:
    total = sum(share for _, share in arrival.components)
    water = sum(share for name, share in arrival.components if name == "water")
    if total <= 0.0 or water < _AQUEOUS * total:
        return
    at = case.at(arrival.document, arrival.path)
    limits = next(card for _, card in cards((loaded,))).ph_limits
    if limits is None or arrival.ph is None:
        figure = "column.ph_limits" if limits is None else f"pH of the {arrival.role}"
        yield case.not_checked(at, figure, f"{arrival.words} is aqueous")
        return
    nearest = min(max(arrival.ph, limits[0]), limits[1])
    if nearest != arrival.ph:
        yield case.finding(
            at,
            "fault",
            f"{arrival.words} at pH {arrival.ph:g} flows through {loaded.name}, which is rated to pH "
            f"{limits[0]:g} to {limits[1]:g}: {number(abs(arrival.ph - nearest), 2)} outside",
            found=Measure(arrival.ph),
            limit=Measure(nearest),
            remedy=f"buffer to pH {nearest:g}",
            also=(case.at(loaded, "ph_limits"),),
        )
