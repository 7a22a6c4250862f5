"""Hash of what a document says: its parsed values, not their spelling.

`1.5 mL/min` and `1500 uL/min` are the same value; comments, order of keys, quotation marks, the
title, the status, approvals and deviations count for nothing.
"""

from __future__ import annotations

import datetime
import hashlib
import json
from typing import Any

from pydantic import BaseModel

from methodlint.documents.kinds.base import Document
from methodlint.documents.quantities.units import Quantity

EDITION = "v1"
"""Which values are hashed and how; another edition cannot be compared."""

_NO_VALUES = frozenset(
    {
        "approval",
        "comment",
        "deviations",
        "edition",
        "status",
        "title",
        # What they say stands in the lines that are made of them.
        "blocks",
        "named_lines",
        "table",
    }
)
_DIGITS = 11


def values_hash(model: Document) -> str:
    """Hash the parsed values of a document.

    Parameters
    ----------
    model : Document
        A typed document of any kind.

    Returns
    -------
    str
        Edition of the hash, a dash, and 32 hexadecimal digits (SHA-256, shortened).
    """
    return f"{EDITION}-{_digest(part_hashes(model))[:32]}"


def part_hashes(model: Document) -> dict[str, str]:
    """Hash each top-level value by itself, to say which ones have changed.

    Returns
    -------
    dict
        Eight hexadecimal digits by key; keys that hold their default value are left out.
    """
    defaults = type(model).model_fields
    return {
        name: _digest(_plain(value))[:8]
        for name, value in sorted(dict(model).items())
        if name not in _NO_VALUES and value != defaults[name].default
    }


def _digest(plain: Any) -> str:
    text = json.dumps(plain, sort_keys=True, separators=(",", ":"), ensure_ascii=True)
    return hashlib.sha256(text.encode()).hexdigest()


def _plain(value: Any) -> Any:
    if isinstance(value, Quantity):
        tolerance = None if value.tolerance is None else _figure(value.tolerance)
        return [value.dimension, _figure(value.si), tolerance, value.basis]
    if isinstance(value, BaseModel):
        fields = type(value).model_fields
        return {
            name: _plain(item)
            for name, item in value
            if name != "comment" and item != fields[name].default
        }
    if isinstance(value, dict):
        return {str(key): _plain(item) for key, item in value.items()}
    if isinstance(value, (list, tuple)):
        return [_plain(item) for item in value]
    if isinstance(value, (datetime.date, datetime.datetime)):
        return value.isoformat()
    return _figure(value) if isinstance(value, float) else value


def _figure(value: float) -> str:
    # Rounded, so that 1.5 mL/min and 1500 uL/min agree after their conversion.
    return f"{value + 0.0:.{_DIGITS}g}"
