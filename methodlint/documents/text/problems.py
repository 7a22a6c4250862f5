"""What can be wrong with a document before anything is computed from it."""

from __future__ import annotations

from dataclasses import dataclass

from methodlint.documents.text.places import Path, Place, path_text


@dataclass(frozen=True, slots=True)
class Problem:
    """Something wrong with the text of a document.

    Attributes
    ----------
    rule : str
        Identifier in words, such as ``document.type-trap``.
    grade : str
        One of ``stop``, ``fault``, ``caution`` and ``note``.
    path : Path
        Keys and indices that lead to the value; empty for the document as a whole.
    place : Place
        Where it stands in the text.
    message, remedy : str
        What is wrong, and what to write instead.
    also : tuple of Place
        Other places that belong to it, such as the first of two equal keys.
    missing : str or None
        The key that is not there, when that is the problem.
    meant : tuple of str
        Texts that may be meant at that place, the likeliest first; for a key, keys.
    breaks : bool
        True when the value cannot be used: whatever depends on it is not checked.
    """

    rule: str
    grade: str
    path: Path
    place: Place
    message: str
    remedy: str = ""
    also: tuple[Place, ...] = ()
    breaks: bool = True
    missing: str | None = None
    meant: tuple[str, ...] = ()

    def __str__(self) -> str:
        """Return one line: place, path, rule and message."""
        where = f"line {self.place.line}, column {self.place.column}"
        if self.place.file:
            where = f"{self.place.file}, {where}"
        path = f" {path_text(self.path)}:" if self.path else ""
        return f"{where}:{path} {self.message} [{self.rule}]"
