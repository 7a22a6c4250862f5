"""Places where a document says the same thing twice and differently."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, cast

from methodlint.documents.contents.column_spans import implausible_dimension
from methodlint.documents.contents.cylinder_fill import above_stated, can_hold, overfills
from methodlint.documents.contents.dwell import dwell_volume, listed_volume, mixer_volume
from methodlint.documents.contents.walk import Parts, parts, quantities
from methodlint.documents.kinds.base import Document, Liquid
from methodlint.documents.kinds.column import Column
from methodlint.documents.kinds.method import Method
from methodlint.documents.quantities.format import show
from methodlint.documents.quantities.quantity import Quantity
from methodlint.documents.quantities.unit_table import UNITS, Unit, si_value
from methodlint.documents.text.places import Path, path_text
from methodlint.documents.text.visible import excerpt

if TYPE_CHECKING:  # a kind is imported only where a document of it is read
    from methodlint.documents.kinds.instrument import Instrument
    from methodlint.documents.kinds.supply import Supply

_PHRASE = re.compile(
    r"(?<![\w.,-])(?P<figure>\d+(?:\.\d+)?) ?"
    r"(?P<unit>°C|degC|C|bar|MPa|psi|mL/min|ml/min|mm|um|µm|μm)(?![\w/-])"
)
_RANGE_BEFORE = re.compile(r"(?:\d|\d ?\w{1,4}) ?(?:to|and|or|-|–|x|×) ?$")
_DIMENSIONS = {"temperature", "pressure", "volume flow", "length"}
# What a title of a kind speaks about, by dimension.
_MEANT: dict[tuple[str, str], str] = {
    ("method", "temperature"): "oven_temperature",
    ("method", "pressure"): "outlet_pressure",
    ("method", "volume flow"): "flow",
}
_CLOSE = 0.005


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Two statements that differ: the value judged by, and the place that disagrees."""

    path: Path
    other: Path
    message: str
    remedy: str = "keep the one that is meant"


def contradictions(document: Document) -> Iterator[Contradiction]:
    """Find statements of one document that contradict each other.

    Parameters
    ----------
    document : Document
        A typed document; nothing but what is written in it is looked at.
    """
    yield from _title(document)
    if isinstance(document, Method):
        yield from _programme(document)
    yield from _useless_guards(document)
    yield from _clocks(document)
    yield from _loop(document)
    of_one = list(_mass_of_one(document))
    yield from of_one
    yield from _filling(document)
    yield from _dwell(document)
    every = parts(document)
    told = bool(of_one) or _impossible_mass(document)
    yield from (item for item in _reversed(every) if not told or item.other != ("full_mass",))
    for path, part in every:
        if isinstance(part, Liquid) and part.liquid is not None and part.liquids:
            yield Contradiction(
                (*path, "liquid"),
                (*path, "liquids"),
                f"one liquid ('{excerpt(part.liquid)}') and a blend of {len(part.liquids)} are "
                "given for the same bottle",
            )


def _title(document: Document) -> Iterator[Contradiction]:
    """Compare figures of the title with the document; any value of that kind may agree."""
    title = document.title or ""
    phrases = list(_PHRASE.finditer(title))
    if not phrases:
        return
    kind = str(getattr(document, "kind", ""))
    held: dict[str, list[Quantity]] = {}
    for _, _, value in quantities(document):
        held.setdefault(value.dimension, []).append(value)
    for match in phrases:
        if _RANGE_BEFORE.search(title[: match.start()]):
            continue
        unit = next(
            (UNITS[name][match["unit"]] for name in _DIMENSIONS if match["unit"] in UNITS[name]),
            None,
        )
        field = _field_meant(document, kind, unit) if unit else None
        if unit is None or field is None or getattr(document, field) is None:
            continue
        said = si_value(float(match["figure"]), unit)
        if any(_same(said, value) for value in held.get(unit.dimension, [])):
            continue
        value = getattr(document, field)
        yield Contradiction(
            (field,), ("title",), f"the title says {match.group()}, '{field}' says {value.text}"
        )


def _field_meant(document: Document, kind: str, unit: Unit) -> str | None:
    """Which field a figure of the title speaks about; None if none, or if it is a slip itself."""
    if not isinstance(document, Column) or unit.dimension != "length":
        return _MEANT.get((kind, unit.dimension))
    field = "particle_size" if unit.factor <= 1e-6 else "length"
    return None if implausible_dimension(document, field) else field


