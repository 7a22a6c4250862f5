"""The name of a kind in, a commented document to start from out; `<...>` is left to fill in."""

from __future__ import annotations

from pathlib import Path

from methodlint.documents.loading import KINDS

_FOLDER = Path(__file__).resolve().parent


def starter(kind: str) -> str:
    """Text of the starter of one kind of document.

    Raises
    ------
    KeyError
        If `kind` is none of `KINDS`.
    """
    if kind not in KINDS:
        raise KeyError(kind)
    return (_FOLDER / f"{kind}.yaml").read_text(encoding="utf-8")
