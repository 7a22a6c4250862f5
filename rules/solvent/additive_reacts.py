"""Additives meet nothing that they react with.

Reason
    An amine with an acid is a salt by the time it reaches the column; a primary or secondary
    amine reacts with ketones, esters and chlorinated liquids in the bottle, and takes up CO2 as
    carbamate. Levels that everybody uses are left alone: there it is reversible and known.

Unsound
    kind: method
    mobile_phase:
      modifier:
        liquid: methanol
        line: modifier-1
        additives:
          - {additive: diethylamine, level: 0.1 % v/v}  # <- here
          - {additive: formic acid, level: 0.1 % v/v}

Sound, because the level is customary and the carbamate reversible
    kind: method
    mobile_phase:
      modifier:
        liquid: methanol
        line: modifier-1
        additives: [{additive: diethylamine, level: 0.3 % v/v}]

Remedy
    Use one additive, or the ammonium salt of the acid in place of amine and acid.

Source
    Amines and CO2: Pollet and Liotta 2016. The rest: common practice, no source.
"""

from collections.abc import Iterator
from itertools import combinations

from methodlint.judging.ask.liquids import (
    Dissolved,
    additives_in_flow,
    components_of,
    concentration,
    find_liquid,
    makeup_of,
)
from methodlint.judging.ask.rule import Finding, RunCase, number

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("method.mobile_phase",)

_AMINE_LEVEL = "0.5 % v/v"
_AMMONIA_LEVEL = 50.0
_ACID_LEVEL = "1 % v/v"
_BASES = ("amine", "ammonia")


def judge(case: RunCase) -> Iterator[Finding]:
    """Look at additives with each other, with their liquid, with CO2 and with the diluents."""
    parts = [(at, part) for at, part, _ in additives_in_flow(case) if part.additive is not None]
    reported: set[str] = set()
    for (at, one), (_, other) in combinations(parts, 2):
        kinds = (
            {one.additive.kind, other.additive.kind} if one.additive and other.additive else set()
        )
        if "acid" in kinds and kinds & set(_BASES):
            reported |= {one.name, other.name}
            yield case.finding(
                at,
                "caution",
                f"{one.name} and {other.name} form a salt where they meet in the flow path",
                remedy="use the ammonium salt of the acid in place of both",
            )
            break
    liquids = _liquids(case)
    for at, part in parts:
        if part.name in reported or part.additive is None:
            continue
        said = _with_liquid(part, liquids) or _with_co2(part) or _with_alcohol(part, liquids)
        if said:
            reported.add(part.name)
            yield case.finding(at, "caution", said, remedy="use another additive or less of it")


def _liquids(case: RunCase) -> dict[str, str]:
    """Families of the liquids in the flow path, each with the name of a liquid."""
    names: list[str] = []
    modifier = case.method_liquid()
    names += [name for name, _ in (components_of(modifier) if modifier else ())]
    makeup = makeup_of(case.documents)
    names += [name for name, _ in (makeup.components if makeup else ())]
    names += [
        name
        for contact in case.contacts
        if contact.first.role == "diluent"
        for name, _ in contact.first.components
    ]
    found: dict[str, str] = {}
    for name in names:
        liquid = find_liquid(name)
        if liquid is not None:
            found.setdefault(liquid.family, liquid.name)
    return found


def _with_liquid(part: Dissolved, liquids: dict[str, str]) -> str:
    assert part.additive is not None
    for family in ("ketone", "ester", "chlorinated"):
        if family in liquids and family in part.additive.reacts_with:
            return f"{part.name} reacts with {liquids[family]} where they meet in the flow path"
    return ""


def _with_co2(part: Dissolved) -> str:
    """Amines take up CO2; at customary levels in an alcohol that is reversible."""
    assert part.additive is not None
    if "carbon dioxide" not in part.additive.reacts_with or part.concentration is None:
        return ""
    limit = concentration(_AMINE_LEVEL, part.name)
    limit = _AMMONIA_LEVEL if part.additive.kind == "ammonia" else limit
    if limit is None or part.concentration <= 1.02 * limit:
        return ""
    return (
        f"{number(part.concentration, 3)} mM {part.name} takes up CO2 as carbamate; up to {number(limit, 3)} mM "
        "is customary and reversible"
    )


def _with_alcohol(part: Dissolved, liquids: dict[str, str]) -> str:
    """Acids turn into esters in alcohols on standing; at customary levels slowly."""
    assert part.additive is not None
    limit = concentration(_ACID_LEVEL, part.name) if part.additive.kind == "acid" else None
    if "alcohol" not in liquids or limit is None or part.concentration is None:
        return ""
    if part.concentration <= 1.02 * limit:
        return ""
    return (
        f"{number(part.concentration, 3)} mM {part.name} turns into an ester in {liquids['alcohol']} on "
        f"standing; up to {number(limit, 3)} mM is customary"
    )
