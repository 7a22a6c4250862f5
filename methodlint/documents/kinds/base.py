"""What every kind of document shares: strictness, approval, deviations, liquids with additives."""

from __future__ import annotations

import dataclasses
import datetime
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field

from methodlint.documents.quantity import Concentration, Pressure, Quantity, ShareAnyBasis


class Part(BaseModel):
    """A mapping inside a document: unknown keys are refused, values are never coerced."""

    model_config = ConfigDict(extra="forbid", defer_build=True, strict=False, frozen=True)


def _date_from_text(value: Any) -> Any:
    """Let ISO dates through and refuse every other spelling, numbers included."""
    if isinstance(value, str):
        return datetime.date.fromisoformat(value)
    if isinstance(value, (int, float)):
        raise ValueError("write the date as YYYY-MM-DD")
    return value


def _moment_from_text(value: Any) -> Any:
    """Let ISO dates with a time of day through and refuse every other spelling."""
    if isinstance(value, str):
        return datetime.datetime.fromisoformat(value)
    if isinstance(value, (int, float)):
        raise ValueError("write the moment as YYYY-MM-DDTHH:MM")
    return value


def _text(value: Any) -> Any:
    """Refuse numbers and truth values where a name is wanted: YAML may have changed them."""
    if isinstance(value, (bool, int, float)):
        raise ValueError("a name is wanted here; put it in quotes")
    return value


def _absolute(value: Quantity) -> Quantity:
    """Turn a gauge pressure into an absolute one, with the usual pressure of the room."""
    if value.reference != "gauge":
        return value
    return dataclasses.replace(value, si=value.absolute(), reference="absolute")


AbsolutePressure = Annotated[Pressure, AfterValidator(_absolute)]
"""Plain means absolute; '150 bar (g)' is turned into absolute with a room at 1.013 bar."""

Date = Annotated[datetime.date, BeforeValidator(_date_from_text)]
Moment = Annotated[datetime.datetime, BeforeValidator(_moment_from_text)]
Name = Annotated[str, BeforeValidator(_text), Field(min_length=1, max_length=200)]
Count = Annotated[int, Field(ge=0, strict=True)]
Ratio = Annotated[float, Field(gt=0, strict=False, allow_inf_nan=False)]


class Deviation(Part):
    """A documented exception from one rule."""

    rule: Name = Field(description="Id of the rule, for example pressure.low-limit-missing.")
    reason: str | None = Field(default=None, description="Why the exception is sound.")
    approved_by: str | None = Field(default=None, description="Name of the person who approved.")
    until: Date | None = Field(default=None, description="Last day on which it holds.")


class Approval(Part):
    """Who approved the document, when, and the hash of the values approved."""

    by: Name
    on: Date
    hash: str | None = Field(default=None, description="Hash of the parsed values.")


class Document(Part):
    """Fields that every kind of document may carry."""

    edition: str | int | None = Field(default=None, description="Edition of the document.")
    title: str | None = Field(default=None, description="What the document is, in words.")
    status: Literal["draft", "approved", "retired"] | None = None
    approval: Approval | None = None
    deviations: tuple[Deviation, ...] = ()
    comment: str | None = Field(default=None, description="Free text, never judged.")


class LiquidShare(Part):
    """One liquid of a blend."""

    liquid: Name
    share: ShareAnyBasis = Field(description="Share of the blend; v/v unless it says otherwise.")


class AdditiveLevel(Part):
    """An additive and how much of it is there."""

    additive: Name
    level: Concentration | None = Field(default=None, description="'20 mM' or '0.1 % v/v'.")
    of: Literal["modifier", "total"] = Field(
        default="modifier", description="What the level refers to."
    )


def _liquid_from_text(value: Any) -> Any:
    """Read the short form `methanol` as `{liquid: methanol}`."""
    return {"liquid": value} if isinstance(value, str) else value


class Liquid(Part):
    """A liquid as it stands in a bottle: one liquid or a blend, with additives."""

    liquid: Name | None = Field(default=None, description="The liquid when it is a single one.")
    liquids: tuple[LiquidShare, ...] = Field(default=(), description="The parts of a blend.")
    additives: tuple[AdditiveLevel, ...] = ()


AnyLiquid = Annotated[Liquid, BeforeValidator(_liquid_from_text)]
