"""Why a reference leads nowhere, and what to write instead."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from methodlint.documents.text.names import nearest

__all__ = ["NotFound", "no_card", "without_path"]

_MOST_NAMES = 8


@dataclass(frozen=True, slots=True)
class NotFound:
    """Why a reference could not be resolved, and what comes near it."""

    reason: str
    near: tuple[tuple[str, int], ...] = ()
    remedy: str = "name a card that can be read"


def no_card(
    kind: str,
    folder: str,
    name: str,
    names: Sequence[str],
    searched: str = "",
    *,
    method: bool = False,
) -> NotFound:
    """Say that there is no card of a name.

    Parameters
    ----------
    kind, folder
        Kind of the card and the folder that holds such cards.
    name
        Name that was written.
    names
        Cards of the kind that are there, in order.
    searched
        The folder that was looked through, where no ``lab.yaml`` says where the lab begins.
    method
        Whether a method names the card; it can be judged without.
    """
    if searched:
        remedy = (
            "put a lab.yaml (methodlint new lab) into the folder of the lab: without one, cards "
            f"are looked for in {searched} alone"
        )
        if method and kind in ("column", "instrument"):
            remedy += "; without `column` and `runs_on` a method alone is judged in part"
    else:
        remedy = f"write it under {folder}/ (methodlint new {kind})"
        if names:
            more = f" and {len(names) - _MOST_NAMES} more" if len(names) > _MOST_NAMES else ""
            remedy += f", or name one that is there: {', '.join(names[:_MOST_NAMES])}{more}"
    near = tuple(nearest(name, names, limit=3))
    return NotFound(f"there is no card of that name under {folder}/", near, remedy)


def without_path(name: str, suffixes: tuple[str, ...]) -> str:
    """Name of a card that was written as a path: no folders, no ending."""
    last = re.split(r"[\\/]", name)[-1]
    return last.rpartition(".")[0] if last.endswith(suffixes) else last
