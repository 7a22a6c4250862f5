"""Where the parser gave up: look around for the slip that made it do so.

The parser says what it missed and where. What was written instead stands there, in the line above,
or where a bracket or a quotation mark was opened.
"""

from __future__ import annotations

import re

from methodlint.documents.text.slips import COMMAS, KEY, LONGEST, QUOTES, Slip, slip_of_entry
from methodlint.documents.text.visible import excerpt

_INDENT = re.compile(r"[ \t]*(?:- +)*")
_WITH_VALUE = re.compile(rf"{KEY}: +[^#\s&|>].*")
_LINE = re.compile(r"[^\r\n]*")
# Lines above the one where reading stopped that are looked through for a comment.
_LINES_BACK = 100


def line_start(text: str, index: int) -> int:
    """Return the index of the first character of the line that an index stands in."""
    newline = text.rfind("\n", 0, index) + 1
    return text.rfind("\r", newline, index) + 1 or newline


def line_at(text: str, start: int) -> str:
    """Return the rest of a line from an index, without its end."""
    found = _LINE.match(text, start)
    return "" if found is None else found.group()


def slip_of_line(text: str, start: int) -> Slip | None:
    """Look at a line that should be a key, a colon and a value, and is not."""
    line = line_at(text, start)
    indent = _INDENT.match(line)
    assert indent is not None
    begin = start + indent.end()
    found = slip_of_entry(line[indent.end() :].rstrip())
    return None if found is None else Slip(begin + found.index, found.message, found.remedy)


def slip_at_colon(text: str, index: int) -> Slip | None:
    """Look for what makes a colon unexpected: the value before it, or the line above."""
    start = line_start(text, index)
    line = line_at(text, start)
    before = text[start:index]
    indent = _INDENT.match(line)
    assert indent is not None
    entry = line[indent.end() :]
    if ": " in before or ":\t" in before:
        value = re.split(r":[ \t]+", entry, maxsplit=1)[1].rstrip()
        quoted = f"'{value}'" if '"' in value else f'"{value}"'
        if value.startswith(tuple(QUOTES)):
            quoted = f'"{value.strip(QUOTES)}"'
            return Slip(
                index - len(before) + before.index(value[0]),
                f"{value[0]} (U+{ord(value[0]):04X}) is not the quotation mark of a keyboard, and "
                "a second colon follows in the value",
                f"write {excerpt(quoted, 60)}",
            )
        if value[:1] in ("'", '"', "{", "["):
            return None
        remedy = f"quote the value: {excerpt(quoted, 60)}"
        *words, last = before[-LONGEST:].split(": ", 1)[-1].split(" ")
        if last.isidentifier() and any(character.isdigit() for character in "".join(words)):
            remedy += "; a second key begins a line of its own"
        return Slip(index, "a second colon in one value", remedy)
    if entry[:1] in ("'", '"', "{", "["):
        return None
    above = _line_above(text, start)
    if above is None:
        return None
    slip = slip_of_line(text, above)
    if slip is not None:
        return slip
    line_above = line_at(text, above)
    indent_above = _INDENT.match(line_above)
    assert indent_above is not None
    if indent.end() > indent_above.end() and _WITH_VALUE.match(line_above, indent_above.end()):
        return Slip(
            start + indent.end(),
            "this line is indented further than the key above it, which has its value already",
            "give keys of one level the same number of spaces; "
            "quote a text that goes on and holds a colon",
        )
    return None


def _line_above(text: str, start: int) -> int | None:
    """Return where the last line begins above another that is neither empty nor a comment."""
    while start > 0:
        end = start - 1
        if text[end] == "\n" and end > 0 and text[end - 1] == "\r":
            end -= 1
        start = line_start(text, end)
        line = text[start:end].strip()
        if line and not line.startswith("#"):
            return start
    return None


