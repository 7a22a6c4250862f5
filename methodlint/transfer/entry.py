"""One line of the transfer: what it was, what geometry alone says, what is proposed, and why."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from methodlint.documents.text.places import Path

__all__ = ["Entry", "How", "Obstacle", "Way"]

How = Literal["derived", "copied", "limited by"]


@dataclass(frozen=True, slots=True)
class Entry:
    """One item of the method.

    Attributes
    ----------
    item
        In words.
    path
        Where it stands in the method; None for a figure that is only shown.
    source, geometry, proposed
        In the unit of the document; empty where there is none.
    how
        `derived` by a formula, `copied`, or `limited by` what `limit` names.
    limit
        What limits it.
    why
        Formula and figures.
    """

    item: str
    path: Path | None
    source: str
    geometry: str
    proposed: str
    how: How
    limit: str = ""
    why: str = ""

    @property
    def reason(self) -> str:
        """The fourth column in words."""
        head = f"limited by {self.limit}" if self.how == "limited by" else self.how
        return f"{head}: {self.why}" if self.why else head


@dataclass(frozen=True, slots=True)
class Obstacle:
    """A constraint that no transfer satisfies.

    Attributes
    ----------
    name
        What binds.
    message
        With figures.
    """

    name: str
    message: str


@dataclass(frozen=True, slots=True)
class Way:
    """Another way to move the method, in words and with figures.

    Attributes
    ----------
    text
        What to do.
    computed
        Whether it was marched and found to hold; else it is arithmetic only.
    """

    text: str
    computed: bool
