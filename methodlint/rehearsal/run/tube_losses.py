"""What each tube costs in pressure: those whose loss is not known, and wider ones for the rest."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from methodlint.documents.contents.train_order import ULTRAVIOLET
from methodlint.documents.kinds.instrument import Instrument
from methodlint.rehearsal.run.rehearsal import Rehearsal

__all__ = ["TubeLoss", "losses_behind_column", "tubes_of_unknown_loss"]

_BORES = (0.10e-3, 0.15e-3, 0.25e-3)
_LARGEST_SHARE = 0.03
"""Of a wider tube's volume in the hold-up volume: its plug of V^2/12 then stays below a tenth of
the variance of an early peak on 12,000 plates. Our own choice."""


@dataclass(frozen=True, slots=True)
class TubeLoss:
    """One tube downstream of the column at the worst moment.

    Attributes
    ----------
    name, part
        Name, and number of the part in the instrument's train.
    loss
        [Pa]; in the transition between laminar and turbulent flow the higher of two laws.
    reynolds
        [-].
    transition
        Whether the flow lies between the two laws.
    bore, wider
        Bore [m], and the next usual bore that does not broaden peaks; None if there is none.
    """

    name: str
    part: int | None
    loss: float
    reynolds: float
    transition: bool
    bore: float
    wider: float | None


def tubes_of_unknown_loss(card: Instrument) -> list[tuple[int, str, str]]:
    """List the tubes upstream of the regulator whose loss of pressure cannot be computed.

    Returns
    -------
    list of (int, str, str)
        Number in the train, name, and the key that is missing.
    """
    found = []
    for index, part in enumerate(card.train):
        if part.part == "regulator":
            break
        lacking = next((key for key in ("bore", "length") if getattr(part, key) is None), None)
        if part.part == "tube" and not part.bypassed and lacking is not None:
            found.append((index, part.name or f"tube {index + 1}", lacking))
    return found


def losses_behind_column(run: Rehearsal, row: int) -> list[TubeLoss]:
    """List the tubes between the last packed bed and the regulator at one moment."""
    instrument = run.plan.instrument
    assert instrument is not None
    card = instrument.model
    found = []
    for number in range(run.plan.analytical_column + 1, len(run.train.segments)):
        segment = run.train.segments[number]
        if not segment.is_tube:
            continue
        part = run.plan.part_of_segment[number]
        inside = run.slices_of(number)
        bore = card.train[part].bore if part is not None else None
        width = bore.si if bore else segment.bore
        share = np.inf if part is not None and _past_detection(run, card, part) else _LARGEST_SHARE
        found.append(
            TubeLoss(
                name=segment.name,
                part=part,
                loss=float(run.pressure[row, inside.start] - run.pressure[row, inside.stop]),
                reynolds=float(np.max(run.reynolds[row, inside])),
                transition=bool(np.any(run.transition[row, inside])),
                bore=width,
                wider=_wider(width, segment.length, share * run.hold_up_volume),
            )
        )
    return found


def _past_detection(run: Rehearsal, card: Instrument, part: int) -> bool:
    """Whether a part lies downstream of the last cell, and cells alone detect."""
    method = run.plan.method.model
    if any(detector.type not in ULTRAVIOLET for detector in method.detectors):
        return False
    cells = [number for number, one in enumerate(card.train) if one.part == "cell"]
    return bool(cells) and part > cells[-1]


def _wider(bore: float, length: float, largest: float) -> float | None:
    for wider in _BORES:
        if wider > bore * 1.01:
            volume = np.pi / 4.0 * wider**2 * length
            return wider if volume <= largest else None
    return None