def _same(said: float, value: Quantity) -> bool:
    slack = _CLOSE * abs(value.si) if value.dimension != "temperature" else 0.5
    return abs(said - value.si) <= max(slack, value.tolerance or 0.0)


def _programme(method: Method) -> Iterator[Contradiction]:
    rows = method.programme
    phase = method.mobile_phase
    share = phase.modifier_share if phase is not None else None
    if share is not None:
        for index, row in enumerate(rows):
            other = row.modifier_share
            if other is not None and abs(other.si - share.si) > 1e-9:
                yield Contradiction(
                    ("mobile_phase", "modifier_share"),
                    ("programme", index, "modifier_share"),
                    f"'modifier_share' says {share.text} for the whole run, row {index + 1} of the "
                    f"programme says {other.text}",
                )
                break
    if rows and rows[0].time.si == 0.0:
        for head, field in (
            ("flow", "flow"),
            ("outlet_pressure", "outlet_pressure"),
            ("oven_temperature", "temperature"),
        ):
            value, first = getattr(method, head), getattr(rows[0], field)
            if value is not None and first is not None and not _same(first.si, value):
                yield Contradiction(
                    (head,),
                    ("programme", 0, field),
                    f"'{head}' says {value.text}, the programme starts with {first.text}",
                )
    # With an instrument, the run is judged by what reaches the detector, which says more.
    length = method.run_length
    if rows and length is not None and not method.runs_on and rows[-1].time.si > length.si:
        yield Contradiction(
            ("run_length",),
            ("programme", len(rows) - 1, "time"),
            f"the run ends at {length.text}, the last row of the programme is at "
            f"{rows[-1].time.text}",
        )


def _clocks(document: Document) -> Iterator[Contradiction]:
    """Find a start and a booked slot on clocks that differ."""
    begins = getattr(document, "begins", None)
    booked = getattr(getattr(document, "slot", None), "begins", None)
    if begins is None or booked is None or begins.utcoffset() == booked.utcoffset():
        return
    yield Contradiction(
        ("begins",),
        ("slot", "begins"),
        f"'begins' ({begins.isoformat()}) and the slot's ({booked.isoformat()}) are on clocks of "
        "different offsets; both are compared as the bench's own clock",
        "write both as the clock at the bench shows them",
    )


def _loop(document: Document) -> Iterator[Contradiction]:
    """Find a highest injection that the loop cannot hold."""
    sampler = getattr(document, "autosampler", None)
    loop = getattr(sampler, "loop", None)
    highest = getattr(sampler, "highest_volume", None)
    if sampler is None or loop is None or highest is None or sampler.flow_through_needle:
        return
    if highest.si > loop.si:
        yield Contradiction(
            ("autosampler", "highest_volume"),
            ("autosampler", "loop"),
            f"'highest_volume' ({highest.text}) is more than the loop holds ({loop.text})",
        )


_OF_KINDS = (
    ("detector", ("cell", "source")),
    ("split_ratio", ("splitter",)),
    ("active", ("splitter",)),
)
"""Keys of a part of the train that say nothing of parts of another kind."""


def _useless_guards(document: Document) -> Iterator[Contradiction]:
    """Find trips and reliefs above the rating of what they protect."""
    for index, part in enumerate(getattr(document, "train", ())):
        for field in ("trip", "relief"):
            guard, rating = getattr(part, field), part.pressure_rating
            if guard is not None and rating is not None and guard.si > rating.si:
                where: Path = ("train", index)
                yield Contradiction(
                    (*where, field),
                    (*where, "pressure_rating"),
                    f"the {field} of {excerpt(part.name or part.part)} at {guard.text} is above its "
                    f"rating of {rating.text} and protects nothing",
                )
        for field, kinds in _OF_KINDS:
            if getattr(part, field) is not None and part.part not in kinds:
                where = ("train", index)
                yield Contradiction(
                    (*where, field),
                    (*where, "part"),
                    f"'{field}' belongs to a {' or '.join(kinds)}, "
                    f"{excerpt(part.name or part.part)} is a {part.part}",
                )
    relief = getattr(document, "cylinder_relief", None)
    rated = getattr(document, "rated_parts", ())
    if relief is not None and rated and relief.si > max(part.pressure_rating.si for part in rated):
        yield Contradiction(
            ("cylinder_relief",),
            ("rated_parts",),
            f"'cylinder_relief' of {relief.text} is above the rating of every part of the supply "
            "and protects none of them",
        )


# A fresh cylinder holds 0.6 to 0.75 kg per litre (common practice, no source).
_LEAST_FRESH = 300.0


