"""The column sees enough of the starting mobile phase before the next injection.

Reason
    The adsorbed layer of modifier and additive follows the mobile phase slowly, slowest of all
    with an additive in a lean mobile phase. Too short a settling makes retention depend on what
    ran before. A shorter, constant rhythm can be sound: a suitability series measured at that
    very rhythm (`suitability: {at_rhythm: true}`) settles the matter.

Unsound
    kind: method
    settling_time: 0.5 min  # <- here
    run_length: 7 min

Sound
    kind: method
    settling_time: 3 min

Sound, because a series at the run's own rhythm was measured and passed
    kind: method
    settling_time: 0.5 min
    run_length: 7 min
    suitability: {at_rhythm: true}

Remedy
    Lengthen the settling time; a note only for screening and preparative work. What the instrument spends between two runs is not counted,
    because nobody promises it.

Source
    Dwell volume plus 5 hold-up volumes, 10 with an additive, 20 with an additive below 5 %
    modifier: common practice, no source. Longer with additives: published studies of additives
    in SFC (abstract only).
"""

import math
from collections.abc import Iterator

from methodlint.judging.ask.column import (
    column_volumes_wanted,
    equilibration_volume,
    holds_additive,
    pumped_after,
    return_to_start,
)
from methodlint.judging.ask.rule import Finding, RunCase, When, minutes, show
from methodlint.judging.ask.sequence import follows_itself

SUBJECT = "run"
CLASSES = ("caution", "note")
NEEDS = ("flows",)


def applies(case: RunCase) -> bool:
    """Not for a constant composition, a rhythm that was measured, or a method run singly."""
    if case.method is None or (case.method.suitability and case.method.suitability.at_rhythm):
        return False
    if not follows_itself(case):
        return False
    run = case.rehearsal
    return run is None or not run.metered or not run.programme.isocratic


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare the volume pumped after the return with what the column wants."""
    run = case.run
    begins = return_to_start(run)
    flow, share = float(run.programme.flow[0]), float(run.programme.share[0])
    if begins is None or flow <= 0.0:
        return  # gradient.no-return-to-start says so
    additive = holds_additive(case.method_liquid())
    wanted = column_volumes_wanted(additive=additive, start_share=share)
    needed = equilibration_volume(run, wanted)
    found = pumped_after(run, begins)
    if found >= needed * (1.0 - 1e-6):
        return
    lacks = (needed - found) / flow
    settling = case.get("method.settling_time")
    longer = math.ceil(((settling.si if settling else 0.0) + lacks) / 6.0 - 1e-6) / 10.0
    change = case.change("method.settling_time", f"{longer:g} min")
    yield case.finding(
        "method.settling_time" if settling else "method.programme",
        "note" if case.purpose in ("screening", "preparative") else "caution",
        f"{_min(found / flow)} at the starting composition before the next injection, "
        f"{_min(needed / flow)} are needed: dwell {show(run.dwell_volume, 'volume')} and "
        f"{wanted:.0f} hold-up volumes of {show(run.hold_up_volume, 'volume')} at "
        f"{show(flow, 'volume flow')}{' with an additive' if additive else ''}; "
        f"{_min(lacks)} too short",
        found=minutes(found / flow),
        limit=minutes(needed / flow),
        when=When(begins, run.programme.cycle),
        remedy=f"set the settling time to {longer:g} min",
        candidates=[case.candidate(f"set the settling time to {longer:g} min", change)],
        also=(case.at("method.run_length"),),
    )


def _min(time: float) -> str:
    return show(time, "time", "min", digits=2)
