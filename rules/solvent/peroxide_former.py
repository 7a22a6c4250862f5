"""An ether that forms peroxides is inhibited, or its bottle is dated and fresh.

Reason
    Tetrahydrofuran, dioxane, 2-methyltetrahydrofuran and diisopropyl ether form peroxides on
    standing in air. Where the liquid evaporates, in the waste vessel or at the regulator, they
    are left behind and can explode.

Unsound
    kind: solvents
    bottles:
      - {line: modifier-1, liquid: tetrahydrofuran, fill: 900 mL, inhibited: false}  # <- here

Sound
    kind: solvents
    bottles:
      - line: modifier-1
        liquid: tetrahydrofuran
        fill: 900 mL
        inhibited: false
        opened: 2026-11-20

Remedy
    Test for peroxides with a strip before use, discard what is older than three months (twelve if
    it is inhibited), write the
    date of opening on the bottle and the card.

Source
    Three months after opening, twelve where it is inhibited: common practice, no source.
"""

import datetime
from collections.abc import Iterator

from methodlint.judging.ask.liquids import components_of, find_liquid
from methodlint.judging.ask.rule import BatchCase, Finding, Measure

SUBJECT = "batch"
CLASSES = ("stop", "note")
NEEDS = ("solvents.bottles", "sequence.begins")

_OLD = 92
_OLD_INHIBITED = 366


def applies(case: BatchCase) -> bool:
    """One of the bottles holds an ether that forms peroxides."""
    return case.solvents is None or any(_formers(case))


def _formers(case: BatchCase) -> Iterator[tuple[int, str]]:
    for index, bottle in enumerate(case.solvents.bottles if case.solvents else ()):
        for name, share in components_of(bottle):
            liquid = find_liquid(name)
            if liquid is not None and liquid.peroxide_former and share >= 0.05:
                yield index, name
                break


def judge(case: BatchCase) -> Iterator[Finding]:
    """Look at inhibitor and date of opening of every such bottle."""
    today = case.as_of or case.get("sequence.begins").date()
    for index, name in _formers(case):
        bottle = case.get(f"solvents.bottles[{index}]")
        oldest = _oldest(case) if not bottle.inhibited else _OLD_INHIBITED
        age = (today - bottle.opened).days if bottle.opened else None
        if age is not None and age <= oldest:
            continue
        at = f"solvents.bottles[{index}]" + (".opened" if bottle.opened else "")
        opened = "carries no date of opening" if age is None else f"was opened {age} days ago"
        yield case.finding(
            at,
            "note" if bottle.inhibited else "stop",
            f"{name} on {bottle.line} {opened}"
            f"{' and is inhibited' if bottle.inhibited else ' and is not known to be inhibited'}; "
            f"it forms peroxides, {oldest} days are usual",
            found=Measure(age, "d") if age is not None else None,
            limit=Measure(oldest, "d"),
            remedy="test for peroxides with a strip, or take a fresh bottle and date it",
            candidates=[
                case.candidate(
                    "take a fresh bottle and write its date of opening on the card",
                    case.change(
                        f"solvents.bottles[{index}].opened",
                        (today - datetime.timedelta(days=1)).isoformat(),
                    ),
                )
            ],
            cautions=("flammable",),
        )


def _oldest(case: BatchCase) -> int:
    """A lab may be stricter; it cannot put off a stop."""
    policy = case.policy.ether_shelf_life
    return _OLD if policy is None else min(int(policy.si // 86400), _OLD)
