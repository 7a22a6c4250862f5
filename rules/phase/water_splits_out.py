"""Water in the modifier stays dissolved at the leanest point of the programme.

Reason
    CO2 hardly dissolves water; the alcohol carries it. What the modifier holds easily at 20 %
    splits out at 3 %, and acetonitrile carries less than an alcohol. The leanest moment decides.

Unsound
    kind: method
    mobile_phase:
      modifier:  # <- here
        liquids: [{liquid: methanol, share: 91 % v/v}, {liquid: water, share: 9 % v/v}]
        line: modifier-1
    programme:
      - {time: 0 min, modifier_share: 3 % v/v}
      - {time: 5 min, modifier_share: 40 % v/v}

Sound
    kind: method
    mobile_phase:
      modifier:
        liquids: [{liquid: methanol, share: 95 % v/v}, {liquid: water, share: 5 % v/v}]
        line: modifier-1
    programme:
      - {time: 0 min, modifier_share: 3 % v/v}
      - {time: 5 min, modifier_share: 40 % v/v}

Put right
    Start with more modifier, or with less water in it; 1-5 % water in methanol is a useful
    additive.

Source
    A working table from memory, not verified: 0.1 % v/v water of all in CO2 alone, 1 % with 10 %
    alcohol, half of that with acetonitrile; never more than 10 % water in an alcohol or 5 % in
    acetonitrile. Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.for_rules import (
    Finding,
    RunCase,
    components_of,
    filled_rows,
    find_additive,
    number,
    percent,
)

SUBJECT = "run"
CLASSES = ("fault",)
NEEDS = ("method.mobile_phase.modifier",)

_LEANEST_LIMIT = 0.001
_LIMIT_AT_TENTH = 0.010
_TENTH = 0.10
_HARDEST = 0.0333
"""Modifier share at which the table carries least water for the modifier there is."""

_LEANER_SOLVENTS = ("acetonitrile",)
_SOLVENT_SHARE = 0.5
_USUAL_STARTS = (3, 5, 8, 10, 15)


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare water of the whole mobile phase with what its leanest composition carries."""
    water = _water(case)
    rows = filled_rows(case.method) if case.method else ()
    shares = [row.share for row in rows if row.share is not None]
    if not shares:
        return
    lean = min(max(min(shares), _HARDEST), max(shares))
    factor = 0.5 if _by_acetonitrile(case) else 1.0
    limit = factor * _carried(lean)
    total = water * lean
    if total <= limit * (1.0 + 1e-6):
        return
    starts = (n for n in _USUAL_STARTS if n > 100 * lean)
    passes = next((n for n in starts if water * n / 100 <= factor * _carried(n / 100)), None)
    at_least = f"start with {passes} % modifier or " if passes else ""
    yield case.finding(
        "method.mobile_phase.modifier",
        "fault",
        f"at the leanest point, {number(100 * lean, 3)} % modifier, the {number(100 * water, 3)} % water in it "
        f"are {number(100 * total, 2)} % of the mobile phase, and {number(100 * limit, 2)} % stay dissolved "
        f"there ({number(100 * (total - limit), 2)} % too much)",
        found=percent(total),
        limit=percent(limit),
        remedy=f"{at_least}keep the modifier at {number(100 * limit / lean, 2)} % water or less",
        also=(case.at("method.programme"),),
    )


def _carried(share: float) -> float:
    """Water that an alcohol keeps dissolved, of the whole mobile phase, v/v."""
    if share >= _TENTH:
        return _TENTH * share
    return _LEANEST_LIMIT + (_LIMIT_AT_TENTH - _LEANEST_LIMIT) * (share / _TENTH) ** 2


def _water(case: RunCase) -> float:
    """Share of water in the modifier, as a part of the blend or as an additive."""
    liquid = case.method_liquid()
    if liquid is None:
        return 0.0
    water = sum(share for name, share in components_of(liquid) if name == "water")
    for entry in liquid.additives:
        found = find_additive(entry.additive)
        if found is None or found.kind != "water" or entry.level is None:
            continue
        if entry.level.dimension == "share":
            water += entry.level.si
    return water


def _by_acetonitrile(case: RunCase) -> bool:
    liquid = case.method_liquid()
    parts = dict(components_of(liquid)) if liquid else {}
    return any(parts.get(name, 0.0) >= _SOLVENT_SHARE for name in _LEANER_SOLVENTS)
