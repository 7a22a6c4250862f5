"""The flow train of an instrument card with its columns, as segments of the hydraulics."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from methodlint.documents.contents.column_spans import COLUMN_SPANS, implausible_dimension
from methodlint.documents.contents.dwell import dwell_volume
from methodlint.documents.kinds.column import Column
from methodlint.documents.kinds.instrument import Instrument, TrainPart
from methodlint.documents.loading import Loaded
from methodlint.documents.quantities.format import show
from methodlint.hydraulics import columns as beds
from methodlint.hydraulics.train import Segment, Train
from methodlint.rehearsal.plan.missing import Missing, why_broken

__all__ = ["train_of_cards"]

_BEFORE_PUMPS = "mixing point"


def train_of_cards(
    columns: Sequence[Loaded[Column]],
    instrument: Loaded[Instrument],
    lacks: list[Missing],
    preheater_temperature: float | None = None,
) -> tuple[Train | None, tuple[int | None, ...]]:
    """Segments from the mixing point to the regulator.

    Parameters
    ----------
    columns
        Column cards in flow order.
    instrument
        Instrument card.
    lacks
        Gets what is missing.
    preheater_temperature
        As the method sets it [K]; None leaves the card's own, else the oven's.

    Returns
    -------
    train : Train or None
        None where a figure is missing without which there is no train.
    parts : tuple
        For each segment the number of its part in the card's train; None for a packed bed and
        for what the card's parts do not account for.
    """
    card: Instrument = instrument.model
    if not card.train:
        lacks.append(Missing("instrument.train", instrument))
        return None, ()
    segments: list[Segment] = []
    parts: list[int | None] = []
    before_column = 0
    has_column = False
    for index, part in enumerate(card.train):
        if part.part == "regulator":
            break
        if part.bypassed:
            continue
        if part.part == "column":
            if has_column:
                lacks.append(Missing("instrument.train", instrument, "it has two parts 'column'"))
                return None, ()
            has_column = True
            before_column = len(segments)
            for bed in columns:
                packed = _bed(bed, lacks)
                if packed is not None:
                    segments.append(packed)
                    parts.append(None)
            continue
        segment = _plain_segment(part, index)
        if part.part == "preheater" and preheater_temperature is not None:
            segment = replace(segment, temperature=preheater_temperature)
        segments.append(segment)
        parts.append(index)
    if not has_column:
        lacks.append(Missing("instrument.train", instrument, "it has no part 'column'"))
        return None, ()
    if any(missing.where.startswith("column.") for missing in lacks):
        return None, ()
    dwell = dwell_volume(card)
    if dwell is not None:
        known = sum(segment.volume for segment in segments[:before_column])
        # Parts that hold more than was measured are a finding of their own.
        rest = max(dwell - known, 0.0)
        segments.insert(0, Segment(_BEFORE_PUMPS, "part", swept_volume=rest))
        parts.insert(0, None)
    segments.append(Segment("regulator", "regulator"))
    parts.append(None)
    return Train(tuple(_unique(segments))), tuple(parts)


def _plain_segment(part: TrainPart, index: int) -> Segment:
    name = part.name or f"{part.part} {index + 1}"
    own = part.temperature.si if part.temperature else None
    tube = part.part in ("tube", "preheater", "guard") and part.length and part.bore
    if tube and part.length and part.bore and part.length.si > 0.0 and part.bore.si > 0.0:
        kind = "preheater" if part.part == "preheater" else "tube"
        return Segment(name, kind, length=part.length.si, bore=part.bore.si, temperature=own)
    volume = part.volume.si if part.volume else 0.0
    if part.part == "preheater":
        # known by its volume alone: it warms the stream all the same
        return Segment(name, "preheater", swept_volume=volume, temperature=own, loss=False)
    kind = part.part if part.part not in ("tube", "guard") else "part"
    return Segment(name, kind, swept_volume=volume, temperature=own)


def _bed(loaded: Loaded, lacks: list[Missing]) -> Segment | None:
    card: Column = loaded.model
    absent = [
        name
        for name in ("length", "inner_diameter", "particle_size")
        if (value := getattr(card, name)) is None or value.si <= 0.0
    ]
    for name in absent:
        lacks.append(Missing(f"column.{name}", loaded, why_broken(loaded, (name,))))
    for name in COLUMN_SPANS:
        # A particle of 5 mm is a slip of the unit; whatever followed from it would be one too.
        if name not in absent and implausible_dimension(card, name):
            span = COLUMN_SPANS[name]
            usual = f"{show(span.lower, 'length', span.unit)} to {show(span.upper, 'length', span.unit)}"
            why = f"{getattr(card, name).text} is no {span.quantity}: columns have {usual}"
            lacks.append(Missing(f"column.{name}", loaded, why))
            absent.append(name)
    if absent:
        return None
    assert card.length and card.inner_diameter and card.particle_size
    shell = card.particle_type == "superficially porous"
    default = beds.TOTAL_POROSITY_SUPERFICIALLY_POROUS if shell else beds.TOTAL_POROSITY_POROUS
    total = card.total_porosity or default
    resistance = beds.DEFAULT_FLOW_RESISTANCE
    if card.flow_resistance is not None:
        resistance = beds.superficial_flow_resistance(
            card.flow_resistance.value, card.flow_resistance.basis, total
        )
    return Segment(
        loaded.name,
        "column",
        length=card.length.si,
        bore=card.inner_diameter.si,
        particle_size=card.particle_size.si,
        flow_resistance=float(resistance),
        external_porosity=card.external_porosity or beds.DEFAULT_EXTERNAL_POROSITY,
        total_porosity=total,
    )


def _unique(segments: list[Segment]) -> list[Segment]:
    """Number the names that occur twice; a train tells its segments apart by name."""
    seen: dict[str, int] = {}
    named: list[Segment] = []
    for segment in segments:
        count = seen.get(segment.name, 0)
        seen[segment.name] = count + 1
        if count:
            segment = replace(segment, name=f"{segment.name} ({count + 1})")
        named.append(segment)
    return named
