"""Make hidden characters visible before a text is shown to anybody."""

from __future__ import annotations

import re
import unicodedata

# Everything that is plainly printable passes this test without a look at each character.
_PLAIN = re.compile(r"[\x20-\x7e\xa1-\xac\xae-\u02ff]*")

# Shown by code point although Unicode files them under letters, symbols or marks: they are blank
# or change the look of their neighbours.
_BLANK_LETTERS = frozenset("\u115f\u1160\u3164\uffa0\u2800\u034f\u17b4\u17b5")
_HIDDEN_CATEGORIES = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})


def is_hidden(character: str) -> bool:
    """Tell whether a character is invisible or acts on the text around it.

    Control characters, line and paragraph separators, bidirectional controls, zero-width
    characters, variation selectors, unusual blanks, lone surrogates and unassigned code points.
    The ordinary blank is not hidden.
    """
    if "\x20" <= character <= "\x7e":
        return False
    category = unicodedata.category(character)
    return (
        category in _HIDDEN_CATEGORIES
        or category == "Zs"
        or character in _BLANK_LETTERS
        or "\ufe00" <= character <= "\ufe0f"
        or "\U000e0100" <= character <= "\U000e01ef"
    )


def has_letters(text: str) -> bool:
    """Whether a text has a letter that can be seen: a reason or a name that says something."""
    return any(character.isalpha() and not is_hidden(character) for character in text)


def escape(character: str) -> str:
    r"""Write a character by its code point: ``\x1b``, ``\u202e``, ``\U000e0001``."""
    code = ord(character)
    if code < 0x100:
        return f"\\x{code:02x}"
    return f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"


def visible(text: str) -> str:
    r"""Return `text` with every hidden character written as an escape.

    For every place where text from a document, a file name or an exception is shown: a terminal
    sequence, a reversed line or a line end in a name cannot act there. A newline becomes ``\n``,
    a tab ``\t``. Text without hidden characters is returned as it is; a backslash is left alone.
    """
    if _PLAIN.fullmatch(text):
        return text
    named = {"\n": "\\n", "\r": "\\r", "\t": "\\t"}
    return "".join(
        named.get(character) or (escape(character) if is_hidden(character) else character)
        for character in text
    )


def retyped(text: str) -> str:
    """Return `text` as a keyboard writes it, for a remedy.

    Blanks, digits and signs of other widths become ordinary ones, other hidden characters go.
    """
    typed = []
    for character in text:
        category = unicodedata.category(character)
        if category == "Zs":
            typed.append(" ")
        elif category == "Nd":
            typed.append(str(unicodedata.digit(character)))
        elif "\uff01" <= character <= "\uff5e":
            typed.append(chr(ord(character) - 0xFEE0))
        elif not is_hidden(character):
            typed.append(character)
    return " ".join("".join(typed).split())


def code_points(text: str) -> str:
    """Return the code points of `text` that are not plain ASCII, such as ``U+0430 U+202E``."""
    odd = dict.fromkeys(c for c in text if not "\x20" <= c <= "\x7e")
    return " ".join(f"U+{ord(c):04X}" for c in odd)


def excerpt(text: str, length: int = 40) -> str:
    """Return `text` made visible and cut to about `length` characters, for a message."""
    if len(text) <= length:
        return visible(text)
    return visible(text[:length]) + "..."
