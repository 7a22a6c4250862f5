"""What a plain value of a document means: the YAML 1.2 core schema, and its traps.

Source
------
YAML Ain't Markup Language, version 1.2.2, section 10.3.2 (tag resolution of the core schema). The
older readings are those of the YAML 1.1 type repository (bool, int, float; unverified).
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from methodlint.documents.text.limits import DOCUMENT
from methodlint.documents.text.nodes import Scalar, ScalarValue
from methodlint.documents.text.visible import excerpt

_WORDS: dict[str, bool | None] = {
    "": None, "~": None, "null": None, "Null": None, "NULL": None,
    "true": True, "True": True, "TRUE": True, "false": False, "False": False, "FALSE": False,
}  # fmt: skip
_INTEGER = re.compile(r"[-+]?[0-9]+")
_OTHER_BASE = re.compile(r"0o[0-7]+|0x[0-9a-fA-F]+")
_FLOAT = re.compile(r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?")
_NOT_FINITE = re.compile(r"[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN)")
_NUMBER_STARTS = frozenset("+-.0123456789")
# No number, infinity or "not a number" ends otherwise; most quantities do: they end in a unit.
_NUMBER_ENDS = frozenset(".0123456789abcdefABCDEFnN")

# Read as something else by the older version of the language, which many editors still follow.
_OLD_FLAGS = frozenset(
    spelling
    for word in ("yes", "no", "on", "off", "y", "n")
    for spelling in (word, word.capitalize(), word.upper())
)
_BASE_60 = re.compile(r"[-+]?[1-9][0-9_]*(?::[0-5]?[0-9])+(?:\.[0-9_]*)?")
_UNDERSCORED = re.compile(
    r"[-+]?(?:[0-9][0-9_]*_[0-9_]*(?:\.[0-9_]*)?|0x[0-9a-fA-F_]*_[0-9a-fA-F_]*)"
)
_LEADING_ZERO = re.compile(r"[-+]?0[0-9]+")
_PLAIN_INTEGER = re.compile(r"0|-?[1-9][0-9]*")
_DATE = re.compile(r"[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}")


@dataclass(frozen=True, slots=True)
class Trap:
    """A value that is read as something its writer may not have meant."""

    message: str
    remedy: str
    rule: str = "document.type-trap"


def resolve(text: str) -> ScalarValue:
    """Return what the core schema makes of an unquoted value.

    A number that no float holds (``1e999``, ``.inf``, ``.nan``), and one longer than the limit,
    stay text; `unusable` says why.
    """
    if text[:1] not in _NUMBER_STARTS:
        return _WORDS.get(text, text)
    if text[-1] not in _NUMBER_ENDS:
        return text
    if len(text) > DOCUMENT.number:
        return text
    if _INTEGER.fullmatch(text):
        return int(text)
    if _FLOAT.fullmatch(text):
        value = float(text)
        return value if math.isfinite(value) else text
    if _OTHER_BASE.fullmatch(text):
        return int(text[2:], 8 if text[1] == "o" else 16)
    return text


def unusable(text: str) -> Trap | None:
    """Say why an unquoted value can be used nowhere, whatever field it stands in; None if it can."""
    if text[:1] not in _NUMBER_STARTS or text[-1] not in _NUMBER_ENDS:
        return None
    if len(text) > DOCUMENT.number:
        if _INTEGER.fullmatch(text) or _FLOAT.fullmatch(text) or _OTHER_BASE.fullmatch(text):
            return Trap(
                f"a number of {len(text)} characters; the limit is {DOCUMENT.number}",
                "write no more digits than were measured; quote it if it is a name",
                "document.too-large",
            )
        return None
    if _NOT_FINITE.fullmatch(text):
        return Trap(
            f"{text} is read as a number that cannot be computed with",
            f'write a finite value, or "{text}" in quotation marks if it is a name',
        )
    if _FLOAT.fullmatch(text):
        value = float(text)
        if math.isinf(value):
            return Trap(
                f"{text} is read as a number too large to compute with",
                f'write a finite value, or "{text}" in quotation marks if it is a name',
            )
        if value == 0.0 and re.search("[1-9]", re.split("[eE]", text)[0]):
            return Trap(
                f"{text} is so small that it is read as 0",
                f'write 0 or the value that is meant, or "{text}" if it is a name',
            )
    return None


def scalar_trap(scalar: Scalar, wants: str) -> Trap | None:
    """Tell whether a value is read as something else than its field wants.

    Parameters
    ----------
    scalar : Scalar
        The value.
    wants : str
        What the field holds: ``"text"`` (a name, a position, a lot number), ``"flag"``,
        ``"integer"``, ``"number"``, ``"quantity"`` (a number with a unit), ``"clock"`` (a time of
        day) or ``"date"``.

    Returns
    -------
    Trap or None
        None when the value is safe there, or is wrong in a way that is no trap: that is left to
        whoever checks its type.
    """
    if scalar.quoted:
        return None
    text, value = scalar.text, scalar.value
    shown = excerpt(text)
    if wants == "flag":
        if text in _OLD_FLAGS:
            meant = "true" if text.lower() in ("yes", "on", "y") else "false"
            return Trap(f"{shown} is read as text, by older readers as a flag", f"write {meant}")
        return None
    if text in _OLD_FLAGS:
        return Trap(
            f"{shown} is read as text here and as a flag by older readers",
            f'write true or false for a flag, or "{shown}" in quotation marks for the word',
        )
    if isinstance(value, bool):
        return Trap(
            f"{shown} is read as a flag",
            f'write "{shown}" in quotation marks if it is a word',
        )
    if _BASE_60.fullmatch(text):
        return Trap(
            f"{shown} is read as text here and as the number {_base_60(text)} by older readers",
            f'write "{shown}" in quotation marks for a time of day; a duration has a unit, '
            'such as "90 s"',
        )
    number_read = isinstance(value, int | float)
    if wants == "text":
        if number_read and not _PLAIN_INTEGER.fullmatch(text):
            return Trap(
                f"{shown} is read as the number {_number(value)}",
                f'write "{shown}" in quotation marks',
            )
        if value is None and text:
            return Trap(f"{shown} is read as no value", f'write "{shown}" in quotation marks')
        return None
    if wants in ("date", "clock"):
        if number_read:
            return Trap(
                f"{shown} is read as the number {_number(value)}",
                'write a date as "2025-03-31", a time of day as "08:30", in quotation marks',
            )
        return None
    return _number_trap(shown, value)


def _number_trap(text: str, value: ScalarValue) -> Trap | None:
    if _LEADING_ZERO.fullmatch(text):
        plain = text.lstrip("+-0") or "0"
        older = "as octal by older readers" if re.fullmatch("[-+]?0[0-7]+", text) else (
            "as text by older readers"
        )  # fmt: skip
        return Trap(f"{text} is read as {_number(value)} here and {older}", f"write {plain}")
    if _UNDERSCORED.fullmatch(text):
        plain = text.replace("_", "")
        return Trap(
            f"{text} is read as text here and as {plain} by older readers", f"write {plain}"
        )
    if _OTHER_BASE.fullmatch(text):
        return Trap(f"{text} is read as the number {_number(value)}", f"write {_number(value)}")
    return None


def _number(value: ScalarValue) -> str:
    if isinstance(value, float) and value.is_integer() and abs(value) < 1e15:
        return f"{int(value)}"
    return excerpt(str(value))


def _base_60(text: str) -> str:
    total = 0.0
    for part in text.lstrip("+-").replace("_", "").split(":"):
        total = total * 60 + float(part)
    return ("-" if text.startswith("-") else "") + f"{total:.15g}"
