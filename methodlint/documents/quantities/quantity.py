"""The field types that the documents' models use: a quantity of one dimension each."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from functools import lru_cache
from typing import Annotated, Any, TypeAlias

from pydantic import PlainValidator, WithJsonSchema

from methodlint.documents.quantities.refusal import refused
from methodlint.documents.quantities.unit_table import UNITS, UnitProblem
from methodlint.documents.quantities.unit_words import SAMPLES
from methodlint.documents.quantities.units import Quantity, parse_quantity
from methodlint.documents.quantities.value_wanted import kind, sample
from methodlint.documents.text.visible import excerpt

__all__ = [
    "AirChangeRate", "AnyFlow", "Concentration", "Density", "Duration", "Frequency", "Length",
    "Mass", "MassFlow", "PartsPerMillion", "PositiveConcentration", "PositiveDuration", "PositiveFlow", "PositiveMass",
    "PositiveMassFlow", "PositivePower", "PositivePressureDifference",
    "PositiveShareAnyBasis", "PositiveVolume", "PositiveVolumeFlow", "Power", "Pressure",
    "PressureDifference", "Quantity", "ShareAnyBasis", "Temperature",
    "TemperatureDifference", "Voltage", "Volume", "VolumeFlow", "Wavelength", "parse_quantity",
]  # fmt: skip

PERCENT_BASIS = "document.percent-basis-missing"
_TRACE = 0.01


_TEXTS_KEPT = 1024
"""Texts of each kind of field whose reading is kept; what cannot be read never is."""


_WHOLE = 1.0 + 1e-12


def _field(
    name: str,
    *dimensions: str,
    basis_required: bool = False,
    lower: float = -math.inf,
    above_zero: bool = False,
    at_most_whole: bool = False,
    usual_unit: str = "",
) -> tuple[Any, Any]:
    def usable(value: object) -> Quantity:
        quantity = parse_quantity(value, dimensions)
        if basis_required and quantity.dimension == "share" and quantity.basis is None:
            raise _no_basis(quantity)
        if quantity.si < lower or (above_zero and quantity.si < 0.0):
            raise _implausible(
                quantity,
                f"{kind(dimensions)} is never negative",
                f"write a value {'above 0' if above_zero else 'of 0 or more'}, such as "
                f"{sample(dimensions)}",
            )
        if above_zero and quantity.si == 0.0:
            raise _implausible(quantity, *NOT_ZERO)
        if at_most_whole and quantity.si > _WHOLE:
            raise _implausible(
                quantity, "more than the whole, 100 %", "write a share of at most 100 %"
            )
        return quantity

    # Lines of a sequence and methods of a folder say the same few things again and again.
    usable_text = lru_cache(maxsize=_TEXTS_KEPT)(usable)

    def read(value: object) -> Quantity:
        if isinstance(value, Quantity):
            return value
        try:
            quantity = usable_text(value) if type(value) is str else usable(value)
        except UnitProblem as problem:
            remedy = problem.remedy
            if usual_unit and re.fullmatch(_NUMBER_PATTERN, bare := str(value).strip()):
                remedy = f'write the unit: "{excerpt(bare)} {usual_unit}"?'
            meant = problem.meant if isinstance(value, str) else ()
            also = {"part": problem.part, "meant": meant}
            raise refused(problem.rule, problem.message, remedy, **also) from None
        return quantity

    read.__name__ = f"read_{name}"
    reader: Callable[[object], Quantity] = read
    return PlainValidator(reader), WithJsonSchema(_json_schema(dimensions, basis_required))


NOT_ZERO = ("nothing can be judged by a value of zero here", "write the value, or remove the key")
"""What is wrong with a zero where none makes sense, and the remedy."""


def _implausible(quantity: Quantity, wrong: str, remedy: str) -> UnitProblem:
    return UnitProblem("document.value-implausible", f'"{excerpt(quantity.text)}": {wrong}', remedy)


def _no_basis(quantity: Quantity) -> UnitProblem:
    # For a trace of an additive the example of a modifier says nothing.
    example = "; 20 % v/v of methanol set at the pump is about 17 % w/w"
    return UnitProblem(
        PERCENT_BASIS,
        f'"{excerpt(quantity.text)}" does not say what it is a share of'
        f"{example if quantity.si > _TRACE else ''}",
        f'write "{excerpt(quantity.text.rstrip())} v/v" for volumes, as pumps set them and bottles '
        "are mixed; else w/w or mol",
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
    basis = " with its basis" if basis_required else ""
    one = {
        "$comment": re.sub(r"\W+", "-", f"quantity {' or '.join(dimensions)}{basis}"),
        "description": f"{kind(dimensions)}{basis}: number and unit, such as {sample(dimensions)}",
        "type": "string",
        "pattern": f"^{_NUMBER_PATTERN} ?({alternatives})$",
        "examples": [SAMPLES[dimension] for dimension in dimensions],
    }
    return {
        "description": one["description"],
        "anyOf": [
            one,
            {
                "type": "object",
                "properties": {
                    "value": one,
                    "tolerance": {
                        "type": "string",
                        "description": "half the span, in a unit of the value or in per cent",
                        "examples": ["2 K", "1 %"],
                    },
                },
                "required": ["value"],
                "additionalProperties": False,
            },
        ],
    }


def _escaped(symbol: str) -> str:
    plain = "".join("\\" + c if c in "().^$*+?[]{}|\\" else c for c in symbol)
    # Both micro signs; a unit that begins with a digit needs its blank.
    plain = plain.replace("µ", "[\u00b5\u03bc]")
    return f"(?<= ){plain}" if plain[0].isdigit() else plain


# Each name is a type to annotate a field with. Only a gauge pressure, a temperature, a temperature
# difference and a voltage may be negative; a plain name takes zero, a positive one does not.
Pressure: TypeAlias = Annotated[Quantity, *_field("pressure", "pressure")]
PressureDifference: TypeAlias = Annotated[
    Quantity, *_field("pressure_difference", "pressure", lower=0.0)
]
PositivePressureDifference: TypeAlias = Annotated[
    Quantity, *_field("pressure_difference", "pressure", above_zero=True)
]
Temperature: TypeAlias = Annotated[Quantity, *_field("temperature", "temperature")]
TemperatureDifference: TypeAlias = Annotated[
    Quantity, *_field("temperature_difference", "temperature difference")
]
VolumeFlow: TypeAlias = Annotated[Quantity, *_field("volume_flow", "volume flow", lower=0.0)]
PositiveVolumeFlow: TypeAlias = Annotated[
    Quantity, *_field("volume_flow", "volume flow", above_zero=True)
]
MassFlow: TypeAlias = Annotated[Quantity, *_field("mass_flow", "mass flow", lower=0.0)]
PositiveMassFlow: TypeAlias = Annotated[
    Quantity, *_field("mass_flow", "mass flow", above_zero=True)
]
AnyFlow: TypeAlias = Annotated[Quantity, *_field("flow", "volume flow", "mass flow", lower=0.0)]
PositiveFlow: TypeAlias = Annotated[
    Quantity, *_field("flow", "volume flow", "mass flow", above_zero=True)
]
Volume: TypeAlias = Annotated[Quantity, *_field("volume", "volume", lower=0.0)]
PositiveVolume: TypeAlias = Annotated[Quantity, *_field("volume", "volume", above_zero=True)]
Length: TypeAlias = Annotated[Quantity, *_field("length", "length", above_zero=True)]
Wavelength: TypeAlias = Annotated[
    Quantity, *_field("length", "length", above_zero=True, usual_unit="nm")
]
Duration: TypeAlias = Annotated[Quantity, *_field("duration", "time", lower=0.0)]
PositiveDuration: TypeAlias = Annotated[Quantity, *_field("duration", "time", above_zero=True)]
Mass: TypeAlias = Annotated[Quantity, *_field("mass", "mass", lower=0.0)]
PositiveMass: TypeAlias = Annotated[Quantity, *_field("mass", "mass", above_zero=True)]
ShareAnyBasis: TypeAlias = Annotated[Quantity, *_field("share", "share", lower=0.0)]
PositiveShareAnyBasis: TypeAlias = Annotated[
    Quantity, *_field("share", "share", above_zero=True, at_most_whole=True)
]
_CONCENTRATIONS = ("amount concentration", "mass concentration", "share")
Concentration: TypeAlias = Annotated[
    Quantity, *_field("concentration", *_CONCENTRATIONS, basis_required=True, lower=0.0)
]
PositiveConcentration: TypeAlias = Annotated[
    Quantity, *_field("concentration", *_CONCENTRATIONS, basis_required=True, above_zero=True)
]
Density: TypeAlias = Annotated[Quantity, *_field("density", "density", above_zero=True)]
Frequency: TypeAlias = Annotated[Quantity, *_field("frequency", "frequency", above_zero=True)]
Power: TypeAlias = Annotated[Quantity, *_field("power", "power", lower=0.0)]
PositivePower: TypeAlias = Annotated[Quantity, *_field("power", "power", above_zero=True)]
AirChangeRate: TypeAlias = Annotated[Quantity, *_field("rate", "air change rate", lower=0.0)]
PartsPerMillion: TypeAlias = Annotated[Quantity, *_field("ppm", "ppm", above_zero=True)]
Voltage: TypeAlias = Annotated[Quantity, *_field("voltage", "voltage")]
