"""The CO2 that was weighed is the CO2 that was predicted.

Reason
    A cylinder that loses more than its runs explain tells of a leak, of a run that nobody wrote
    down, or of a change of the cylinder. A kilogram of CO2 in a closed room matters to whoever
    works there.

Unsound
    kind: logbook
    entries:
      - {date: 2026-09-01, injections: 40, weight_before: 84.0 kg, weight_after: 83.4 kg}
      - {date: 2026-09-02, injections: 40, weight_before: 83.4 kg, weight_after: 81.6 kg}  # <- here

Sound
    kind: logbook
    entries:
      - {date: 2026-09-01, injections: 40, weight_before: 84.0 kg, weight_after: 83.4 kg}
      - {date: 2026-09-02, injections: 40, weight_before: 83.4 kg, weight_after: 82.8 kg}

Remedy
    Close the cylinder valve when nobody works, watch the CO2 monitor, and look for the leak with a
    suitable detector or leak spray, by the local rules for compressed gas. Write down runs and
    changes that are missing.

Source
    CO2 of a run by the density in the pump head (Span and Wagner 1996). 0.15 kg for two weighings
    and 10 % of what was predicted, or what the lab's policy sets (review.co2_difference): common
    practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.history import HistoryCase, Weighed, day
from methodlint.judging.ask.rule import Finding, NotChecked, counted, kilograms, show, visible

SUBJECT = "history"
CLASSES = ("caution",)
NEEDS = ()


def judge(case: HistoryCase) -> Iterator[Finding | NotChecked]:
    """Report every interval that differs, and cylinders that differ in all."""
    weighed = [one for one in case.history.weighed if not one.change_not_logged]
    for one in case.history.weighed:
        if one.change_not_logged:
            yield case.finding(
                case.entry_at(one.last),
                "caution",
                f"{visible(one.supply)} is {_kg(-one.weighed)} heavier on {day(one.ends)} than on "
                f"{day(one.begins)}, and no change of the cylinder is logged; a new one is assumed",
                remedy="write cylinder_changed: true, or correct the weight",
            )
    single = [one for one in weighed if not one.whole and one.differs]
    told = {(one.supply, one.cylinder) for one in single}
    for one in single:
        yield _finding(case, one)
    for one in weighed:
        # What one interval explains is not said again of the whole cylinder.
        if one.whole and one.differs and (one.supply, one.cylinder) not in told:
            yield _finding(case, one)
    unknown = sum(one.unknown for one in weighed if not one.whole)
    if unknown:
        reason = f"{counted(unknown, 'entry')} between weighings cannot be predicted"
        at = case.at("logbook.entries")
        yield case.not_checked(at, "method, column, instrument and injections of each", reason)


def _finding(case: HistoryCase, one: Weighed) -> Finding:
    more = one.more > 0.0
    span = f"from {day(one.begins)} to {day(one.ends)}"
    why = (
        "a leak, or a run or a change of the cylinder that is not logged"
        if more
        else "a logged run that was not made, or a weight that was misread"
    )
    all_of_it = "in all " if one.whole else ""
    return case.finding(
        case.entry_at(one.last, "weight_after" if more else ""),
        "caution",
        f"{visible(one.supply)} lost {_kg(one.weighed)} {all_of_it}{span} by weight, {_kg(one.predicted)} "
        f"were predicted for {counted(one.runs, 'logged run')}: {_kg(abs(one.more))} "
        f"{'more' if more else 'less'} than predicted (limit {_kg(one.limit)}); {why}",
        found=kilograms(one.weighed),
        limit=kilograms(one.predicted),
        band=kilograms(one.limit),
        remedy="look for a leak by the local rules for compressed gas, and write down what is missing"
        if more
        else "compare the logged runs with those that were made, and weigh again",
        cautions=("asphyxiation",) if more else (),
    )


def _kg(mass: float) -> str:
    return show(mass, "mass", "kg")
