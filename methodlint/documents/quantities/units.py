"""Quantities: the grammar ``number unit``, and the form with a tolerance.

Inside, everything is SI; units exist at the border only. The units themselves, and what each is
worth, are listed in `methodlint.documents.quantities.unit_table`. The grammar is closed and linear: a number
as in YAML (``1.5``, ``.5``, ``2e-3``), at most one blank, a unit as printed there.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import Any

from methodlint.documents.quantities.number_findings import no_number, not_a_text
from methodlint.documents.quantities.unit_findings import no_unit
from methodlint.documents.quantities.unit_table import (
    SI_UNIT,
    UNITS,
    Unit,
    UnitProblem,
    dimensions_of,
    from_si,
    normal,
    si_value,
)
from methodlint.documents.quantities.unit_words import SAMPLES
from methodlint.documents.quantities.value_wanted import FIGURE, UNIT, kind, sample
from methodlint.documents.text.limits import DOCUMENT
from methodlint.documents.text.visible import excerpt

__all__ = [
    "SI_UNIT",
    "UNITS",
    "Quantity",
    "Reading",
    "Unit",
    "UnitProblem",
    "dimensions_of",
    "from_si",
    "parse_quantity",
    "read_quantity",
    "si_value",
]

_NUMBER = re.compile(FIGURE)
_LONGEST_TEXT = 200
# No value of this trade comes near these ends, and products of a few such values stay finite.
_LARGEST, _SMALLEST = 1e20, 1e-20

ROOM_PRESSURE = 1.013e5
"""Pressure of the room assumed where none is given [Pa]; 1.013 bar, common practice."""


@dataclass(frozen=True, slots=True)
class Quantity:
    """A physical value as a document gives it.

    Attributes
    ----------
    si : float
        The value in the SI unit of its dimension (see `methodlint.documents.quantities.units`). A gauge
        pressure is above the room's pressure; use `absolute` to get the absolute one.
    text : str
        As written.
    unit : str
        Symbol of the unit as written.
    tolerance : float or None
        How far the value may be off to either side, in the same SI unit; a temperature's in K.
    basis : str or None
        What a share is a share of: ``"v/v"``, ``"w/w"`` or ``"mol"``; None when not said.
    reference : str or None
        What a pressure counts from: ``"gauge"`` or ``"absolute"``; None when not said.
    dimension : str
        Name of its dimension.
    """

    si: float
    text: str
    unit: str
    tolerance: float | None = None
    basis: str | None = None
    reference: str | None = None
    dimension: str = ""

    def absolute(self, room: float = ROOM_PRESSURE, plain: str = "gauge") -> float:
        """Return the absolute pressure [Pa].

        Parameters
        ----------
        room : float
            Pressure of the room [Pa].
        plain : str
            What a pressure without ``(g)`` or ``(a)`` means in this field: ``"gauge"`` or
            ``"absolute"``.
        """
        return self.si + room if (self.reference or plain) == "gauge" else self.si

    def __str__(self) -> str:
        """Return the value as it was written."""
        return self.text


def parse_quantity(text: object, dimension: str | tuple[str, ...]) -> Quantity:
    """Read a quantity: ``number unit``, or ``{value: ..., tolerance: ...}``.

    Parameters
    ----------
    text : object
        What the document holds.
    dimension : str or tuple of str
        The dimension wanted, or several of which one will do, the usual one first.

    Returns
    -------
    Quantity
        Always finite.

    Raises
    ------
    UnitProblem
        When it is no quantity of that dimension; it carries rule, message and remedy.
    """
    dimensions = (dimension,) if isinstance(dimension, str) else dimension
    if isinstance(text, dict):
        return _with_tolerance(text, dimensions)
    reading = read_quantity(text, dimensions)
    unit = reading.unit
    return Quantity(
        reading.si,
        str(text).strip(" "),
        unit.symbol,
        basis=unit.basis,
        reference=unit.reference,
        dimension=unit.dimension,
    )


def _with_tolerance(form: dict[Any, Any], dimensions: tuple[str, ...]) -> Quantity:
    usual = f"{{value: {SAMPLES[dimensions[0]]}, tolerance: ...}}"
    strange = [str(key) for key in form if key not in ("value", "tolerance")]
    if strange:
        raise UnitProblem(
            "document.unknown-key",
            f'"{excerpt(strange[0])}" has no meaning in a value with a tolerance',
            f"write {usual}",
        )
    if "value" not in form:
        raise UnitProblem(UNIT, "the value itself is missing", f"write {usual}")
    if isinstance(form["value"], dict):
        raise UnitProblem(UNIT, f"a mapping is given where {kind(dimensions)} is expected",
                          f"write a number and a unit, such as {sample(dimensions)}")  # fmt: skip
    part = "value"
    try:
        value = parse_quantity(form["value"], dimensions)
        if "tolerance" not in form:
            return value
        part = "tolerance"
        tolerance = _tolerance(form["tolerance"], value)
    except UnitProblem as problem:
        problem.part = part
        raise
    return replace(value, tolerance=tolerance, text=f"{value.text} ± {form['tolerance']}")


def _tolerance(text: object, value: Quantity) -> float:
    dimension = value.dimension
    wanted = "temperature difference" if dimension == "temperature" else dimension
    relative_allowed = dimension not in ("temperature", "temperature difference", "share")
    reading: Reading = read_quantity(text, (wanted, "share") if relative_allowed else (wanted,))
    unit = reading.unit
    if reading.si < 0.0:
        raise UnitProblem(
            "document.value-implausible",
            f'the tolerance "{excerpt(str(text))}" is negative',
            "write how far the value may be off to either side, without a sign",
        )
    if unit.dimension == "share" and unit.basis not in (None, value.basis):
        raise UnitProblem(
            UNIT,
            f'the tolerance "{excerpt(str(text))}" has another basis than the value "{value.text}"',
            "write both with the same unit",
        )
    if not (relative_allowed and unit.dimension == "share"):
        return _smaller_than_value(reading.si, str(text), value)
    tolerance = abs(value.si) * reading.si
    if not tolerance <= _LARGEST:
        raise UnitProblem(
            "document.type-trap",
            f'the tolerance "{excerpt(str(text))}" is too large to compute with',
            "write the tolerance that is meant",
        )
    return _smaller_than_value(tolerance, str(text), value)


_WIDEST_TEMPERATURE = 100.0
"""Tolerance [K] that says nothing of a temperature any more: that from ice to steam."""


def _smaller_than_value(tolerance: float, text: str, value: Quantity) -> float:
    """Refuse a tolerance that leaves nothing of the value."""
    if value.dimension in ("temperature", "temperature difference"):
        useless = tolerance > _WIDEST_TEMPERATURE
        limit = "100 K, the span of liquid water"
    else:
        # A zero that may be a little more is a statement; the lower end of others is not.
        useless = value.si != 0.0 and tolerance >= abs(value.si)
        limit = f'the value "{excerpt(value.text)}" itself'
    if useless:
        raise UnitProblem(
            "document.value-implausible",
            f'the tolerance "{excerpt(text)}" is as large as {limit} or larger',
            "write how far the value may be off to either side",
        )
    return tolerance


@dataclass(frozen=True, slots=True)
class Reading:
    """A text read as figure and unit: the figure as printed, the unit, and the SI value."""

    figure: float
    unit: Unit
    si: float


def read_quantity(text: object, dimensions: tuple[str, ...]) -> Reading:
    """Read ``number unit`` as one of `dimensions`.

    Parameters
    ----------
    text : object
        What the document holds.
    dimensions : tuple of str
        Names of dimensions of `UNITS`, the usual one first.

    Returns
    -------
    Reading
        Figure, unit and SI value, always finite.

    Raises
    ------
    UnitProblem
        When it is not exactly a number, at most one blank and a unit of these dimensions.
    """
    if not isinstance(text, str):
        raise not_a_text(text, dimensions)
    if len(text) > _LONGEST_TEXT:
        raise UnitProblem(
            "document.unit-missing-or-wrong-kind",
            f'a value of {len(text)} characters ("{excerpt(text)}") is no quantity',
            f"write a number and a unit, such as {sample(dimensions)}",
        )
    stripped = text.strip(" ")
    number = _NUMBER.match(stripped)
    if number is None:
        raise no_number(stripped, dimensions)
    if len(number.group()) > DOCUMENT.number:
        raise UnitProblem(
            "document.too-large",
            f"a number of {len(number.group())} characters; the limit is {DOCUMENT.number}",
            "write no more digits than were measured",
        )
    symbol = normal(stripped[number.end() :].removeprefix(" "))
    for dimension in dimensions:
        unit = UNITS[dimension].get(symbol)
        if unit is not None:
            return _checked(number.group(), unit, stripped)
    raise no_unit(number.group(), stripped[number.end() :], dimensions)


def _checked(number: str, unit: Unit, text: str) -> Reading:
    figure = float(number)
    si = si_value(figure, unit)
    if not abs(si) <= _LARGEST:
        raise UnitProblem(
            "document.type-trap",
            f'"{excerpt(text)}" is too large a number to compute with',
            "write the value that is meant",
        )
    has_digits = any(digit in "123456789" for digit in re.split("[eE]", number)[0])
    if has_digits and (abs(figure) < _SMALLEST or (unit.offset == 0.0 and abs(si) < _SMALLEST)):
        raise UnitProblem(
            "document.type-trap",
            f'"{excerpt(text)}" is too small a number to compute with',
            "write 0 or the value that is meant",
        )
    if unit.dimension == "temperature" and si <= 0.0:
        raise UnitProblem(
            "document.value-implausible",
            f'"{excerpt(text)}" does not lie above absolute zero (-273.15 degC)',
            "write the temperature that is meant",
        )
    if unit.reference == "absolute" and si < 0.0:
        raise UnitProblem(
            "document.value-implausible",
            f'"{excerpt(text)}": an absolute pressure is never negative',
            "write the absolute pressure, or (g) for a pressure above the room's",
        )
    # Adding 0.0 turns a minus zero into zero, which no message should print.
    return Reading(figure + 0.0, unit, si + 0.0)
