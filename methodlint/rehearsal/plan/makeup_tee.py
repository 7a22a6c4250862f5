"""Where makeup joins: the one answer for the pressures of the main line and for the source."""

from __future__ import annotations

from typing import Literal

from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.kinds.method import Method

__all__ = ["MakeupJoins", "makeup_joins", "splitter_of", "tee_behind_splitter"]

MakeupJoins = Literal["whole stream", "main line", "branch", "not stated"]
"""`whole stream`: ahead of a splitter, which divides it, or there is none; `main line`: behind the
splitter, and none of it reaches the source; `branch`: all of it does, and the main line has none;
`not stated`: downstream of a splitter, on the main line or on the branch."""


def splitter_of(instrument: Instrument) -> int | None:
    """Number of the splitter in the train; None if the whole stream goes on."""
    return _first(instrument, "splitter")


def _first(instrument: Instrument, kind: str, after: int = -1) -> int | None:
    for index, part in enumerate(instrument.train):
        if index > after and part.part == kind and not part.bypassed:
            return index
    return None


def _tee(instrument: Instrument, method: Method) -> int | None:
    """Number of the tee that takes the makeup: the last one ahead of the regulator, or behind it."""
    regulator = _first(instrument, "regulator")
    if regulator is None:
        regulator = len(instrument.train)
    if method.makeup is not None and method.makeup.tee == "after the regulator":
        return _first(instrument, "tee", after=regulator)
    tees = [
        index
        for index, part in enumerate(instrument.train[:regulator])
        if part.part == "tee" and not part.bypassed
    ]
    return tees[-1] if tees else None


def makeup_joins(instrument: Instrument, method: Method) -> MakeupJoins:
    """Where the makeup of a method joins on an instrument; `whole stream` without a splitter."""
    splitter = splitter_of(instrument)
    if splitter is None or method.makeup is None:
        return "whole stream"
    tee = _tee(instrument, method)
    at = tee if tee is not None else _first(instrument, "regulator")
    if at is not None and at < splitter:
        return "whole stream"
    stated = instrument.train[tee].stands_on if tee is not None else None
    return stated or "not stated"


def tee_behind_splitter(instrument: Instrument, method: Method) -> str:
    """Path of the figure that says on which way downstream of a splitter the makeup joins."""
    tee = _tee(instrument, method)
    return f"instrument.train[{tee}].stands_on" if tee is not None else "instrument.train.tee"
