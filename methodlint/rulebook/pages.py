"""A rule's page taken apart: its sentence, its parts in order, its source."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from methodlint.judging.loader import Rule

_HEADING = re.compile(r"\S")
_EXAMPLES = ("Unsound", "Sound")


@dataclass(frozen=True, slots=True)
class PagePart:
    """A part of a page.

    Attributes
    ----------
    heading
        As the page writes it: `Reason`, or `Sound, because ...`.
    lines
        Its lines, without the indent.
    example
        Whether the lines are a document and not prose.
    """

    heading: str
    lines: tuple[str, ...]
    example: bool

    @property
    def paragraphs(self) -> list[str]:
        """Prose as one text a paragraph."""
        return [" ".join(block.split()) for block in "\n".join(self.lines).split("\n\n")]


def parts_of(rule: Rule) -> Iterator[PagePart]:
    """Take a rule's page apart; what stands between its first line and a heading has none."""
    heading, lines = "", list[str]()
    for text in [*rule.page.strip().splitlines()[1:], "end"]:
        if not _HEADING.match(text):
            lines.append(text[4:] if text.startswith("    ") else text.strip())
            continue
        while lines and not lines[-1].strip():
            lines.pop()
        if heading or lines:
            yield PagePart(heading, tuple(lines), heading.startswith(_EXAMPLES))
        heading, lines = text.strip(), []


def source_of(rule: Rule) -> str:
    """The authority that a rule names, as one line."""
    found = [part for part in parts_of(rule) if part.heading == "Source"]
    return " ".join(found[0].paragraphs) if found else ""
