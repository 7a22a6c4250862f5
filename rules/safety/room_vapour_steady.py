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
    the room. Limits differ between jurisdictions and are the lab's own. Listed limits of 29 CFR
    1910.1000 and of the European Union (unverified), of California (second-hand) and of Ontario
    hold a run where the lab sets none, or one above what its own jurisdiction lists; they never
    clear one. Caution above half, and the band of 5 %: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.liquids import find_liquid
from methodlint.judging.ask.room import (
    air_changes_during,
    air_volume,
    highest_co2_flow,
    is_listed,
    listed_limit,
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
        limit, where = _limit(case, name, limits.get(name))
        verdict = None if limit is None else judge_limit(level, limit, _BAND * level, "stop")
        if limits.get(name) is None and verdict is None:
            reason = f"{says}; the lab sets no limit for {name}"
            yield case.not_checked("room", missing, reason)
            continue
        assert limit is not None
        verdict = verdict or judge_limit(level, _CAUTION_ABOVE * limit, 0.0, "caution")
        if verdict is None:
            continue
        enough = slowest.rate * level / (_CAUTION_ABOVE * limit) if limit > 0.0 else 0.0
        or_air = f", or at least {show(enough, 'air change rate')}" if enough > 0.0 else ""
        yield case.finding(
            case.at(case.documents["room"], slowest.path),
            verdict.grade,
            f"{says} with {show(slowest.rate, 'air change rate')}; the limit{where} is "
            f"{show(limit, 'ppm')} (margin {show(limit - level, 'ppm')}, band "
            f"{show(_BAND * level, 'ppm')})",
            found=ppm(level),
            limit=ppm(limit),
            band=ppm(_BAND * level),
            possible=verdict.possible,
            remedy=f"lead the vents outdoors{or_air}",
            candidates=_candidates(case),
            also=(case.at("room.outlets"),),
            cautions=("flammable", "toxic"),
        )
        return  # the vent is one cause, whatever else it carries


def _limit(case: BatchCase, name: str, own: Quantity | None) -> tuple[float | None, str]:
    """The limit that counts and whose it is: the lab's, or a lower one that is listed."""
    policy = case.policy.exposure_limits
    place = policy.jurisdiction if policy else None
    listed = listed_limit(name, place)
    if own is not None and (listed is None or not is_listed(place) or own.si <= listed.fraction):
        return own.si, f" of {place}" if place else ""
    return (None, "") if listed is None else (listed.fraction, f" of {listed.words}")


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
