"""No liquid that harms the stationary phase reaches the column.

Reason
    Some liquids swell or dissolve a coated selector for good, even as the few microlitres of a
    diluent. Every way counts: modifier, wash that stays in the loop, diluent of the method and of
    each line, what another method leaves in the lines, flush, storage. Makeup joins downstream of the
    column and does not count.

Unsound
    kind: column
    phase: coated polysaccharide
    ---
    kind: sequence
    diluent: dichloromethane  # <- here

Sound
    kind: column
    phase: coated polysaccharide
    ---
    kind: sequence
    diluent: ethanol

Sound, because an immobilised selector withstands it
    kind: column
    phase: immobilised polysaccharide
    ---
    kind: sequence
    diluent: dichloromethane

Sound, because the makeup joins downstream of the column
    kind: column
    phase: coated polysaccharide
    ---
    kind: method
    makeup: {liquid: acetone, flow: 0.2 mL/min, tee: after the regulator}

Unsound, because a class of liquids is forbidden
    kind: column
    phase: bonded silica
    forbidden_liquids: [ketones]
    ---
    kind: sequence
    diluent: acetone  # <- here

Remedy
    Use the liquid that the message offers, or an immobilised column.

Source
    Tetrahydrofuran and chloroform on coated polysaccharides: Polym. J. 38, 91; J. Chromatogr. A
    2014, 1363, 51. Dichloromethane, ethyl acetate, acetone, dimethyl sulfoxide, dimethylformamide,
    toluene: common practice, no source. The card's own lists, of names or classes (ethers), come first.
"""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.judging.ask.column import cards, replacement, tolerance
from methodlint.judging.ask.flow import Arrival, arrivals
from methodlint.judging.ask.liquids import find_liquid
from methodlint.judging.ask.rule import (
    Candidate,
    Finding,
    Loaded,
    NotChecked,
    RunCase,
    microlitres,
    show,
)

SUBJECT = "run"
CLASSES = ("stop",)
NEEDS = ("column.phase",)


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Ask every card about every liquid that arrives."""
    reaching = arrivals(case.documents, case.columns, case.neighbours)
    for loaded, card in cards(case.columns):
        for arrival in reaching:
            if arrival.role == "storage liquid" and arrival.document is not loaded:
                continue
            at = case.at(arrival.document, arrival.path)
            said = [(name, share, tolerance(card, name)) for name, share in arrival.components]
            bad = next((item for item in said if item[2].verdict == "forbidden"), None)
            unclear = next((item for item in said if item[2].verdict == "not known"), None)
            if bad is not None and not _traces(card.trace_tolerated, arrival, bad[0]):
                if arrival.certain:
                    yield _finding(case, loaded, arrival, bad[0], bad[2].authority)
                else:
                    figure = "instrument.autosampler.wash_enters_loop"
                    reason = f"{bad[0]} would harm {loaded.name} if it enters"
                    yield case.not_checked(at, figure, reason)
            elif bad is None and unclear is not None:
                reason = f"whether {loaded.name} withstands {unclear[0]}: {unclear[2].authority}"
                yield case.not_checked(at, "column.allowed_liquids", reason)


def _traces(tolerated: object, arrival: Arrival, name: str) -> bool:
    """Whether so little arrives that the card tolerates it."""
    limit = getattr(tolerated, "si", None)
    if limit is None or arrival.volume is None:
        return False
    total = sum(share for _, share in arrival.components)
    part = sum(share for other, share in arrival.components if other == name) / total
    return bool(arrival.volume * part <= limit * (1.0 + 1e-9))


def _finding(case: RunCase, loaded: Loaded, arrival: Arrival, name: str, authority: str) -> Finding:
    card = next(card for other, card in cards(case.columns) if other is loaded)
    offered = next(replacement(card, name), None)
    at = case.at(arrival.document, arrival.path)
    volume = f" ({show(arrival.volume, 'volume', 'uL')})" if arrival.volume is not None else ""
    limit = card.trace_tolerated
    traces = f", which tolerates {show(limit.si, 'volume', 'uL')}" if limit is not None else ""
    return case.finding(
        at,
        "stop",
        f"{name} reaches {loaded.name} ({card.phase}) as {arrival.role}{volume}: {arrival.way}; "
        f"{authority} forbids it{traces}",
        found=microlitres(arrival.volume) if arrival.volume is not None else None,
        limit=microlitres(limit.si) if limit is not None else None,
        remedy=_remedy(arrival, offered),
        candidates=_candidates(case, arrival, name, list(replacement(card, name))),
        also=(case.at(loaded, "phase"),),
    )


def _remedy(arrival: Arrival, offered: str | None) -> str:
    if offered is None:
        return "use another column"
    if arrival.role == "residue":
        return f"flush the lines with {offered} first, the column taken out"
    return f"use {offered} instead"


def _candidates(case: RunCase, arrival: Arrival, name: str, offered: list[str]) -> list[Candidate]:
    if arrival.role not in ("diluent", "flush", "needle wash", "storage liquid"):
        return []
    if len(arrival.components) > 1 or find_liquid(name) is None:
        return []
    key = ("liquid",) if arrival.role == "needle wash" else ()
    places = [case.at(arrival.document, (*path, *key)) for path in arrival.paths]
    return [
        case.candidate(f"use {other} instead", *(case.change(at, other) for at in places))
        for other in offered
    ]