def slip_behind_value(text: str, index: int) -> Slip | None:
    """Look for what ended a value early: a quotation mark or a bracket."""
    character = text[index : index + 1]
    if character in ("]", "}"):
        opening = "[" if character == "]" else "{"
        return Slip(index, f"{character} closes nothing that {opening} opened", "take it out")
    begin = line_start(text, index)
    before = text[begin:index].strip()
    if not before:
        above = _line_above(text, begin)
        return None if above is None else slip_of_line(text, above)
    mark = before[-1:]
    if mark in ("]", "}"):
        return Slip(
            index, f"something follows the {mark} that ended the value",
            "take it out, or put it inside the brackets; quote a text that begins with a bracket",
        )  # fmt: skip
    if mark not in ("'", '"'):
        return None
    if before.count(mark) % 2 == 0:
        remedy = "put the whole value in quotation marks, or none of it"
        if mark == "'":
            remedy = "write '' for an apostrophe inside single quotation marks, or use double ones"
        return Slip(
            index,
            "the value ended at the quotation mark before this, and something follows",
            remedy,
        )
    # The mark before this was meant to open a value; the one that it closes stands further up.
    start = begin
    while (above := _line_above(text, start)) is not None:
        start = above
        line = line_at(text, start)
        if line.count(mark) % 2:
            message = "the quotation mark that is opened here is not closed in its line"
            return Slip(start + line.index(mark), message, "close it at the end of the value")
    return None


def slip_in_brackets(text: str, opened: int, index: int) -> Slip | None:
    """Look for why a bracket or brace is not closed where the parser expects it."""
    bracket = text[opened : opened + 1]
    if bracket not in ("[", "{"):
        return _slip_of_comment(text, index)
    closing, other = ("]", "}") if bracket == "[" else ("}", "]")
    inside = text[opened:index]
    found = _slip_of_comment(text, index) if closing in inside else None
    if found is not None and found.index > opened:
        return found
    begin = max(opened, line_start(text, index))
    comma = re.search(f"[{COMMAS}]", text[begin:index])
    if comma is not None and not set("'\"") & set(inside):
        sign = comma.group()
        return Slip(
            begin + comma.start(),
            f"{sign} (U+{ord(sign):04X}) is not the comma of a keyboard",
            "write a comma and a space",
        )
    if text[index : index + 1] == other:
        return Slip(
            index, f"{other} is given where {closing} is due", f"close {bracket} with {closing}"
        )
    if closing not in line_at(text, index) or begin != opened:
        return None
    piece = re.split(r"[,\[{]", inside[-LONGEST:])[-1]
    _, colon, value = piece.partition(": ")
    if text[index : index + 1] == ":" and colon:
        words = value.split()
        if len(words) < 2:
            message = "a second colon in one value"
            return Slip(index, message, "put the value in quotation marks")
        index -= len(value) - value.rindex(words[-1])
    what = "key and value" if bracket == "{" else "item"
    remedy = f"a comma and a space separate each {what} from the next"
    return Slip(index, "a comma is missing before this", remedy)


def _slip_of_comment(text: str, index: int) -> Slip | None:
    start: int | None = line_start(text, index)
    for _ in range(_LINES_BACK):
        if start is None:
            break
        line = line_at(text, start)[:LONGEST]
        found = re.search(r"\s#", line)
        closing = None if found is None else re.search(r"[]}]", line[found.end() :])
        if found is not None and closing is not None and re.search(r"[\[{]", line[: found.start()]):
            return Slip(
                start + found.start() + 1,
                f"a comment begins at this #, so that the {closing.group()} after it is not read",
                "put a value that begins with # in quotation marks",
            )
        start = _line_above(text, start)
    return None


def slip_inside_brackets(text: str, begin: int) -> Slip | None:
    """Look at a value inside brackets or braces that a colon is part of."""
    piece = re.split(r"[],}]", line_at(text, begin), maxsplit=1)[0].rstrip()
    found = slip_of_entry(piece)
    return None if found is None else Slip(begin + found.index, found.message, found.remedy)
