"""Keeps what was computed of the object that was asked about last."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import TypeVar

__all__ = ["memoize_last"]

_Subject = TypeVar("_Subject")
_Found = TypeVar("_Found")


def memoize_last(compute: Callable[[_Subject], _Found]) -> Callable[[_Subject], _Found]:
    """Compute once for as long as the very same object is asked about.

    For what many rules ask of one document or run, one after the other, where comparing or
    hashing it costs more than computing. What is computed must not be changed by who gets it.
    """
    latest: tuple[_Subject, _Found] | None = None

    @wraps(compute)
    def found(subject: _Subject) -> _Found:
        nonlocal latest
        known = latest  # another thread may put its own there
        if known is None or known[0] is not subject:
            known = latest = subject, compute(subject)
        return known[1]

    return found
