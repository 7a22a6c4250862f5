"""Findings about salts that a liquid does not hold, for modifier, makeup and washes alike."""

from __future__ import annotations

import math
from collections.abc import Iterator

from methodlint.documents.kinds.base import Liquid
from methodlint.documents.quantities.format import show
from methodlint.judging.case import Case
from methodlint.judging.finding import At, Candidate, Finding, Grade, Measure, NotChecked
from methodlint.rehearsal.contacts.dissolved import Dissolved, dissolved_in
from methodlint.rehearsal.plan.run_plan import components_of

__all__ = ["salt_findings"]

_LOWER_LEVELS = (20.0, 10.0, 5.0, 2.0)


def salt_findings(case: Case, liquid: Liquid, at: At, what: str) -> Iterator[Finding | NotChecked]:
    """Compare the salts of a liquid with what it holds.

    Between the ends of a limit's span, and for a blend whose limit is an estimate, the finding is
    a caution.

    Parameters
    ----------
    case
        The case being judged.
    liquid, at
        Liquid with its additives, and where it is written.
    what
        The liquid in words, for example `the makeup`.
    """
    for part in dissolved_in(liquid):
        place = At(at.document, (*at.path, "additives", part.index))
        if part.additive is None:
            yield case.not_checked(place, "additive", f"'{part.name}' is not a known additive")
        elif part.salt:
            yield from _one(case, liquid, place, part, what)


def _one(
    case: Case, liquid: Liquid, place: At, part: Dissolved, what: str
) -> Iterator[Finding | NotChecked]:
    names = " + ".join(name for name, _ in components_of(liquid)) or "its liquid"
    if part.limit is None or part.upper_limit is None:
        reason = f"how much {part.name} dissolves in {names} is not known"
        yield case.not_checked(place, "solubility", reason)
        return
    if part.concentration is None:
        if part.upper_limit > 0.0:
            yield case.not_checked(place, "level", f"no level of {part.name} in {what}")
            return
        found = math.inf
    else:
        found = part.concentration
    if found <= part.limit or found == 0.0:
        return
    grade: Grade = "fault"
    possible = found <= part.upper_limit
    if possible or part.limit_kind == "estimate":
        grade = "caution"
    limit = part.limit
    level = show(found, "amount concentration") if math.isfinite(found) else "any"
    holds = f"holds {show(limit, 'amount concentration', 'mM')}" if limit > 0.0 else "holds none"
    span = ""
    if part.upper_limit > limit:
        span = f" to {show(part.upper_limit, 'amount concentration', 'mM')}"
    estimate = " (an estimate for a blend)" if part.limit_kind == "estimate" else ""
    margin = (
        f": {show(found - limit, 'amount concentration', 'mM')} too much" if level != "any" else ""
    )
    yield case.finding(
        place,
        grade,
        f"{level} {part.name} in {what}; {names} {holds}{span}{estimate}{margin}",
        found=Measure(found, "mM") if math.isfinite(found) else None,
        limit=Measure(limit, "mM"),
        possible=possible,
        remedy=f"dissolve {part.name} in methanol with 5 % water, or take less of it",
        candidates=_candidates(case, place, part),
    )


def _candidates(case: Case, place: At, part: Dissolved) -> list[Candidate]:
    found = []
    level = At(place.document, (*place.path, "level"))
    for value in _LOWER_LEVELS:
        if part.limit is not None and value <= part.limit:
            text = f"take {value:g} mM of {part.name}"
            found.append(case.candidate(text, case.change(level, f"{value:g} mM")))
    liquid = At(place.document, (*place.path[:-2], "liquid"))
    blend = At(place.document, (*place.path[:-2], "liquids"))
    parts = [{"liquid": "methanol", "share": "95 %"}, {"liquid": "water", "share": "5 %"}]
    changes = (case.change(liquid, None), case.change(blend, parts))
    found.append(case.candidate("dissolve it in methanol with 5 % water", *changes))
    return found
