"""One line of the table of results."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Figure:
    """What was measured, against what, and what it should reach.

    Attributes
    ----------
    what
        What was timed.
    against
        What it is compared with.
    found
        The figure as it is shown, with its unit.
    wanted
        What it should be.
    reached
        Whether it is.
    detail
        The times behind the figure.
    """

    what: str
    against: str
    found: str
    wanted: str
    reached: bool
    detail: str = ""


def ms(seconds: float) -> str:
    """A time in milliseconds, or in seconds from 1 s on."""
    return f"{seconds:.2f} s" if seconds >= 0.9995 else f"{1e3 * seconds:.3g} ms"
