"""The settings of a method that a person turns at the instrument, as numbers that can be moved."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from methodlint.checking.settings import change_value
from methodlint.documents.kinds.method import Method, ProgrammeRow
from methodlint.documents.loading import Loaded
from methodlint.documents.quantities.quantity import Quantity
from methodlint.documents.quantities.unit_table import UNITS, from_si, si_value
from methodlint.documents.text.places import Path
from methodlint.judging.finding import Change

__all__ = ["KEYS", "Axis", "axes_of"]


@dataclass(frozen=True, slots=True)
class Axis:
    """One setting of a method.

    Attributes
    ----------
    key
        Name on the command line and in JSON.
    name
        Name in words.
    unit
        Unit of all values, as the method writes it.
    value
        Value that the method has.
    tolerance
        Tolerance that the method gives with it, in `unit`; None without one.
    low, high
        Ends of what is tried.
    step
        Values are rounded to it.
    """

    key: str
    name: str
    unit: str
    value: float
    tolerance: float | None
    low: float
    high: float
    step: float
    _changes: Callable[[float], tuple[Change, ...]]

    def changes(self, value: float) -> tuple[Change, ...]:
        """Changes of the method that set this value."""
        return () if value == self.value else self._changes(value)

    def rounded(self, value: float) -> float:
        """Round to a value that a person would set; the method's own stays as it is."""
        nearest = round(value / self.step) * self.step
        if abs(nearest - self.value) < self.step / 2:
            return self.value
        return float(f"{min(max(nearest, self.low), self.high):.10g}")

    def words(self, value: float) -> str:
        """Write a value with its unit."""
        return f"{value:.6g} {self.unit}"


# Ends of what is tried and the step, in a usual unit. What lies outside is no setting of SFC
# (common practice, no source).
_SPANS = {
    "pressure": ("bar", 20.0, 400.0, 1.0),
    "temperature": ("degC", 0.0, 90.0, 0.5),
    "volume flow": ("mL/min", 0.05, 10.0, 0.05),
    "share": ("%", 0.0, 100.0, 0.5),
}

_NAMES = {
    "outlet_pressure": "outlet pressure",
    "oven_temperature": "oven temperature",
    "flow": "flow",
    "modifier_share": "modifier share",
    "modifier_share_start": "modifier share at the start",
    "modifier_share_end": "modifier share at the end of the ramp",
}
KEYS = tuple(_NAMES)
_CONSTANT: Path = ("mobile_phase", "modifier_share")


def axes_of(document: Loaded) -> dict[str, Axis]:
    """Settings of a method that are written down, by key.

    Rows of a programme follow: outlet pressures and temperatures of rows move by as much as the
    setting, flows in the same ratio, and every row that repeats a share moves with it.
    """
    return {axis.key: axis for axis in _axes(document)}


def _axes(document: Loaded) -> Iterator[Axis]:
    method: Method = document.model
    rows = method.programme

    def with_rows(key: str, row_key: str) -> Iterator[Axis]:
        quantity = getattr(method, key)
        written: dict[Path, Quantity] = {
            ("programme", index, row_key): found
            for index, row in enumerate(rows)
            if (found := getattr(row, row_key)) is not None
        }
        quantity = quantity or next(iter(written.values()), None)
        if quantity is not None and quantity.dimension in _SPANS:
            kept = getattr(method, key) is not None
            yield _axis(
                document, key, quantity, {**({(key,): quantity} if kept else {}), **written}
            )

    yield from with_rows("outlet_pressure", "outlet_pressure")
    yield from with_rows("oven_temperature", "temperature")
    yield from with_rows("flow", "flow")
    phase = method.mobile_phase
    shares: dict[Path, Quantity] = {
        ("programme", index, "modifier_share"): row.modifier_share
        for index, row in enumerate(rows)
        if row.modifier_share is not None
    }
    constant = phase.modifier_share if phase is not None else None
    if not shares:
        if constant is not None:
            yield _axis(document, "modifier_share", constant, {_CONSTANT: constant})
        return
    first = _share(rows[0]) or constant or next(iter(shares.values()))
    end = max(shares.values(), key=lambda quantity: abs(quantity.si - first.si))
    alike = {path: one for path, one in shares.items() if one.si == first.si}
    if constant is not None and constant.si == first.si:
        alike[_CONSTANT] = constant
    if alike:
        yield _up_to(_axis(document, "modifier_share_start", first, alike), end)
    if end.si != first.si:
        far = {path: one for path, one in shares.items() if one.si == end.si}
        yield _up_to(_axis(document, "modifier_share_end", end, far), first)


def _share(row: ProgrammeRow) -> Quantity | None:
    return row.modifier_share


def _up_to(axis: Axis, other: Quantity) -> Axis:
    """Keep the direction of a ramp: one of its ends does not pass the other."""
    limit = from_si(other.si, UNITS["share"][axis.unit])
    if limit > axis.value:
        return replace(axis, high=limit)
    return replace(axis, low=limit) if limit < axis.value else axis


def _axis(document: Loaded, key: str, quantity: Quantity, written: dict[Path, Quantity]) -> Axis:
    usual, low, high, step = _SPANS[quantity.dimension]
    table = UNITS[quantity.dimension]
    # A gauge pressure has been made absolute, which plain units of an outlet pressure mean.
    symbol = usual if table[quantity.unit].reference == "gauge" else quantity.unit
    unit, of_spans = table[symbol], table[usual]

    def number(si: float) -> float:
        return float(f"{from_si(si, unit):.10g}")

    ends = [number(si_value(end, of_spans)) for end in (low, high)]
    factor = of_spans.factor / unit.factor
    value = number(quantity.si)

    def changes(wanted: float) -> tuple[Change, ...]:
        moved = si_value(wanted, unit)
        made = []
        for path, one in written.items():
            si = moved + (one.si - quantity.si)
            if key == "flow":
                si = moved * (one.si / quantity.si) if quantity.si else moved
            made.append(change_value(document, path, f"{number(si):.10g} {symbol}"))
        return tuple(made)

    tolerance = None if quantity.tolerance is None else quantity.tolerance / unit.factor
    return Axis(
        key,
        _NAMES[key],
        symbol,
        value,
        tolerance,
        min(ends[0], value),
        max(ends[1], value),
        float(f"{step * factor:.1g}"),
        changes,
    )
