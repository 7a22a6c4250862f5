"""What a command shows, kept as plain data: sealed with a key, and believed only if all fits."""

from __future__ import annotations

import hashlib
import json
import os
import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, get_args

from methodlint.documents.text.opening import CannotOpen, bytes_of
from methodlint.reports.lines import Tone

__all__ = ["Answer", "seal", "stored_answer", "user_key"]

_KEY = "key"
_KEY_BYTES = 32
_STATUSES = (0, 1, 2)
# What a terminal or an editor acts on instead of showing it; reports escape all of it.
_ACTS = re.compile(
    r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u200b-\u200f\u2028-\u202e\u2060-\u206f\ud800-\udfff]"
)
_TONES = frozenset(get_args(Tone))


@dataclass(frozen=True, slots=True)
class Answer:
    """What goes to standard output, and the exit status.

    Attributes
    ----------
    lines
        Lines of words, each a list of text and tone; None for a format for machines.
    text
        The text of a format for machines; None for words.
    """

    status: int
    lines: list[list[tuple[str, str]]] | None = None
    text: str | None = None

    def plain(self) -> dict[str, Any]:
        """The same as plain data."""
        return {"status": self.status, "lines": self.lines, "text": self.text}


def seal(key: bytes, data: Any) -> str:
    """Keyed hash of plain data: nobody without the key can make it."""
    text = json.dumps(data, sort_keys=True, separators=(",", ":"), ensure_ascii=True)
    return hashlib.blake2b(text.encode("ascii"), key=key, digest_size=32).hexdigest()


def user_key(folder: str) -> bytes | None:
    """Return the key of this user, made at first use; None if there is no place for one."""
    file = os.path.join(folder, _KEY)
    try:
        key = bytes_of(file, _KEY_BYTES + 1, own=True)
    except CannotOpen:
        key = _new_key(folder, file)
    return key if len(key) == _KEY_BYTES else None


def _new_key(folder: str, file: str) -> bytes:
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
    key = os.urandom(_KEY_BYTES)
    try:
        os.makedirs(folder, mode=0o700, exist_ok=True)
        descriptor = os.open(file, flags, 0o600)
    except OSError:
        return b""
    try:
        with open(descriptor, "wb") as stream:
            stream.write(key)
    except OSError:
        os.unlink(file)
        return b""
    return key


def stored_answer(found: Any, sealed: Callable[[Any], str]) -> Answer | None:
    """Return an answer read back from a file; None unless seal, structure and characters fit.

    Parameters
    ----------
    found
        Plain data of the file, of any shape.
    sealed
        Makes the seal of an answer as plain data.
    """
    if not isinstance(found, dict) or not isinstance(found.get("answer"), dict):
        return None
    answer = found["answer"]
    if found.get("seal") != sealed(answer) or set(answer) != {"status", "lines", "text"}:
        return None
    status, lines, text = answer["status"], answer["lines"], answer["text"]
    if type(status) is not int or status not in _STATUSES or (lines is None) == (text is None):
        return None
    if text is not None:
        return Answer(status, text=text) if _is_shown(text) else None
    if not isinstance(lines, list) or not all(isinstance(line, list) for line in lines):
        return None
    parts = [part for line in lines for part in line]
    if not all(isinstance(part, list) and len(part) == 2 for part in parts):
        return None
    if not all(
        _is_shown(words) and isinstance(tone, str) and tone in _TONES for words, tone in parts
    ):
        return None
    return Answer(status, lines=lines)


def _is_shown(text: Any) -> bool:
    return isinstance(text, str) and _ACTS.search(text) is None
