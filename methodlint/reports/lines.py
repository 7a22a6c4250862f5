"""Lines of words with a tone: printed plain, or coloured by rich on a terminal."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal, TextIO

from methodlint.documents.text.visible import visible

_COMMAND_MARKS = re.compile("#(?=#)")
Tone = Literal["plain", "head", "stop", "fault", "caution", "note", "good", "quiet"]

_STYLES: dict[Tone, str] = {
    "plain": "",
    "head": "bold",
    "stop": "bold white on red",
    "fault": "bold red",
    "caution": "bold yellow",
    "note": "cyan",
    "good": "bold green",
    "quiet": "dim",
}


@dataclass(frozen=True, slots=True)
class Words:
    """A stretch of text in one tone."""

    text: str
    tone: Tone = "plain"


Line = Sequence[Words]


def line(*parts: str | Words) -> Line:
    """Build a line; plain strings take the plain tone. Document text is made visible here."""
    return [
        Words(visible(part)) if isinstance(part, str) else Words(visible(part.text), part.tone)
        for part in parts
    ]


def wrapped(head: Words | str, text: str, indent: int, width: int) -> list[Line]:
    """Lay text out behind a head, continued at the same indent; words are never cut."""
    first = Words(head) if isinstance(head, str) else head
    lines: list[Line] = []
    label = visible(first.text).ljust(indent)
    current = ""
    for word in visible(text).split(" "):
        if current and indent + len(current) + 1 + len(word) > width:
            lines.append([Words(label, first.tone if not lines else "plain"), Words(current)])
            label, current = " " * indent, word
        else:
            current = f"{current} {word}" if current else word
    lines.append([Words(label, first.tone if not lines else "plain"), Words(current)])
    return lines


def wrapped_items(items: Iterable[str], indent: int, width: int) -> list[Line]:
    """Lay items out one behind the other, each whole: a figure stays with its unit."""
    lines: list[Line] = []
    current = ""
    for item in map(visible, items):
        if current and indent + len(current) + 3 + len(item) > width:
            lines.append([Words(f"{' ' * indent}{current},")])
            current = item
        else:
            current = f"{current}, {item}" if current else item
    return [*lines, [Words(f"{' ' * indent}{current}")]] if current else lines


def plain_line(parts: Line) -> str:
    """Join a line without colours, so that no build server takes document text for a command.

    Such servers act on lines that begin with `::` behind any blanks, and on `##[` anywhere.
    """
    text = "".join(part.text for part in parts).rstrip()
    if text.lstrip().startswith("::"):
        blanks = len(text) - len(text.lstrip())
        text = f"{text[:blanks]}\\{text[blanks:]}"
    return _COMMAND_MARKS.sub("# ", text)


def write_lines(lines: Iterable[Line], stream: TextIO, *, colour: bool) -> None:
    """Write lines to a stream.

    Parameters
    ----------
    colour
        Whether the stream is a terminal that wants colours; rich is imported only then.
    """
    if not colour:
        encoding = stream.encoding or "utf-8"
        for parts in lines:
            text = plain_line(parts)
            safe = text.encode(encoding, "backslashreplace").decode(encoding)
            stream.write(safe + "\n")
        return
    from rich.console import Console
    from rich.text import Text

    console = Console(file=stream, highlight=False, soft_wrap=True, emoji=False, markup=False)
    for parts in lines:
        text_line = Text()
        for part in parts:
            text_line.append(part.text, style=_STYLES[part.tone])
        console.print(text_line)
