"""Every edit of one value: absent, zero, negative, ten or a thousand times off, misspelt, turned."""

from __future__ import annotations

import copy
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from methodlint.documents.quantities.unit_table import UNITS
from tests.text_labs import REMOVED

Steps = tuple[str | int, ...]
_QUANTITY = re.compile(r"([+-]?\d+(?:\.\d+)?) ?(\D.*)")
_UNITS = frozenset(symbol for units in UNITS.values() for symbol in units)
_FACTORS = (("zero", 0.0), ("negative", -1.0), ("x10", 10.0), ("x1000", 1e3), ("/10", 0.1),
            ("/1000", 1e-3))  # fmt: skip
HARD = ("zero", "negative", "x1000")
"""Variants that no field which a stop reads may be excused for."""


@dataclass(frozen=True)
class Edit:
    """One value of one document changed.

    Attributes
    ----------
    document
        As in `TextLab.texts`.
    steps
        Path of the value.
    variant
        What was done to it.
    value
        What is written now; `REMOVED` for a key or an item that is taken out.
    """

    document: str
    steps: Steps
    variant: str
    value: Any

    @property
    def place(self) -> str:
        """Document and path: `instrument/bench-a.train[1].bore`."""
        return self.document + "".join(
            f"[{step}]" if isinstance(step, int) else f".{step}" for step in self.steps
        )

    @property
    def field(self) -> str:
        """Kind and path without the numbers of items: `instrument.train[].bore`."""
        path = "".join("[]" if isinstance(step, int) else f".{step}" for step in self.steps)
        return self.document.partition("/")[0] + path

    def __str__(self) -> str:
        """Document, path and what is written now."""
        value = "" if self.value is REMOVED else f" = {self.value!r}"
        return f"{self.place}: {self.variant}{value}"

    def applied(self, data: dict[str, Any]) -> dict[str, Any]:
        """Plain data of the document with the edit."""
        changed = copy.deepcopy(data)
        where: Any = changed
        for step in self.steps[:-1]:
            where = where[step]
        if self.value is REMOVED:
            del where[self.steps[-1]]
        else:
            where[self.steps[-1]] = self.value
        return changed


def edits(document: str, data: dict[str, Any]) -> Iterator[Edit]:
    """Every edit of the values of one document."""
    for steps, value in _walk(data, ()):
        if steps == ("kind",):
            continue
        yield Edit(document, steps, "absent", REMOVED)
        for variant, changed in _variants(value):
            yield Edit(document, steps, variant, changed)


def _walk(data: Any, steps: Steps) -> Iterator[tuple[Steps, Any]]:
    items: Any = ()
    if isinstance(data, dict):
        items = data.items()
    elif isinstance(data, list):
        items = enumerate(data)
    for step, value in items:
        yield (*steps, step), value
        yield from _walk(value, (*steps, step))


def _variants(value: Any) -> Iterator[tuple[str, Any]]:
    if isinstance(value, bool):
        yield "turned", not value
    elif isinstance(value, int | float):
        for name, factor in _FACTORS if value else ():
            scaled = value * factor
            yield name, int(scaled) if scaled == int(scaled) else scaled
    elif isinstance(value, list):
        yield "emptied", []
    elif isinstance(value, str):
        quantity = _QUANTITY.fullmatch(value)
        if quantity is None or quantity[2] not in _UNITS:
            yield "misspelt", f"{value[:-1]}zq"
            return
        for name, factor in _FACTORS if float(quantity[1]) else ():
            yield name, f"{float(quantity[1]) * factor:g} {quantity[2]}"
