"""What every kind of document shares: strictness, approval, deviations, liquids with additives."""

from __future__ import annotations

import dataclasses
import datetime
from typing import Annotated, Any, Literal, TypeAlias, TypeVar

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field

from methodlint.documents.quantities.number_findings import is_placeholder
from methodlint.documents.quantities.pressure_reading import refuse_ambiguous
from methodlint.documents.quantities.quantity import (
    NOT_ZERO,
    Concentration,
    PositiveConcentration,
    Pressure,
    Quantity,
    ShareAnyBasis,
)
from methodlint.documents.quantities.refusal import refused
from methodlint.documents.text.visible import excerpt, has_letters

_Day = TypeVar("_Day", bound=datetime.date)


def described(text: str, default: Any = None) -> Any:
    """A key that may be left out, with what the schema says of it."""
    return Field(default=default, description=text)


class Part(BaseModel):
    """A mapping inside a document: unknown keys are refused, values are never coerced."""

    model_config = ConfigDict(extra="forbid", defer_build=True, strict=False, frozen=True)


def _date_from_text(value: Any) -> Any:
    """Let ISO dates through and refuse every other spelling, numbers included."""
    if isinstance(value, str):
        try:
            day = datetime.date.fromisoformat(value)
        except ValueError:
            raise _no_date(value, "2026-11-24") from None
        return _within_reach(value, day)
    if isinstance(value, (int, float)):
        raise ValueError("write the date as YYYY-MM-DD")
    return value


def _no_date(text: str, sample: str) -> Exception:
    if is_placeholder(text):
        return refused(
            "document.placeholder-left",
            f'"{excerpt(text)}" is left to be filled in',
            f"write year, month and day, such as {sample}",
        )
    return refused(
        "document.value-implausible",
        f'"{excerpt(text)}" is not {_wrong_part(text)}',
        f"write year, month and day, such as {sample}",
    )


def _wrong_part(text: str) -> str:
    """Name the part that cannot be: the day, or the time after a day that can."""
    try:
        datetime.date.fromisoformat(text.strip()[:10])
    except ValueError:
        return "a day of the calendar"
    return "a time of that day" if text.strip()[10:11] in (" ", "T") else "a day of the calendar"


def _within_reach(text: str, day: _Day) -> _Day:
    """Refuse years from which the end of a run or of a shelf life is off the calendar."""
    if not 1900 <= day.year <= 2999:
        raise refused(
            "document.placeholder-left",
            f'"{excerpt(text)}" is no day of this age: it is left to be filled in',
            "write the day that is meant, or take the key out",
        )
    return day


def _moment_from_text(value: Any) -> Any:
    """Let ISO dates with a time of day through and refuse every other spelling."""
    if isinstance(value, str):
        try:
            moment = datetime.datetime.fromisoformat(value)
        except ValueError:
            raise _no_date(value, "2026-11-24T09:00") from None
        return _within_reach(value, moment)
    if isinstance(value, (int, float)):
        raise ValueError("write the moment as YYYY-MM-DDTHH:MM")
    return value


def _text(value: Any) -> Any:
    """Refuse numbers and truth values where a name is wanted: YAML may have changed them."""
    if isinstance(value, (bool, int, float)):
        raise ValueError("a name is expected here; put it in quotes")
    return value


def _with_letters(value: str) -> str:
    """Refuse a text of blanks, of signs, or of letters that nobody sees."""
    if not has_letters(value):
        raise ValueError("words are expected here; no letter can be seen")
    return value


def _place_text(value: Any) -> Any:
    """Let whole numbers through, as trays and plates are numbered, and no other number."""
    if isinstance(value, (bool, float)):
        raise ValueError("a place is expected here, such as A1 or 7; put it in quotes")
    return str(value) if isinstance(value, int) else value


def _clock_time(value: str) -> str:
    try:
        datetime.time.fromisoformat(value.strip())
    except ValueError:
        left = is_placeholder(value)
        wrong = "is left to be filled in" if left else "is not a time of day"
        raise refused(
            "document.placeholder-left" if left else "document.value-implausible",
            f'"{excerpt(value)}" {wrong}',
            'write hours and minutes in quotes, such as "08:00"',
        ) from None
    return value


def _absolute(value: Quantity) -> Quantity:
    """Turn a gauge pressure into an absolute one, with the usual pressure of the room."""
    if value.reference != "gauge":
        return value
    return dataclasses.replace(value, si=value.absolute(), reference="absolute")


def _above_vacuum(value: Quantity) -> Quantity:
    """Refuse what is no pressure that a part could see or be rated to."""
    if value.si <= 0.0:
        wrong, remedy = NOT_ZERO
        raise refused("document.value-implausible", f'"{excerpt(value.text)}": {wrong}', remedy)
    return value


def _not_tiny(value: float) -> float:
    if value < 1e-12:
        raise ValueError("it is too small a number to compute with")
    return value


