"""Which part of the plane of two settings is worth a map: the window, and what lies around it."""

from __future__ import annotations

from collections.abc import Iterable

from methodlint.window.axis import Axis
from methodlint.window.edges import Edge

__all__ = ["span_of"]

_AROUND = 0.12
_LEAST_STEPS = 4


def span_of(axis: Axis, edges: Iterable[Edge]) -> tuple[float, float]:
    """First and last value of a map along one setting.

    Both ends of its window are in it, with the bands that they have and something around them.
    """
    values = [axis.value]
    for edge in edges:
        if edge.axis is axis:
            values += [
                v for v in (edge.last, edge.from_, edge.beyond, edge.certain) if v is not None
            ]
    low, high = min(values), max(values)
    around = max(_AROUND * (high - low), _LEAST_STEPS * axis.step)
    return max(low - around, axis.low), min(high + around, axis.high)
