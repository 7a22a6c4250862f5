"""What makes a transfer impossible, and the ways around it."""

from __future__ import annotations

from methodlint.documents.quantities.format import number, show
from methodlint.scaling.allowances import AllowanceSet
from methodlint.scaling.geometry import flow_ratio, volume_ratio
from methodlint.scaling.settled import NotCovered
from methodlint.transfer.attempt import attempt
from methodlint.transfer.draft import minutes
from methodlint.transfer.entry import Obstacle, Way
from methodlint.transfer.flow_choice import FlowChoice, flow_words, undelivered
from methodlint.transfer.sides import Sides
from methodlint.transfer.time_map import TimeMap

__all__ = ["before_anything", "dwell_obstacle", "ways_around"]


def before_anything(sides: Sides) -> list[Obstacle]:
    """Constraints that no setting of flow or pressure can meet."""
    found = []
    hottest = max(row.oven_temperature for row in sides.rows)
    coldest = min(row.oven_temperature for row in sides.rows)
    limit = sides.target.column.temperature_limit
    if limit is not None and hottest > limit.si + 1e-6:
        found.append(
            Obstacle(
                "column temperature",
                f"the method runs at {show(hottest, 'temperature')}, column "
                f"{sides.target.columns[-1].name} is rated to {show(limit.si, 'temperature')}; another "
                "temperature is another method: density and selectivity move with it",
            )
        )
    oven = sides.target.card.oven
    if oven is not None:
        high, low = oven.highest, oven.lowest
        if (high and hottest > high.si + 1e-6) or (low and coldest < low.si - 1e-6):
            span = " to ".join(show(q.si, "temperature") for q in (low, high) if q is not None)
            found.append(
                Obstacle(
                    "oven",
                    f"the method runs at {show(coldest, 'temperature')} to "
                    f"{show(hottest, 'temperature')}, the oven of "
                    f"{sides.target.instrument.name} covers {span}",
                )
            )
    pump = sides.target.card.modifier_pump
    richest = max(row.share for row in sides.rows)
    if (
        pump is not None
        and pump.highest_share is not None
        and richest > pump.highest_share.si + 1e-9
    ):
        found.append(
            Obstacle(
                "modifier share",
                f"the method goes to {show(richest, 'share')} modifier, "
                f"{sides.target.instrument.name} to {show(pump.highest_share.si, 'share')}",
            )
        )
    wants_ms = any(d.type == "MS" for d in sides.typed.detectors)
    has_ms = sides.target.card.ms is not None or any(
        part.detector == "MS" for part in sides.target.card.train
    )
    if wants_ms and not has_ms:
        found.append(
            Obstacle("detector", f"{sides.target.instrument.name} has no mass spectrometer")
        )
    return found


def dwell_obstacle(sides: Sides, times: TimeMap) -> Obstacle | None:
    """The dwell volume, where neither a hold nor a delayed injection makes up for it."""
    dwell = times.dwell
    if dwell is None or dwell.way != "not possible":
        return None
    own, most = sides.target.dwell_volume, dwell.largest_volume
    return Obstacle(
        "dwell volume",
        f"dwell volume of {sides.target.instrument.name} is {show(own, 'volume')}, at most "
        f"{show(most, 'volume')} would do: the gradient reaches the column "
        f"{minutes(-dwell.wanted)} late, a hold cannot be negative and this autosampler does not "
        f"inject after the start; {_mixer_words(sides, own - most)}",
    )


def _mixer_words(sides: Sides, excess: float) -> str:
    assert sides.target.plan.train is not None
    mixer = sides.target.plan.train.mixer_volume
    if mixer <= 0.0:
        return f"{show(excess, 'volume')} would have to go"
    if mixer > excess:
        return (
            f"largest mixer that would do: {show(mixer - excess, 'volume')} in place of "
            f"{show(mixer, 'volume')}"
        )
    return f"even without its mixer of {show(mixer, 'volume')} it would be too large"


def ways_around(
    sides: Sides, choice: FlowChoice, times: TimeMap | None, allowances: AllowanceSet
) -> tuple[Way, ...]:
    """Other ways, ranked: those that were marched first."""
    found: list[Way] = []
    first = choice.first
    tried = choice.attempt
    if first is not None and first.beyond:
        load, allowed = first.beyond[0]
        # Beyond its envelope a pump has no pressure that could be compared with what it would see.
        pump = undelivered(sides, first) if load.limit <= 0.0 else ""
        said = f"at {flow_words(first.factor, choice.geometry)} " + (
            f"that flow is not delivered at all ({pump})"
            if pump
            else f"{load.name} would see {show(load.pressure, 'pressure')}, "
            f"{show(allowed, 'pressure')} is allowed"
        )
        if tried is not None:
            slower = flow_words(tried.factor, choice.geometry)
            found.append(Way(f"{said}; proposed instead: {slower}, times longer to match", True))
        else:
            found.append(Way(said, True))
        shorter = _shorter_column(sides, choice) if not pump else None
        if shorter is not None:
            found.append(shorter)
    if tried is None:
        other = volume_ratio(sides.source.bed, sides.target.bed, hold_up=True)
        if other < choice.geometry * 0.999:
            found += _try(sides, other, "--keep duration")
        if allowances.of("flow", isocratic=True) is not None:
            found.append(Way("--allowances none tries flows outside the allowed span", False))
    if times is not None and times.dwell is not None and times.dwell.way == "not possible":
        ratio = sides.target.dwell_volume / times.dwell.largest_volume
        found.append(
            Way(
                f"a column of {number(ratio)} times the volume on {sides.target.instrument.name}, "
                "or an instrument that injects after the programme has begun",
                False,
            )
        )
    return tuple(found)


def _shorter_column(sides: Sides, choice: FlowChoice) -> Way | None:
    first = choice.first
    assert first is not None
    load, allowed = first.beyond[0]
    column = next((x for x in first.loads if x.name.startswith("drop over column")), None)
    bed = sides.target.bed
    over = load.pressure - allowed
    drop = column.pressure if column is not None else load.pressure - load.floor
    if drop <= over:
        return None
    length = bed.length * (1.0 - over / drop)
    ratio = length / bed.particle_size / sides.source.bed.length_to_particle
    inside = "inside" if 0.75 <= ratio <= 1.5 else "outside"
    return Way(
        f"at the flow by geometry a column of at most {show(length, 'length', 'mm')} would do "
        f"(L/dp {(ratio - 1.0) * 100:+.0f} % against the source, {inside} -25 to +50 %)",
        False,
    )


def _try(sides: Sides, factor: float, words: str) -> list[Way]:
    try:
        found = attempt(sides, factor)
    except NotCovered:
        return []
    if found.beyond:
        return []
    geometry = flow_ratio(sides.source.bed, sides.target.bed)
    return [Way(f"{words}: feasible at {flow_words(factor, geometry)}", True)]
