"""Foresee that a list or mapping holds more than may be read, before its items are parsed.

Only a run of plain, short items is looked at: such a run is what a text below the limit of size can
hold very many of, and in it no separator can be part of a value. Whatever is not surely an item
ends the run, and is left to the parser.
"""

from __future__ import annotations

import re
from functools import lru_cache

# What cannot go on in the next line, hold a separator or be another part of the language.
_WORD = r"-?[A-Za-z0-9_.+~][\w.+/%()-]*+(?: [\w.+/%()-]++)*+"
_VALUE = (
    rf"(?:{_WORD}|\"[^\"\\\r\n]*+\"|'[^'\r\n]*+'"
    r"|\[[^]\[{}\"'#\r\n]*+\]|\{[^]\[{}\"'#\r\n]*+\})"
)
_SPACE = "[ \r\n]*+"
_FLOW_ITEM = rf"{_VALUE}{_SPACE},"
_FLOW_PAIR = rf"{_WORD} *+:[ \r\n]{_SPACE}{_VALUE}{_SPACE},"
_LINE_END = " *+\r?\n"
_ITEM_LINE = _VALUE + _LINE_END
_PAIR_LINE = rf"{_WORD} *+: ++{_VALUE}{_LINE_END}"

# Items counted by one match.
_STRIDE = 4096
# A list that is indented further than this is left to the parser.
_DEEPEST = 64
# The shortest item and what parts it from the next.
_SHORTEST = 2


def exceeds_limit_early(
    text: str, start: int, *, mapping: bool, flow: bool, most: int
) -> int | None:
    """Return where a list or mapping surely exceeds a number of nodes, or None.

    Parameters
    ----------
    text : str
        The text of the document.
    start : int
        Index of the first character of the list or mapping: its bracket, brace or first item.
    mapping, flow : bool
        Whether it is a mapping, and whether it stands in brackets or braces.
    most : int
        Keys and values that may still come.

    Returns
    -------
    int or None
        Index of the first item too many. None says nothing: the items have to be parsed.
    """
    nodes = 2 if mapping else 1
    items = most // nodes
    if len(text) - start < _SHORTEST * nodes * items:
        return None
    indent = 0
    if flow:
        start += 1
    else:
        indent = start - (text.rfind("\n", 0, start) + 1)
        if indent > _DEEPEST:
            return None
    many, one = _patterns(mapping, flow, indent)
    while items >= _STRIDE:
        match = many.match(text, start)
        if match is None:
            return None
        start = match.end()
        items -= _STRIDE
    for _ in range(items):
        match = one.match(text, start)
        if match is None:
            return None
        start = match.end()
    match = one.match(text, start)
    return None if match is None else match.start("item")


@lru_cache(maxsize=4 * (_DEEPEST + 1))
def _patterns(mapping: bool, flow: bool, indent: int) -> tuple[re.Pattern[str], re.Pattern[str]]:
    if flow:
        before, item = _SPACE, _FLOW_PAIR if mapping else _FLOW_ITEM
    else:
        before, item = ("", _PAIR_LINE) if mapping else ("- ++", _ITEM_LINE)
        item += f" {{{indent}}}"
    return (
        re.compile(f"(?:{before}{item}){{{_STRIDE}}}+"),
        re.compile(f"{before}(?P<item>{item})"),
    )
