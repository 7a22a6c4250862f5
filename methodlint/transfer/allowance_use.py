"""A transfer held against an allowance set, item by item."""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.documents.quantities.format import show
from methodlint.scaling.allowances import Allowance, AllowanceSet
from methodlint.scaling.geometry import plate_ratio
from methodlint.scaling.rows import changes_composition
from methodlint.transfer.flow_choice import FlowChoice
from methodlint.transfer.result import AllowanceUse
from methodlint.transfer.sides import Sides

__all__ = ["allowance_uses"]


def allowance_uses(
    sides: Sides, choice: FlowChoice, allowances: AllowanceSet
) -> Iterator[AllowanceUse]:
    """Every item of the set that this transfer touches."""
    tried = choice.attempt
    assert tried is not None
    isocratic = not changes_composition(sides.rows)

    def use(key: str, change: float, words: str) -> Iterator[AllowanceUse]:
        allowance = allowances.of(key, isocratic=isocratic)
        if allowance is not None:
            yield _use(allowance, change, words)

    ratio = plate_ratio(sides.source.bed, sides.target.bed) - 1.0
    yield from use("length_to_particle", ratio, _percent(ratio))
    for key in ("length", "inner_diameter", "particle_size"):
        change = getattr(sides.target.bed, key) / getattr(sides.source.bed, key) - 1.0
        yield from use(key, change, _percent(change))
    flow = tried.factor / choice.geometry - 1.0
    yield from use("flow", flow, _percent(flow))
    yield from use("set_flow", tried.factor - 1.0, _percent(tried.factor - 1.0))
    moved = [
        (row.share - source.share, (row.share / source.share - 1.0) if source.share else 0.0)
        for source, row in zip(sides.rows, tried.rows, strict=True)
    ]
    absolute = max((change for change, _ in moved), key=abs)
    relative = max((change for _, change in moved), key=abs)
    minor = [
        *use("minor_relative", relative, _percent(relative)),
        *use("minor_absolute", absolute, f"{absolute * 100:+.2g} % v/v"),
    ]
    if allowances.either_minor and not all(item.exceeded for item in minor):
        minor = [item for item in minor if not item.exceeded]
    yield from minor
    pressure = max(
        (
            row.outlet_pressure - source.outlet_pressure
            for source, row in zip(sides.rows, tried.rows, strict=True)
        ),
        key=abs,
    )
    if abs(pressure) > 1.0:
        relative = pressure / sides.rows[0].outlet_pressure
        yield from use("outlet_pressure", relative, f"{pressure / 1e5:+.0f} bar")
    yield from use("temperature", 0.0, show(0.0, "temperature difference"))
    yield from use("wavelength", 0.0, "none")


def _use(allowance: Allowance, change: float, words: str) -> AllowanceUse:
    exceeded = allowance.lowest is not None and not allowance.allows(change)
    found = allowance.lowest is not None
    return AllowanceUse(allowance.item, words, allowance.words, allowance.source, exceeded, found)


def _percent(change: float) -> str:
    return f"{change * 100:+.1f} %"
