"""Looks at the arguments of the library's functions: a wrong type is refused, never passed over.

A date as text compares with nothing, and a folder's name where a list is wanted is a list of
letters: both would be a check that was not made.
"""

from __future__ import annotations

import datetime
import os
from collections.abc import Iterable
from typing import Any

__all__ = [
    "require_date",
    "require_flag",
    "require_list",
    "require_name",
    "require_path",
    "require_word",
]


def require_path(name: str, value: Any) -> None:
    """Raise `TypeError` unless an argument is a path."""
    if not isinstance(value, (str, os.PathLike)):
        raise _wrong(name, "a path (str or pathlib.Path)", value)


def require_name(name: str, value: Any, *, needed: bool = False) -> None:
    """Raise `TypeError` unless an argument is the name of a card, or None if it is not needed."""
    if not isinstance(value, str) and (needed or value is not None):
        raise _wrong(name, "the name of a card (str)", value)


def require_date(name: str, value: Any) -> None:
    """Raise `TypeError` unless an argument is a date or None; a moment is no date either."""
    if isinstance(value, datetime.datetime) or not isinstance(value, (datetime.date, type(None))):
        raise _wrong(name, "a datetime.date", value)


def require_flag(name: str, value: Any) -> None:
    """Raise `TypeError` unless an argument is True or False."""
    if not isinstance(value, bool):
        raise _wrong(name, "True or False", value)


def require_list(name: str, value: Any, kind: type | tuple[type, ...], words: str) -> list[Any]:
    """Go once through a list of values of one type, said in `words`; else raise `TypeError`."""
    if isinstance(value, (str, bytes, os.PathLike)) or not isinstance(value, Iterable):
        raise _wrong(name, f"a list of {words}", value)
    items = list(value)
    for item in items:
        if not isinstance(item, kind):
            raise _wrong(name, f"a list of {words}", item)
    return items


def require_word(name: str, value: Any, words: tuple[str, ...]) -> None:
    """Raise `TypeError` or `ValueError` unless an argument is one of some words."""
    if not isinstance(value, str):
        raise _wrong(name, f"one of {', '.join(words)}", value)
    if value not in words:
        raise ValueError(f"{name}: '{value}' is none of {', '.join(words)}")


def _wrong(name: str, wanted: str, value: Any) -> TypeError:
    return TypeError(f"{name}: {wanted} is expected, not {type(value).__name__}")
