"""The error of a value that a document cannot hold: what is wrong, what to write, and which rule says so."""

from __future__ import annotations

from pydantic_core import PydanticCustomError

__all__ = ["refused"]


def refused(rule: str, message: str, remedy: str, **also: object) -> PydanticCustomError:
    """Make the error of a value that cannot be used, with the rule that reports it."""
    return PydanticCustomError(rule, "{message}", {"message": message, "remedy": remedy, **also})
