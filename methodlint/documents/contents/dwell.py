"""The dwell volume of an instrument card: what was measured, and the volume that it stands for."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

if TYPE_CHECKING:  # a kind is imported only where a document of it is read
    from methodlint.documents.kinds.instrument import Instrument, TrainPart

__all__ = ["dwell_volume", "listed_volume", "mixer_volume"]

_HALF_HEIGHT = math.log(2.0)
"""Volumes of a stirred tank after which half of a step has left it: 1 - exp(-v/V) = 1/2."""


def dwell_volume(card: Instrument) -> float | None:
    """Volume between the mixing point and the column inlet, mixer included.

    A ramp arrives late by this volume, also downstream of a stirred mixer, whose mean delay is its own
    volume. Half of a step has left a stirred mixer after 0.69 of it, so that a reading at half
    height lacks the rest.

    Returns
    -------
    float or None
        [m3]; None where the card gives no dwell volume.
    """
    if card.dwell_volume is None:
        return None
    step = card.dwell_measured_by == "step at half height"
    return card.dwell_volume.si + ((1.0 - _HALF_HEIGHT) * mixer_volume(card) if step else 0.0)


def mixer_volume(card: Instrument) -> float:
    """Volume of the mixers upstream of the column [m3]."""
    mixers = (part for part in _upstream(card) if part.part == "mixer")
    return sum(part.volume.si for part in mixers if part.volume is not None)


def listed_volume(card: Instrument) -> float:
    """Volume of all parts upstream of the column of which the card gives one [m3]."""
    return sum(_volume(part) for part in _upstream(card))


def _upstream(card: Instrument) -> Iterator[TrainPart]:
    for part in card.train:
        if part.part == "column":
            return
        if not part.bypassed:
            yield part


def _volume(part: TrainPart) -> float:
    if part.length is not None and part.bore is not None:
        return math.pi / 4.0 * part.bore.si**2 * part.length.si
    return part.volume.si if part.volume is not None else 0.0
