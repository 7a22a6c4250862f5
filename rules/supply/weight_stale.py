"""The weight of the cylinder is of today, or what was drawn since is logged.

Reason
    When the liquid ends is computed from the weight on the card. A weight from before the last
    sequence, or one that no cylinder can have, makes that figure worthless; it must not look
    like a pass.

Unsound
    kind: supply
    weighed: 2026-11-10  # <- here
    last_used: 2026-11-20

Unsound, because nobody weighs after the run before it
    kind: supply
    weighed: 2026-12-23  # <- here

Sound
    kind: supply
    weighed: 2026-11-23
    last_used: 2026-11-20

Sound, because the level is measured all the time
    kind: supply
    weighed: 2026-11-10
    last_used: 2026-11-20
    telemetry: true

Remedy
    Weigh the cylinder now, or write down what was drawn since in `used_since_weighed`. Where the
    weighing lies after the run, look up the day.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, NotChecked, kilograms, show
from methodlint.judging.ask.supply import age_in_days, days_after_the_run, weight_doubt

SUBJECT = "batch"
CLASSES = ("caution", "note")
NEEDS = ()


def applies(case: BatchCase) -> bool:
    """A weight that is not there at all is asked for where it is needed."""
    supply = case.supply
    return supply is not None and supply.net_mass is not None and supply.withdrawal != "bulk"


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Say that the weight cannot be relied on, or how old it is and what is counted since."""
    supply = case.supply
    assert supply is not None
    late = days_after_the_run(supply, case.as_of)
    if late:
        yield case.finding(
            "supply.weighed",
            "caution",
            f"weighed on {supply.weighed}, {late} d after the run of {case.as_of}: a slip in one "
            "of the days, or the weight of another filling; when the liquid ends is not known "
            "from it",
            remedy="write the day of the last weighing before the run, or weigh the cylinder now",
        )
    fresh = case.policy.weighing_valid_for
    doubt = weight_doubt(supply, case.as_of, fresh.si if fresh is not None else None)
    if doubt is not None and not (late and doubt.path == ("weighed",)):
        place = case.at(case.documents["supply"], doubt.path)
        reason = f"{doubt.reason}; when the liquid ends is only as good as this weight"
        yield case.not_checked(place, doubt.missing, reason)
        return
    age, used = age_in_days(supply, case.as_of), supply.used_since_weighed
    if age is not None and not late and used is not None and used.si > 0.0:
        yield case.finding(
            "supply.used_since_weighed",
            "note",
            f"weighed {age} d before the run; {show(used.si, 'mass', 'kg')} logged since are "
            "taken off",
            found=kilograms(used.si),
        )