def _mass_of_one(document: Document) -> Iterator[Contradiction]:
    """Find the full mass of one cylinder on the card of several."""
    if getattr(document, "kind", "") != "supply":
        return
    supply = cast("Supply", document)
    full, volume = supply.full_mass, supply.water_capacity
    if full is None or volume is None or supply.cylinders < 2 or volume.si <= 0.0:
        return
    if full.si >= _LEAST_FRESH * volume.si * supply.cylinders:
        return
    together = show(full.si * supply.cylinders, "mass", "kg")
    yield Contradiction(
        ("full_mass",),
        ("cylinders",),
        f"'full_mass' ({show(full.si, 'mass', 'kg')}) is that of all {supply.cylinders} "
        f"cylinders, which take {show(volume.si * supply.cylinders, 'volume', 'L')}; if one "
        f"holds as much, they hold {together}",
        f"write the mass of all cylinders, {together}",
    )


def _filling(document: Document) -> Iterator[Contradiction]:
    """Compare the filling ratio with mass and water capacity; too much is said elsewhere."""
    if getattr(document, "kind", "") != "supply":
        return
    supply = cast("Supply", document)
    fill, ratio = above_stated(supply), supply.filling_ratio
    if fill is None or ratio is None or overfills(supply):
        return
    yield Contradiction(
        ("filling_ratio",),
        (fill.field,),
        f"'filling_ratio' says {ratio.text}, '{fill.field}' ({show(fill.mass, 'mass', 'kg')}) in "
        f"{show(fill.volume, 'volume', 'L')} makes "
        f"{show(fill.density, 'density', 'g/mL')}; the pressure is computed from the greater",
    )


# By how much volumes of parts and a measured delay differ without a slip: common practice.
_DWELL_SLACK = 1.1


def _dwell(document: Document) -> Iterator[Contradiction]:
    """Find parts upstream of the column that hold more than the measured dwell volume."""
    if getattr(document, "kind", "") != "instrument":
        return
    card = cast("Instrument", document)
    whole, measured = dwell_volume(card), card.dwell_volume
    if whole is None or measured is None:
        return
    most = whole + (measured.tolerance or 0.0)
    mixer, listed = mixer_volume(card), listed_volume(card)
    if mixer > most:
        what = f"the mixer alone has {show(mixer, 'volume')}"
    elif listed > _DWELL_SLACK * most:
        what = f"the parts of the train upstream of the column have {show(listed, 'volume')}"
    else:
        return
    yield Contradiction(
        ("dwell_volume",),
        ("train",),
        f"'dwell_volume' ({measured.text}) includes the mixer and all other parts from the mixing "
        f"point to the column inlet, but {what}; the run is rehearsed with the volumes of the parts",
        "measure the dwell volume again, or correct the volumes of the parts",
    )


def _impossible_mass(document: Document) -> bool:
    """Whether the net mass is more than the cylinders can hold: that is said by a rule."""
    if getattr(document, "kind", "") != "supply":
        return False
    net = cast("Supply", document).net_mass
    return net is not None and not can_hold(cast("Supply", document), net.si)


_PAIRS = (
    ("lowest", "highest"),
    ("low", "high"),
    ("lowest_flow", "highest_flow"),
    ("lowest_volume", "highest_volume"),
    ("tray_lowest", "tray_highest"),
    ("tray_temperature", "tray_highest"),
    ("tray_lowest", "tray_temperature"),
    ("lowest_temperature", "highest_temperature"),
    ("begins", "ends"),
    ("dead_volume", "fill"),
    ("dead_volume", "capacity"),
    ("level", "capacity"),
    ("net_mass", "full_mass"),
)  # fmt: skip


_LOWER = frozenset(lower for lower, _ in _PAIRS)


def _reversed(every: Parts) -> Iterator[Contradiction]:
    for path, part in every:
        if _LOWER.isdisjoint(part.model_fields_set):
            continue
        for lower, upper in _PAIRS:
            if lower not in part.model_fields_set or upper not in part.model_fields_set:
                continue
            low, high = getattr(part, lower), getattr(part, upper)
            if not isinstance(low, Quantity) or not isinstance(high, Quantity):
                continue
            if low.dimension == high.dimension and low.si > high.si:
                where = f"{path_text(path)}: " if path else ""
                yield Contradiction(
                    (*path, lower),
                    (*path, upper),
                    f"{where}'{lower}' ({show(low.si, low.dimension)}) is above '{upper}' "
                    f"({show(high.si, high.dimension)})",
                )
