"""What the flow train of an instrument card lacks, holds twice or holds in the wrong order."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from methodlint.documents.text.names import nearest
from methodlint.documents.text.places import Path
from methodlint.documents.text.visible import excerpt

if TYPE_CHECKING:  # a kind is imported only where a document of it is read
    from methodlint.documents.kinds.instrument import TrainPart

__all__ = [
    "ULTRAVIOLET",
    "TrainFault",
    "name_of_part",
    "same_detector",
    "train_faults",
    "why_not_recorded",
]

ULTRAVIOLET = ("UV", "PDA", "DAD")
"""Detectors that look through a cell; one records in the cell of the other."""

_NEEDED = ("injector", "column", "regulator")
"""What every run passes once, in flow order."""

# Where a part belongs that stands on the other side of one of those.
_UPSTREAM_OF = {"mixer": "column", "injector": "column", "guard": "regulator"}
_DOWNSTREAM_OF = {"source": "regulator"}


@dataclass(frozen=True, slots=True)
class TrainFault:
    """One thing that is wrong with a train: where, what, and what to do."""

    path: Path
    message: str
    remedy: str


def name_of_part(part: TrainPart, index: int) -> str:
    """Name of a part in words: its own, else what it is and its number."""
    return excerpt(part.name) if part.name else f"{part.part} (part {index + 1})"


def train_faults(train: Sequence[TrainPart]) -> Iterator[TrainFault]:
    """Find what keeps any run from passing a train as it is written.

    Parameters
    ----------
    train
        Parts in flow order; an empty one is a missing figure and no fault.
    """
    if not train:
        return
    places: dict[str, int] = {}
    for kind in _NEEDED:
        here = [index for index, part in enumerate(train) if part.part == kind]
        used = [index for index in here if not train[index].bypassed]
        if used:
            places[kind] = used[0]
        if not here:
            text = f"the train has no {kind}, which every run passes"
            yield TrainFault(("train",), text, f"add the {kind} at its place in the flow")
        elif not used:
            text = f"the {kind} is bypassed, and every run has to pass it"
            remedy = "remove 'bypassed', or write the part that is in the flow instead"
            yield TrainFault(("train", here[0], "bypassed"), text, remedy)
        for index in used[1:]:
            text = (
                f"the train has a second {kind}, part {index + 1} after part {used[0] + 1}; "
                "one is in the flow"
            )
            remedy = "write columns in series as a list in the method's 'column'"
            if kind != "column":
                remedy = "mark the one that is out of the flow with 'bypassed: true'"
            yield TrainFault(("train", index, "part"), text, remedy)
    yield from _order(train, places)


def _order(train: Sequence[TrainPart], places: dict[str, int]) -> Iterator[TrainFault]:
    for index, part in enumerate(train):
        after = _UPSTREAM_OF.get(part.part)
        before = _DOWNSTREAM_OF.get(part.part)
        wrong = ""
        if part.bypassed:
            continue
        if after in places and index > places[after]:
            wrong = f"downstream of the {after}; it belongs upstream of it"
        elif before in places and index < places[before]:
            wrong = f"upstream of the {before}; it belongs downstream of it"
        elif part.part == "column" and index > places.get("regulator", index):
            wrong = "downstream of the regulator, where there is no mobile phase of one phase"
        if wrong:
            yield TrainFault(
                ("train", index, "part"),
                f"the {name_of_part(part, index)} is written {wrong}",
                "write the parts in the order in which the mobile phase meets them",
            )


def why_not_recorded(
    train: Sequence[TrainPart], kind: str, cell: str | None, *, spectrometer: bool
) -> tuple[str, str] | None:
    """Say why a detector of a method records nothing on a bench.

    Parameters
    ----------
    train
        Parts in flow order.
    kind, cell
        Type of the detector, and the part of the train that the method names for it.
    spectrometer
        Whether the card describes a mass spectrometer beside its train.

    Returns
    -------
    tuple of str or None
        What is wrong and what to do; None if it records.
    """
    carriers = ("cell",) if kind in ULTRAVIOLET else ("source", "cell")
    parts = [
        index
        for index, part in enumerate(train)
        if part.part in carriers and same_detector(part.detector, kind)
    ]
    if cell is not None:
        named = [index for index, part in enumerate(train) if part.name == cell]
        # A part without a name may be the one that is meant.
        parts = named or [index for index in parts if train[index].name is None]
        if not parts:
            near = nearest(cell, [part.name for part in train if part.name], limit=3, count=1)
            remedy = (
                f"did you mean '{excerpt(near[0][0])}'?" if near else "name a part of its train"
            )
            return f"the bench has no part '{excerpt(cell)}'", remedy
    reasons = [_why_unusable(train, index, kind) for index in parts]
    if None in reasons or (not reasons and kind == "MS" and spectrometer):
        return None
    remedy = "run on a bench that has it, or remove it from the method"
    return reasons[0] if reasons else (f"the bench has no {kind} detector", remedy)


def same_detector(fitted: str | None, kind: str) -> bool:
    """Whether a part may be the detector of a kind: one that says nothing may be any."""
    return fitted is None or fitted == kind or (fitted in ULTRAVIOLET and kind in ULTRAVIOLET)


def _why_unusable(train: Sequence[TrainPart], index: int, kind: str) -> tuple[str, str] | None:
    part, name = train[index], name_of_part(train[index], index)
    if part.bypassed:
        return f"the {name} is bypassed", f"put the {name} into the flow"
    if not same_detector(part.detector, kind):
        return f"the {name} is a {part.detector} detector", "name the part that is this detector"
    upstream = any(one.part == "regulator" and not one.bypassed for one in train[:index])
    if kind in ULTRAVIOLET and upstream:
        return (
            f"the {name} lies downstream of the regulator, where gas and droplets pass it",
            "write it at its place upstream of the regulator",
        )
    return None
