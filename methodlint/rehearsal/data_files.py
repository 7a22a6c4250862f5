"""Names of data files: a pattern filled in for every line, as the instrument's disk will see it."""

from __future__ import annotations

import re
import string
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from methodlint.documents.kinds.instrument import DataFiles
from methodlint.rehearsal.batch import Batch, LineRun
from methodlint.rehearsal.line_facts import clock_at

FIELDS = ("date", "line", "sample", "plate", "well", "kind", "seq")
"""What a pattern may hold: day of the injection, number of the line, sample, place, kind of line,
and the name of the sequence."""

_ILLEGAL = '<>:"/\\|?*'
_CONTROL = re.compile(r"[\x00-\x1f]")
_REPLACEMENT = "_"
_FORMAT = re.compile(r"[<>^]?0?[0-9]{0,2}[ds]?")


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


class _Fields(string.Formatter):
    def get_field(self, field_name: str, args: Sequence[Any], kwargs: Any) -> Any:
        # Only plain names: a pattern never reaches into objects.
        if field_name not in kwargs:
            known = ", ".join("{" + name + "}" for name in FIELDS)
            raise PatternWrong(f"'{{{field_name}}}' is not known; a pattern may hold {known}")
        return kwargs[field_name], field_name

    def format_field(self, value: Any, format_spec: str) -> str:
        if not _FORMAT.fullmatch(format_spec):
            raise PatternWrong(f"':{format_spec[:20]}' is no format of up to two digits")
        return str(super().format_field(value, format_spec))


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
    if "{" not in pattern and "}" not in pattern:
        return pattern
    begins = batch.typed.begins
    values: dict[str, Any] = {
        "date": clock_at(begins, line.begins).strftime("%Y%m%d") if begins else "date",
        "line": line.index + 1,
        "sample": line.line.sample or "",
        "plate": line.line.plate or "",
        "well": line.line.well or "",
        "kind": line.line.kind,
        "seq": batch.sequence.name,
    }
    try:
        return _Fields().vformat(pattern, (), values)
    except (ValueError, IndexError, KeyError) as error:
        raise PatternWrong(str(error)) from None


def on_disk(name: str, illegal: str = _ILLEGAL) -> str:
    """Write a name as a disk keeps it that knows no case and forbids some characters."""
    plain = _CONTROL.sub(_REPLACEMENT, name)
    plain = "".join(_REPLACEMENT if character in illegal else character for character in plain)
    return plain.rstrip(". ").casefold()


def duplicates(files: Sequence[DataFile]) -> list[list[DataFile]]:
    """Group the files that get the same name, in order of their first line."""
    groups: dict[str, list[DataFile]] = {}
    for file in files:
        groups.setdefault(file.on_disk, []).append(file)
    return [group for group in groups.values() if len(group) > 1]
