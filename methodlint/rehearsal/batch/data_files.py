"""Names of data files: a pattern filled in for every line, as the instrument's disk will see it."""

from __future__ import annotations

import re
import string
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from methodlint.documents.kinds.instrument import DataFiles
from methodlint.rehearsal.batch.line_facts import clock_at
from methodlint.rehearsal.batch.lines import Batch, LineRun

FIELDS = ("date", "line", "sample", "plate", "well", "kind", "seq")
"""What a pattern may hold: day of the injection, number of the line, sample, place, kind of line,
and the name of the sequence."""

_ILLEGAL = '<>:"/\\|?*'
_CONTROL = re.compile(r"[\x00-\x1f]")
_REPLACEMENT = "_"
_NUMBER = re.compile(r"0?[0-9]{0,2}d?")
_TEXT = re.compile(r"[<>^]?[0-9]{0,2}s?")


class PatternWrong(ValueError):
    """A pattern holds a field that is not known, or a format that its value cannot take."""


@dataclass(frozen=True, slots=True)
class DataFile:
    """The name that the data of a line get.

    Attributes
    ----------
    line
        The line; several injections of one line are numbered behind the name by the instrument.
    name
        As asked for.
    on_disk
        With forbidden characters replaced; compared without regard to case.
    """

    line: LineRun
    name: str
    on_disk: str


def data_files(batch: Batch, card: DataFiles | None) -> list[DataFile]:
    """Name the data file of every injecting line.

    Parameters
    ----------
    batch
        The rehearsed sequence; its start gives the dates.
    card
        What the instrument's card says about data files.

    Returns
    -------
    list of DataFile
        Lines without a name of their own take the sequence's pattern; without either a line is
        left out.

    Raises
    ------
    PatternWrong
        If a pattern cannot be filled in.
    """
    found = []
    illegal = card.replaced_characters if card and card.replaced_characters else _ILLEGAL
    for line in batch.lines:
        pattern = line.line.data_file or batch.typed.data_file
        if not line.injects or pattern is None:
            continue
        name = expanded(pattern, batch, line)
        found.append(DataFile(line, name, on_disk(name, illegal)))
    return found


def expanded(pattern: str, batch: Batch, line: LineRun) -> str:
    """Fill a pattern in for one line.

    Raises
    ------
    PatternWrong
        If it holds an unknown field or a format that does not fit.
    """
    return "".join(
        text + (format(_value(field, batch, line), form) if field else "")
        for text, field, form in _parsed(pattern)
    )


@lru_cache(maxsize=512)
def _parsed(pattern: str) -> tuple[tuple[str, str, str], ...]:
    """Divide a pattern into texts, each with the field and the format behind it."""
    parts: list[tuple[str, str, str]] = []
    try:
        for text, field, form, conversion in string.Formatter().parse(pattern):
            # Only plain names: a pattern never reaches into objects.
            if field is not None and (field not in FIELDS or conversion):
                known = ", ".join("{" + name + "}" for name in FIELDS)
                raise PatternWrong(f"'{{{field}}}' is not known; a pattern may hold {known}")
            allowed = _NUMBER if field == "line" else _TEXT
            if form and not allowed.fullmatch(form):
                raise PatternWrong(f"':{form[:20]}' is no format of '{{{field}}}'")
            parts.append((text, field or "", form or ""))
    except ValueError as error:
        raise PatternWrong(str(error)) from None
    return tuple(parts)


def _value(field: str, batch: Batch, line: LineRun) -> str | int:
    if field == "line":
        return line.index + 1
    if field == "date":
        begins = batch.typed.begins
        return clock_at(begins, line.begins).strftime("%Y%m%d") if begins else "date"
    if field == "seq":
        return batch.sequence.name
    return str(getattr(line.line, field) or "")


def on_disk(name: str, illegal: str = _ILLEGAL) -> str:
    """Write a name as a disk keeps it that knows no case and forbids some characters."""
    plain = _CONTROL.sub(_REPLACEMENT, name)
    return plain.translate(_replacing(illegal)).rstrip(". ").casefold()


@lru_cache(maxsize=64)
def _replacing(characters: str) -> dict[int, str]:
    return str.maketrans(dict.fromkeys(characters, _REPLACEMENT))


def duplicates(files: Sequence[DataFile]) -> list[list[DataFile]]:
    """Group the files that get the same name, in order of their first line."""
    groups: dict[str, list[DataFile]] = {}
    for file in files:
        groups.setdefault(file.on_disk, []).append(file)
    return [group for group in groups.values() if len(group) > 1]
