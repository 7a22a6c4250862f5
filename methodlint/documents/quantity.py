"""A physical value of a document, and the field types that the documents' models use."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Annotated, Any, TypeAlias

from pydantic import PlainValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

from methodlint.documents.unit_findings import SAMPLES, UNIT, kind, sample
from methodlint.documents.units import UNITS, Reading, UnitProblem, read_quantity
from methodlint.documents.visible import excerpt

ROOM_PRESSURE = 1.013e5
"""Pressure of the room assumed where none is given [Pa]; 1.013 bar, common practice."""

PERCENT_BASIS = "document.percent-basis-missing"


@dataclass(frozen=True, slots=True)
class Quantity:
    """A physical value as a document gives it.

    Attributes
    ----------
    si : float
        The value in the SI unit of its dimension (see `methodlint.documents.units`). A gauge
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
        str(text),
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
            f"Write {usual}.",
        )
    if "value" not in form:
        raise UnitProblem(UNIT, "the value itself is missing", f"Write {usual}.")
    if isinstance(form["value"], dict):
        raise UnitProblem(UNIT, f"a mapping stands where {kind(dimensions)} is wanted",
                          f"Write a number and a unit, such as {sample(dimensions)}.")  # fmt: skip
    value = parse_quantity(form["value"], dimensions)
    if "tolerance" not in form:
        return value
    tolerance = _tolerance(form["tolerance"], value)
    text = f"{value.text} ± {form['tolerance']}"
    return replace(value, tolerance=tolerance, text=text)


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
            "Write how far the value may be off to either side, without a sign.",
        )
    if unit.dimension == "share" and unit.basis not in (None, value.basis):
        raise UnitProblem(
            UNIT,
            f'the tolerance "{excerpt(str(text))}" has another basis than the value "{value.text}"',
            "Write both with the same unit.",
        )
    if relative_allowed and unit.dimension == "share":
        return abs(value.si) * reading.si
    return reading.si


def _field(
    name: str, *dimensions: str, basis_required: bool = False, lower: float = -math.inf
) -> tuple[Any, Any]:
    def read(value: object) -> Quantity:
        if isinstance(value, Quantity):
            return value
        try:
            quantity = parse_quantity(value, dimensions)
            if basis_required and quantity.dimension == "share" and quantity.basis is None:
                raise _no_basis(quantity)
            if quantity.si < lower:
                raise UnitProblem(
                    "document.value-implausible",
                    f'"{excerpt(quantity.text)}": {kind(dimensions)} is never negative',
                    f"Write a value of 0 or more, such as {sample(dimensions)}.",
                )
        except UnitProblem as problem:
            raise PydanticCustomError(
                problem.rule,
                "{message}",
                {"message": problem.message, "remedy": problem.remedy},
            ) from None
        return quantity

    read.__name__ = f"read_{name}"
    reader: Callable[[object], Quantity] = read
    return PlainValidator(reader), WithJsonSchema(_json_schema(dimensions, basis_required))


def _no_basis(quantity: Quantity) -> UnitProblem:
    return UnitProblem(
        PERCENT_BASIS,
        f'"{excerpt(quantity.text)}" does not say what it is a share of; 20 % v/v of methanol set at '
        "the pump is about 16 to 17 % w/w",
        f'Write "{excerpt(quantity.text.rstrip())} v/v", or w/w, or mol.',
    )


_NUMBER_PATTERN = r"[+-]?([0-9]+(\.[0-9]*)?|\.[0-9]+)([eE][+-]?[0-9]+)?"


def _json_schema(dimensions: tuple[str, ...], basis_required: bool) -> dict[str, Any]:
    symbols = [
        symbol
        for dimension in dimensions
        for symbol, unit in UNITS[dimension].items()
        if not (basis_required and unit.dimension == "share" and unit.basis is None)
    ]
    alternatives = "|".join(
        _escaped(symbol) for symbol in sorted(symbols, key=lambda s: (-len(s), s))
    )
    one = {
        "type": "string",
        "pattern": f"^{_NUMBER_PATTERN} ?({alternatives})$",
        "examples": [SAMPLES[dimension] for dimension in dimensions],
    }
    return {
        "description": f"{kind(dimensions)}: number and unit, such as {sample(dimensions)}",
        "anyOf": [
            one,
            {
                "type": "object",
                "properties": {"value": one, "tolerance": {"type": "string"}},
                "required": ["value"],
                "additionalProperties": False,
            },
        ],
    }


def _escaped(symbol: str) -> str:
    return "".join("\\" + c if c in "().^$*+?[]{}|\\/" else c for c in symbol).replace(
        "µ", "[\u00b5\u03bc]"
    )


# Each name is a type to annotate a field with. Only a gauge pressure, a temperature, a temperature
# difference and a voltage may be negative.
Pressure: TypeAlias = Annotated[Quantity, *_field("pressure", "pressure")]
Temperature: TypeAlias = Annotated[Quantity, *_field("temperature", "temperature")]
TemperatureDifference: TypeAlias = Annotated[
    Quantity, *_field("temperature_difference", "temperature difference")
]
VolumeFlow: TypeAlias = Annotated[Quantity, *_field("volume_flow", "volume flow", lower=0.0)]
MassFlow: TypeAlias = Annotated[Quantity, *_field("mass_flow", "mass flow", lower=0.0)]
AnyFlow: TypeAlias = Annotated[Quantity, *_field("flow", "volume flow", "mass flow", lower=0.0)]
Volume: TypeAlias = Annotated[Quantity, *_field("volume", "volume", lower=0.0)]
Length: TypeAlias = Annotated[Quantity, *_field("length", "length", lower=0.0)]
Duration: TypeAlias = Annotated[Quantity, *_field("duration", "time", lower=0.0)]
Mass: TypeAlias = Annotated[Quantity, *_field("mass", "mass", lower=0.0)]
Share: TypeAlias = Annotated[Quantity, *_field("share", "share", basis_required=True, lower=0.0)]
ShareAnyBasis: TypeAlias = Annotated[Quantity, *_field("share", "share", lower=0.0)]
Concentration: TypeAlias = Annotated[
    Quantity,
    *_field(
        "concentration",
        "amount concentration",
        "mass concentration",
        "share",
        basis_required=True,
        lower=0.0,
    ),
]
Density: TypeAlias = Annotated[Quantity, *_field("density", "density", lower=0.0)]
Frequency: TypeAlias = Annotated[Quantity, *_field("frequency", "frequency", lower=0.0)]
Power: TypeAlias = Annotated[Quantity, *_field("power", "power", lower=0.0)]
AirChangeRate: TypeAlias = Annotated[Quantity, *_field("rate", "air change rate", lower=0.0)]
PartsPerMillion: TypeAlias = Annotated[Quantity, *_field("ppm", "ppm", lower=0.0)]
Voltage: TypeAlias = Annotated[Quantity, *_field("voltage", "voltage")]