RoomPressure = Annotated[Pressure, AfterValidator(_absolute), AfterValidator(_above_vacuum)]
"""Pressure of the air; plain means absolute."""

PressureFromZero = Annotated[
    Pressure, AfterValidator(refuse_ambiguous("pressure")), AfterValidator(_absolute)
]
"""Lower end of a span: cards print '0 bar' there."""

AbsolutePressure = Annotated[PressureFromZero, AfterValidator(_above_vacuum)]
"""Plain means absolute; '150 bar(g)' is turned into absolute with a room at 1.013 bar. What is
a usual pressure of chromatography only in another unit is refused, and so is zero."""

OutletPressure = Annotated[
    Pressure, AfterValidator(refuse_ambiguous("outlet pressure")), AfterValidator(_absolute)
]
"""Set pressure of a regulator, with the narrower span of usual ones; a rule judges zero."""

Date = Annotated[datetime.date, BeforeValidator(_date_from_text)]
Moment = Annotated[datetime.datetime, BeforeValidator(_moment_from_text)]
Name = Annotated[str, BeforeValidator(_text), Field(min_length=1, max_length=200)]
Person = Annotated[Name, AfterValidator(_with_letters)]
"""Name of a person: it needs a letter that can be seen."""
Reason = Annotated[str, Field(min_length=3), AfterValidator(_with_letters)]
"""Why something is as it is; it needs a letter that can be seen."""
# The length is that of the text: said of a whole number too, strict readers of schemas refuse it.
PlaceName = Annotated[str, Field(min_length=1, max_length=200), BeforeValidator(_place_text)]
"""A plate, a well or wells: `7` means the same with quotation marks and without them."""

ClockTime = Annotated[Name, AfterValidator(_clock_time)]
"""A time of day, HH:MM."""

Count = Annotated[int, Field(ge=0, le=1_000_000_000, strict=True)]
PositiveCount = Annotated[int, Field(ge=1, le=1_000_000_000, strict=True)]
# Nothing compared here comes near these ends, and products of a few such values stay finite.
Ratio = Annotated[
    float, Field(gt=0, le=1e12, strict=False, allow_inf_nan=False), AfterValidator(_not_tiny)
]
Porosity = Annotated[
    float, Field(gt=0, lt=1, strict=False, allow_inf_nan=False), AfterValidator(_not_tiny)
]
"""Void over volume: a bed has both."""

PH = Annotated[float, Field(ge=-2, le=16, strict=False, allow_inf_nan=False)]
"""Concentrated acids and bases reach a little beyond 0 and 14."""


class Deviation(Part):
    """A documented exception from one rule."""

    rule: Name = Field(description="Id of the rule, for example pressure.low-limit-missing.")
    reason: str | None = described("Why the exception is sound.")
    approved_by: str | None = described("Name of the person who approved.")
    until: Date | None = described("Last day on which it holds.")


class Approval(Part):
    """Who approved the document, when, and the hash of the values approved."""

    by: Person
    on: Date
    hash: str | None = described("Hash of the parsed values.")
    parts: dict[str, str] = Field(
        default_factory=dict, description="Hash of each top-level value, to name what changed."
    )


class Document(Part):
    """Fields that every kind of document may carry."""

    edition: str | int | None = described("Edition of the document.")
    title: str | None = described("What the document is, in words.")
    status: Literal["draft", "approved", "retired"] | None = None
    approval: Approval | None = None
    deviations: tuple[Deviation, ...] = Field(default=(), max_length=500)
    comment: str | None = described("Free text, never judged.")


DetectorType: TypeAlias = Literal["UV", "PDA", "DAD", "MS", "ELSD", "CAD", "FID"]
"""Kinds of detectors; a photodiode array is a PDA to some and a DAD to others."""


class LiquidShare(Part):
    """One liquid of a blend."""

    liquid: Name
    share: ShareAnyBasis = Field(description="Share of the blend; v/v unless it says otherwise.")


class AdditiveLevel(Part):
    """An additive and how much of it is there."""

    additive: Name
    level: PositiveConcentration | None = described("'20 mM' or '0.1 % v/v'.")
    of: Literal["modifier", "total"] = described("What the level refers to.", "modifier")


class AdditiveLimit(AdditiveLevel):
    """The most of an additive that a column tolerates; 0 forbids it."""

    level: Concentration | None = described("'20 mM' or '0.1 % v/v'.")


def _liquid_from_text(value: Any) -> Any:
    """Read the short form `methanol` as `{liquid: methanol}`."""
    return {"liquid": value} if isinstance(value, str) else value


class Liquid(Part):
    """A liquid as it stands in a bottle: one liquid or a blend, with additives."""

    liquid: Name | None = described("The liquid when it is a single one.")
    liquids: tuple[LiquidShare, ...] = described("The parts of a blend.", ())
    additives: tuple[AdditiveLevel, ...] = ()
    ph: PH | None = described("pH of the aqueous part, as measured.")


AnyLiquid = Annotated[Liquid, BeforeValidator(_liquid_from_text)]
