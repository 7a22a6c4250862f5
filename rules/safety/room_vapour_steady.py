"""Solvent vapour that vented gas carries into the room stays below the lab's exposure limit.

Reason
    CO2 that leaves a separator is saturated with the modifier: at 20 degC every mole takes about
    0.15 mol of methanol along. Vented into a small room that is soon more than the limit for
    the solvent, while the CO2 itself is still harmless.

Unsound
    kind: room
    air_changes: 1 1/h  # <- here
    outlets:
      - {name: separator, of: separator, ducted: false}
    ---
    kind: lab
    policy: {exposure_limits: {jurisdiction: house rule, vapours: {methanol: 200 ppm}}}

Sound
    kind: room
    air_changes: 12 1/h
    outlets:
      - {name: separator, of: separator, ducted: false}
    ---
    kind: lab
    policy: {exposure_limits: {jurisdiction: house rule, vapours: {methanol: 200 ppm}}}

Remedy
    Lead the vent outdoors or to an extraction.

Source
    Vapour pressures as given with each liquid; gas leaves saturated at the highest temperature of
    the room. Limits differ between jurisdictions and are the lab's own; caution above half,
    and the band of 5 %: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.liquids import find_liquid
from methodlint.judging.ask.room import (
    air_changes_during,
    air_volume,
    highest_co2_flow,
    outlets_with,
    steady_vapour_fraction,
    unstaffed_spans,
    vented_vapours,
)
from methodlint.judging.ask.rule import (
    BatchCase,
    Candidate,
    Finding,
    NotChecked,
    Quantity,
    judge_limit,
    ppm,
    show,
)

SUBJECT = "batch"
CLASSES = ("stop", "caution")
NEEDS = ("batch", "room.volume", "room.outlets", "room.highest_temperature")

_CAUTION_ABOVE = 0.5
_BAND = 0.05


def applies(case: BatchCase) -> bool:
    """Vapour that is led outdoors does not reach the room."""
    room = case.room
    return room is not None and bool(outlets_with(room, False))


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Take each solvent at the slowest air change against the lab's limit for it."""
    room, sequence = case.room, case.sequence
    assert room is not None and room.volume is not None and sequence is not None
    volume = air_volume(room) or room.volume.si
    temperature = case.get("room.highest_temperature").si
    unstaffed = unstaffed_spans(room, sequence.begins, case.batch.duration)
    rates = air_changes_during(room, unstaffed, case.batch.duration)
    # What is missing of them is said by safety.room-co2-steady.
    known = sorted((rate for rate in rates if not isinstance(rate, str)), key=lambda r: r.rate)
    if not known or highest_co2_flow(case.batch) <= 0.0:
        return
    slowest = known[0]
    limits = _limits(case)
    methods = {name: run.method for name, run in case.runs.items() if run.method}
    for name, flow in vented_vapours(case.batch, methods, case.solvents, room, temperature).items():
        missing = f"lab.policy.exposure_limits.vapours.{name}"
        if flow is None:
            yield case.not_checked("room", missing, f"the vapour pressure of {name} is not known")
            continue
        level = steady_vapour_fraction(flow, volume, slowest.rate, temperature)
        says = f"{name} in the room settles at up to {show(level, 'ppm')} {slowest.words}"
        limit = limits.get(name)
        if limit is None:
            reason = f"{says}; the lab sets no limit for {name}"
            yield case.not_checked("room", missing, reason)
            continue
        verdict = judge_limit(level, limit.si, _BAND * level, "stop")
        verdict = verdict or judge_limit(level, _CAUTION_ABOVE * limit.si, 0.0, "caution")
        if verdict is None:
            continue
        policy = case.policy.exposure_limits
        where = f" of {policy.jurisdiction}" if policy and policy.jurisdiction else ""
        enough = slowest.rate * level / (_CAUTION_ABOVE * limit.si) if limit.si > 0.0 else 0.0
        or_air = f", or at least {show(enough, 'air change rate')}" if enough > 0.0 else ""
        yield case.finding(
            case.at(case.documents["room"], slowest.path),
            verdict.grade,
            f"{says} with {show(slowest.rate, 'air change rate')}; the limit{where} is "
            f"{show(limit.si, 'ppm')} (margin {show(limit.si - level, 'ppm')}, band "
            f"{show(_BAND * level, 'ppm')})",
            found=ppm(level),
            limit=ppm(limit.si),
            band=ppm(_BAND * level),
            possible=verdict.possible,
            remedy=f"lead the vents outdoors{or_air}",
            candidates=_candidates(case),
            also=(case.at("room.outlets"),),
            cautions=("flammable", "toxic"),
        )
        return  # the vent is one cause, whatever else it carries


def _limits(case: BatchCase) -> dict[str, Quantity]:
    limits = case.policy.exposure_limits
    found: dict[str, Quantity] = {}
    for name, limit in limits.vapours.items() if limits else ():
        liquid = find_liquid(name)
        found[liquid.name if liquid else name] = limit
    return found


def _candidates(case: BatchCase) -> list[Candidate]:
    assert case.room is not None
    open_ones = outlets_with(case.room, False)
    names = " and ".join(outlet.name for _, outlet in open_ones)
    changes = [case.change(f"room.outlets[{index}].ducted", True) for index, _ in open_ones]
    return [case.candidate(f"lead the vent of {names} outdoors or to an extraction", *changes)]
