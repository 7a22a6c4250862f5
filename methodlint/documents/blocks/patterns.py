"""Names made by a pattern (`wine {n:03}`) and ranges of wells (`A1 to F9`)."""

from __future__ import annotations

import re
import string
from functools import lru_cache

from methodlint.documents.text.visible import excerpt

_RANGE = re.compile(r"\s*([A-Za-z]{0,2})\s*0*(\d{1,4})\s+to\s+([A-Za-z]{0,2})\s*0*(\d{1,4})\s*")
_ONE = re.compile(r"\s*([A-Za-z]{0,2})\s*0*(\d{1,4})\s*")
_FORM = re.compile(r"0?[0-9]{0,2}d?")
MOST_WELLS = 10_000


class BlockPatternWrong(ValueError):
    """A pattern or a range cannot be laid out; message and remedy."""

    def __init__(self, message: str, remedy: str) -> None:
        super().__init__(message)
        self.message, self.remedy = message, remedy


@lru_cache(maxsize=256)
def _parsed(pattern: str) -> tuple[tuple[str, str, str], ...]:
    parts: list[tuple[str, str, str]] = []
    try:
        for text, name, form, conversion in string.Formatter().parse(pattern):
            if name is not None and (name not in ("n", "level") or conversion):
                raise BlockPatternWrong(
                    f"'{{{excerpt(name)}}}' is not known in a name",
                    "A name may hold {n}, such as {n:03}, and {level}.",
                )
            if form and (name != "n" or not _FORM.fullmatch(form)):
                raise BlockPatternWrong(
                    f"':{excerpt(form)}' is no format of '{{{name}}}'",
                    "write {n:03} for three digits",
                )
            parts.append((text, name or "", form or ""))
    except ValueError as error:
        if isinstance(error, BlockPatternWrong):
            raise
        raise BlockPatternWrong(f"'{excerpt(pattern)}': {error}", "close every brace") from None
    return tuple(parts)


def filled_in(pattern: str, n: int, level: str = "") -> str:
    """Write the name of number `n`.

    Raises
    ------
    PatternWrong
        If it holds anything but ``{n}`` with digits and ``{level}``.
    """
    made = []
    for text, name, form in _parsed(pattern):
        made.append(text + (format(n, form) if name == "n" else level if name else ""))
    return "".join(made)


def numbered(pattern: str) -> bool:
    """Whether a pattern gives each number a name of its own."""
    return any(name == "n" for _, name, _ in _parsed(pattern))


def _row(letters: str) -> int:
    number = 0
    for letter in letters.upper():
        number = number * 26 + ord(letter) - ord("A") + 1
    return number


def _letters(row: int) -> str:
    made = ""
    while row > 0:
        row, rest = divmod(row - 1, 26)
        made = chr(ord("A") + rest) + made
    return made


def wells_of(text: str, *, by_columns: bool = False) -> list[str]:
    """Name the wells of a range: ``A1 to F9`` is the block between the two corners.

    Parameters
    ----------
    text : str
        Two corners, one well, or several of them divided by commas. ``1 to 54`` counts the places
        of a tray.
    by_columns : bool
        Go down the columns, not along the rows.

    Raises
    ------
    PatternWrong
        If it is no range, runs backwards or holds more than `MOST_WELLS` wells.
    """
    found: list[str] = []
    for part in text.split(","):
        found += _wells_of_one(part, by_columns)
        if len(found) > MOST_WELLS:
            raise BlockPatternWrong(f"'{excerpt(text)}' names more than {MOST_WELLS} wells",
                               "write the range that is meant")  # fmt: skip
    return found


def _wells_of_one(text: str, by_columns: bool) -> list[str]:
    single, match = _ONE.fullmatch(text), _RANGE.fullmatch(text)
    if single is not None:
        return [f"{single[1].upper()}{single[2]}"]
    if match is None or bool(match[1]) != bool(match[3]):
        raise BlockPatternWrong(f"'{excerpt(text)}' is no range of wells",
                           "write two corners, such as A1 to F9")  # fmt: skip
    rows = range(_row(match[1]), _row(match[3]) + 1)
    columns = range(int(match[2]), int(match[4]) + 1)
    if not rows or not columns:
        raise BlockPatternWrong(f"'{excerpt(text)}' runs backwards",
                           "write the corner at the top left first")  # fmt: skip
    if len(rows) * len(columns) > MOST_WELLS:
        raise BlockPatternWrong(f"'{excerpt(text)}' names more than {MOST_WELLS} wells",
                           "write the range that is meant")  # fmt: skip
    if by_columns:
        return [f"{_letters(row)}{column}" for column in columns for row in rows]
    return [f"{_letters(row)}{column}" for row in rows for column in columns]
