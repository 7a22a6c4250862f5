"""Figures that a rehearsal needs and the documents do not give."""

from __future__ import annotations

from dataclasses import dataclass

from methodlint.documents.loading import Loaded


@dataclass(frozen=True, slots=True)
class Missing:
    """A figure that is not there.

    Attributes
    ----------
    where
        Kind of document and path, for example `column.particle_size`.
    document
        The document that should give it; None if that document is missing as a whole.
    reason
        Why it cannot be used although it is written down; empty if it is not.
    """

    where: str
    document: Loaded | None = None
    reason: str = ""


def why_broken(document: Loaded, path: tuple[str | int, ...]) -> str:
    """Say why a value that is written down cannot be used; empty if it is not there at all."""
    for broken, problem in document.broken.items():
        if broken[: len(path)] == path or path[: len(broken)] == broken:
            return f"it is written down but cannot be used: {problem.message}"
    return ""
