"""How far what is set may lie from what happens: by the documents, else by common figures."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import cast

from methodlint.checking.settings import change_value
from methodlint.documents.kinds.column import Column
from methodlint.documents.loading import Loaded
from methodlint.documents.quantities.format import show
from methodlint.documents.quantities.quantity import Quantity
from methodlint.documents.quantities.unit_table import UNITS, from_si, si_value
from methodlint.documents.text.places import Path
from methodlint.judging.case import RunCase
from methodlint.judging.finding import At, Change, Measure
from methodlint.window.axis import Axis, axes_of

__all__ = ["Accuracy", "accuracies_of", "tolerance_of"]

_REGULATOR, _OVEN, _FLOW, _SHARE, _DWELL, _RESISTANCE = 2.0, 2.0, 0.05, 2.0, 0.10, 0.10
"""In bar, K, part of the flow, % absolute, part of the volume, part of a resistance on a card."""

_OMCL = "OMCL guideline PA/PH/OMCL (11) 04, annex 1 (unverified)"
_PRACTICE = "common practice, no source"
_QUALIFICATION = "usual limit of a qualification, common practice, no source"
_PACKING = "Kozeny and Carman with constant 150 to 180 and porosity 0.38 to 0.40"
_LEAST_RESISTANCE, _MOST_RESISTANCE = 844.0, 1261.0
_READING = 0.05


@dataclass(frozen=True, slots=True)
class Accuracy:
    """What one part of the system may be off by.

    Attributes
    ----------
    name
        What it is about.
    words
        How far, with unit.
    source
        Where the figure comes from.
    low, high
        Changes of the documents that stand for either end.
    ends
        The values of a setting at both ends, in the units that findings use; empty for what is
        no setting.
    """

    name: str
    words: str
    source: str
    low: tuple[Change, ...]
    high: tuple[Change, ...]
    ends: tuple[Measure, ...] = ()


def accuracies_of(run: RunCase) -> list[Accuracy]:
    """What the parts that a run depends on may be off by; what is not given is left out."""
    return [found for find in (_settings, _composition, _dwell, _resistance) for found in find(run)]


def tolerance_of(run: RunCase, axis: Axis) -> tuple[float, str]:
    """How far a setting of a method may be off, in its unit, and where that comes from."""
    unit = UNITS[_DIMENSIONS[axis.key]][axis.unit]
    if axis.tolerance is not None:
        return axis.tolerance, "the method"
    if axis.key == "outlet_pressure":
        instrument = run.instrument
        card = instrument.regulator.accuracy if instrument and instrument.regulator else None
        if card is not None:
            return card.si / unit.factor, "the instrument's card"
        return _REGULATOR * 1e5 / unit.factor, _PRACTICE
    if axis.key == "oven_temperature":
        return _OVEN / unit.factor, _OMCL
    if axis.key == "flow":
        return _FLOW * axis.value, _OMCL
    return _SHARE * UNITS["share"]["%"].factor / unit.factor, _QUALIFICATION


_DIMENSIONS = {
    "outlet_pressure": "pressure", "oven_temperature": "temperature", "flow": "volume flow",
    "modifier_share": "share", "modifier_share_start": "share", "modifier_share_end": "share",
}  # fmt: skip
_USUAL = {"outlet_pressure": "bar", "oven_temperature": "degC", "flow": "mL/min"}
_NAMES = {"outlet_pressure": "regulator", "oven_temperature": "oven", "flow": "flow"}


def _settings(run: RunCase) -> Iterator[Accuracy]:
    axes = axes_of(run.documents["method"])
    for key, name in _NAMES.items():
        if key in axes:
            axis = axes[key]
            off, source = tolerance_of(run, axis)
            unit = "K" if axis.unit == "degC" else axis.unit
            low, high = axis.value - off, axis.value + off
            dimension, usual = _DIMENSIONS[key], _USUAL[key]
            si = (si_value(value, UNITS[dimension][axis.unit]) for value in (low, high))
            ends = tuple(Measure(from_si(one, UNITS[dimension][usual]), usual) for one in si)
            said = f"+-{off:.4g} {unit}"
            yield Accuracy(name, said, source, axis.changes(low), axis.changes(high), ends)


def _composition(run: RunCase) -> Iterator[Accuracy]:
    """All shares of the programme off in the same direction; neat CO2 stays neat."""
    method = run.documents["method"]
    axes = axes_of(method)
    shares = [axis for key, axis in axes.items() if key.startswith("modifier_share")]
    model = run.method
    if not shares or model is None:
        return
    off, source = tolerance_of(run, shares[0])
    written: dict[Path, Quantity | None] = {
        ("mobile_phase", "modifier_share"): run.get("method.mobile_phase.modifier_share")
    }
    written |= {
        ("programme", n, "modifier_share"): row.modifier_share
        for n, row in enumerate(model.programme)
    }

    def moved(by: float) -> tuple[Change, ...]:
        return tuple(
            change_value(method, path, _share(quantity, by))
            for path, quantity in written.items()
            if quantity is not None and quantity.si > 0.0
        )

    low, high = moved(-off), moved(off)
    if low:
        yield Accuracy("composition", f"+-{off:.4g} % absolute", source, low, high)


def _share(quantity: Quantity, by: float) -> str:
    value = from_si(quantity.si, UNITS["share"][quantity.unit]) + by
    return f"{min(max(value, 0.0), 100.0):.8g} {quantity.unit}"


def _dwell(run: RunCase) -> Iterator[Accuracy]:
    card = run.documents.get("instrument")
    volume: Quantity | None = run.get("instrument.dwell_volume")
    if card is None or volume is None or not run.method or not run.method.programme:
        return
    own = volume.tolerance is not None
    part = volume.tolerance / volume.si if volume.tolerance is not None else _DWELL
    unit = UNITS["volume"][volume.unit]
    said = f"+-{show(part * volume.si, 'volume')}"
    yield Accuracy("dwell volume", said, "the instrument's card" if own else _PRACTICE,
                   *_scaled(card, ("dwell_volume",), lambda scale:
                            f"{from_si(volume.si * scale, unit):.8g} {volume.unit}", part))  # fmt: skip


def _scaled(
    document: Loaded, path: tuple[str, ...], text: Callable[[float], object], part: float
) -> tuple[tuple[Change, ...], tuple[Change, ...]]:
    low, high = (change_value(document, path, text(1.0 + by)) for by in (-part, part))
    return (low,), (high,)


def _resistance(run: RunCase) -> Iterator[Accuracy]:
    """Flow resistance of the bed: what is measured, what the card says, else what packings have."""
    card = run.documents.get("column")
    if card is None or (run.method is not None and run.method.measured_pressures):
        return
    column = cast(Column, card.model)
    if column.measured_drop is not None:
        drop = column.measured_drop.pressure_drop
        unit = UNITS["pressure"][drop.unit]
        ends = _scaled(card, ("measured_drop", "pressure_drop"), lambda scale:
                       f"{from_si(drop.si * scale, unit):.8g} {drop.unit}", _READING)  # fmt: skip
        yield Accuracy(
            "column resistance", f"+-{_READING:.0%} of the measured drop", _PRACTICE, *ends
        )
    elif column.flow_resistance is not None:
        value = column.flow_resistance.value
        ends = _scaled(card, ("flow_resistance", "value"), lambda scale: value * scale, _RESISTANCE)
        yield Accuracy("column resistance", f"+-{_RESISTANCE:.0%}", _PRACTICE, *ends)
    else:
        low, high = (
            (Change(At(card, ("flow_resistance",)), {"value": value, "basis": "superficial"}),)
            for value in (_LEAST_RESISTANCE, _MOST_RESISTANCE)
        )
        said = f"{_LEAST_RESISTANCE:.0f} to {_MOST_RESISTANCE:.0f} on the particle size"
        yield Accuracy("column resistance", said, _PACKING, low, high)
