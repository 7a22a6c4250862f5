"""Templates whose `<key>` places are filled in, and whose lines go where a value is not known.

A template is YAML text. `<key>` is filled with the value of that key or goes with its entry;
`<!key>` takes the whole mapping or line along. `#@ name` at the end of a line keeps it for the
templates of that name alone. A key that nothing is left beneath goes as well.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

__all__ = ["fill", "keys_of", "template_text"]

_FOLDER = Path(__file__).resolve().parent / "templates"
_PLACE = re.compile(r"<(!?)(\w+)>")
_GUARD = re.compile(r"\s+#@ ([\w ,-]+)$")


class _Dropped(Exception):
    """The entry, or with `whole` the mapping around it, has no value."""

    def __init__(self, *, whole: bool) -> None:
        super().__init__()
        self.whole = whole


def template_text(kind: str) -> str:
    """Text of the template of one kind of document."""
    return (_FOLDER / f"{kind}.yaml").read_text(encoding="utf-8")


def keys_of(template: str) -> set[str]:
    """Keys that a template has places for."""
    return {name for _, name in _PLACE.findall(template)}


def fill(template: str, values: Mapping[str, str], chosen: str) -> str:
    """Fill a template.

    Parameters
    ----------
    template
        Its text.
    values
        YAML text by key; a key that is not known is absent. A text that begins with a newline is
        laid out beneath the key.
    chosen
        Name of the template that lines are kept for.
    """
    kept: list[str] = []
    above: list[str] = []
    for line in template.splitlines():
        if line.lstrip().startswith("#"):
            above.append(line)
            continue
        filled = _of_line(line, values, chosen)
        if filled is not None:
            kept += [*above, filled]
        above = []
    return "\n".join(_without_empty_keys(kept)) + "\n"


def _of_line(line: str, values: Mapping[str, str], chosen: str) -> str | None:
    """One line filled; None where it goes."""
    guard = _GUARD.search(line)
    if guard is not None:
        if chosen not in guard[1].replace(",", " ").split():
            return None
        line = line[: guard.start()]
    try:
        return _filled(line, values).replace(": \n", ":\n")
    except _Dropped:
        return None


def _filled(text: str, values: Mapping[str, str]) -> str:
    """Fill one line or one entry; brackets are looked into first."""
    start = min((at for at in (text.find("{"), text.find("[")) if at >= 0), default=-1)
    if start < 0 or text.lstrip().startswith("#") or '"{' in text:
        return _PLACE.sub(lambda found: _value(found, values), text)
    end = _closing(text, start)
    inner, dropped = [], False
    for entry in _entries(text[start + 1 : end]):
        try:
            inner.append(_filled(entry, values))
        except _Dropped as gone:
            if gone.whole:
                raise _Dropped(whole=False) from gone
            dropped = True
    if not inner and dropped:
        raise _Dropped(whole=False)
    return f"{_filled(text[:start], values)}{text[start]}{', '.join(inner)}{text[end:]}"


def _value(found: re.Match[str], values: Mapping[str, str]) -> str:
    value = values.get(found[2])
    if value is None:
        raise _Dropped(whole=bool(found[1]))
    return value


def _closing(text: str, start: int) -> int:
    depth = 0
    for at in range(start, len(text)):
        depth += (text[at] in "{[") - (text[at] in "}]")
        if depth == 0:
            return at
    raise ValueError(f"a bracket of a template is not closed: {text}")


def _entries(text: str) -> list[str]:
    """Divide the inside of brackets at its own commas."""
    found, depth, begin = [], 0, 0
    for at, letter in enumerate(text):
        depth += (letter in "{[") - (letter in "}]")
        if letter == "," and depth == 0:
            found.append(text[begin:at].strip())
            begin = at + 1
    return [*found, text[begin:].strip()]


def _without_empty_keys(lines: list[str]) -> list[str]:
    """Take out keys that nothing stands beneath, with the comments above them."""
    kept: list[str] = []
    gone = False
    for line in reversed(lines):
        comment = line.lstrip().startswith("#")
        if comment and gone:
            continue
        below = next((other for other in reversed(kept) if not other.lstrip().startswith("#")), "")
        gone = not comment and line.rstrip().endswith(":") and _indent(below) <= _indent(line)
        if not gone:
            kept.append(line)
    return kept[::-1]


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip())
