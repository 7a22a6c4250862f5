"""Document text within markdown: it can be read there, and does nothing.

Words made of letters, digits and harmless marks stay as they are; everything else becomes a code
span, within which markdown, HTML, links, mentions and references are dead.
"""

from __future__ import annotations

import re

from methodlint.documents.text.visible import visible

# One or more words in a row that are not plain are one span.
_PLAIN_WORD = re.compile(
    r"[(\"']*(?:[+-]?[^\W_]+(?:[-+./,:=%°'][^\W_]+)*|[+=%×-]|°C|\+-)?[%°]?[.,;:!?)\"']*\Z",
    re.UNICODE,
)
# Hosts make links of addresses, numbers of commits and little pictures of :words: on their own.
_AUTOMATIC = re.compile(
    r"www\.|https?:|ftp:|mailto:|xmpp:|:[\w+-]+:|\bGH-\d|\b[0-9a-f]{7,40}\b", re.IGNORECASE
)
_LONGEST = 1_500


def inert(text: str) -> str:
    """Write document text for a paragraph or a list item."""
    return _written(text, in_table=False)


def cell(text: str) -> str:
    """Write document text for a cell of a table."""
    return _written(text, in_table=True)


def code(text: str, *, in_table: bool = False) -> str:
    """Write text as one code span, whatever marks it holds."""
    text = visible(text)
    longest = max((len(run) for run in re.findall("`+", text)), default=0)
    fence = "`" * (longest + 1)
    # A blank at either end is taken off by readers, so that a mark beside the fence can be told.
    pad = " " if text.startswith(("`", " ")) or text.endswith(("`", " ")) else ""
    if in_table:
        text = text.replace("|", "\\|")
    return f"{fence}{pad}{text}{pad}{fence}"


def _written(text: str, *, in_table: bool) -> str:
    if len(text) > _LONGEST:
        text = text[:_LONGEST] + "..."
    parts: list[str] = []
    strange: list[str] = []
    for word in visible(text).split(" "):
        if word and _PLAIN_WORD.match(word) and not _AUTOMATIC.search(word):
            if strange:
                parts.append(code(" ".join(strange), in_table=in_table))
                strange = []
            parts.append(word)
        elif word or strange:
            strange.append(word)
    while strange and not strange[-1]:
        strange.pop()
    if strange:
        parts.append(code(" ".join(strange), in_table=in_table))
    return " ".join(parts)
