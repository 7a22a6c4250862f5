"""A salt in the modifier stays dissolved where the mobile phase is leanest.

Reason
    CO2 holds no salt; what keeps it dissolved is the modifier around it. With a few per cent of
    modifier, more than about 10 mM in it comes out on the frit of the column, slowly and out of
    sight. A little water in the modifier keeps it in.

Unsound
    kind: method
    mobile_phase:
      modifier:
        liquid: methanol
        line: modifier-1
        additives: [{additive: ammonium formate, level: 20 mM}]  # <- here
    programme:
      - {time: 0 min, modifier_share: 2 % v/v}
      - {time: 5 min, modifier_share: 40 % v/v}

Sound
    kind: method
    mobile_phase:
      modifier:
        liquid: methanol
        line: modifier-1
        additives: [{additive: ammonium formate, level: 10 mM}]
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 5 min, modifier_share: 40 % v/v}

Remedy
    Start at 5 % modifier or more, or put 2 to 5 % water into the modifier.

Source
    Water for solubility: a study of additives in the mobile phase (abstract only). 10 mM, 30 mM and
    5 %: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.liquids import Dissolved, dissolved_in, water_share
from methodlint.judging.ask.rule import Candidate, Finding, Measure, RunCase, When, number, show

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("run",)

_LEAN = 0.05
_RATHER_LEAN = 0.10
_MUCH = 10.0
_VERY_MUCH = 30.0
_SOME_WATER = 0.02
_ROUNDING = 1e-6


def applies(case: RunCase) -> bool:
    """There is a salt in the modifier."""
    modifier = case.method_liquid()
    return modifier is not None and any(part.salt for part in dissolved_in(modifier))


def judge(case: RunCase) -> Iterator[Finding]:
    """Look at the leanest share that the pumps set."""
    run, modifier = case.run, case.method_liquid()
    assert modifier is not None
    row = int(run.pumped_share.argmin())
    share = float(run.pumped_share[row])
    for part in dissolved_in(modifier):
        if not part.salt or part.concentration is None or share <= 0.0:
            continue
        limit = 0.0
        if share < _RATHER_LEAN - _ROUNDING and part.concentration > _VERY_MUCH:
            limit = _VERY_MUCH
        elif share < _LEAN - _ROUNDING and part.concentration > _MUCH:
            limit = _MUCH if water_share(modifier) < _SOME_WATER else 0.0
        if limit:
            yield _finding(case, part, share, limit, float(run.time[row]))


def _finding(case: RunCase, part: Dissolved, share: float, limit: float, time: float) -> Finding:
    level = part.concentration or 0.0
    return case.finding(
        f"method.mobile_phase.modifier.additives[{part.index}]",
        "caution",
        f"{show(level, 'amount concentration', 'mM')} {part.name} in the modifier may come out "
        f"at {show(time, 'time', 'min')}, where the mobile phase has {number(100 * share, 3)} % modifier; "
        f"{limit:g} mM is usual there: {number(level - limit, 3)} mM too much "
        f"({show(level * share, 'amount concentration', 'mM')} in the whole mobile phase)",
        found=Measure(level, "mM"),
        limit=Measure(limit, "mM"),
        when=When(time, time),
        remedy="start at 5 % modifier, or put 2 to 5 % water into the modifier",
        candidates=_candidates(case, part, limit),
    )


def _candidates(case: RunCase, part: Dissolved, limit: float) -> list[Candidate]:
    found = []
    phase = "method.mobile_phase.modifier"
    modifier = case.method_liquid()
    if modifier is not None and limit == _MUCH:
        has_water = any(level.additive == "water" for level in modifier.additives)
        if not has_water:
            place = len(modifier.additives)
            change = case.change(
                case.at(f"{phase}.additives[{place}]"),
                {"additive": "water", "level": "2 % v/v"},
                insert=True,
            )
            found.append(case.candidate("put 2 % v/v water into the modifier", change))
    rows = case.method.programme if case.method else ()
    lean = [i for i, r in enumerate(rows) if r.modifier_share and r.modifier_share.si < _LEAN]
    changes = [case.change(f"method.programme[{i}].modifier_share", "5 % v/v") for i in lean]
    if not rows:
        changes = [case.change("method.mobile_phase.modifier_share", "5 % v/v")]
    found.append(case.candidate("start at 5 % v/v modifier", *changes))
    level = case.change(f"{phase}.additives[{part.index}].level", f"{limit:g} mM")
    found.append(case.candidate(f"take {limit:g} mM of {part.name}", level))
    return found
