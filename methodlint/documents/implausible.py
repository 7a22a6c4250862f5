"""Values outside the span that is usual for what they are."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pydantic import BaseModel

from methodlint.documents.kinds.base import Document
from methodlint.documents.places import Path
from methodlint.documents.plausibility import Span, plausible_span, slip
from methodlint.documents.quantity import Quantity
from methodlint.documents.walk import quantities

_BY_FIELD: dict[tuple[str, str], str] = {
    ("Method", "oven_temperature"): "oven temperature",
    ("Method", "preheater_temperature"): "oven temperature",
    ("Method", "flow"): "flow",
    ("Method", "run_length"): "run length",
    ("ProgrammeRow", "temperature"): "oven temperature",
    ("Injection", "volume"): "injection volume",
    ("Detector", "wavelength"): "wavelength",
    ("Detector", "reference_wavelength"): "wavelength",
    ("TrainPart", "bore"): "tube bore",
    ("VentLine", "bore"): "vent line bore",
    ("Line", "volume"): "injection volume",
    ("Line", "run_length"): "run length",
    ("Supply", "store_temperature"): "store temperature",
    ("Supply", "line_temperature"): "store temperature",
    ("Supply", "net_mass"): "cylinder mass",
    ("Supply", "full_mass"): "cylinder mass",
    ("TemperatureSpan", "lowest"): "store temperature",
    ("TemperatureSpan", "highest"): "store temperature",
}
# Judged elsewhere: a column by its dimensions, a modifier's share by what can be mixed.
_LEFT_OUT = {("Column", name) for name in ("length", "inner_diameter", "particle_size")} | {
    ("ProgrammeRow", "modifier_share"),
    ("MobilePhase", "modifier_share"),
}
_LARGER_SCALE = frozenset({"flow", "injection volume"})


@dataclass(frozen=True, slots=True)
class Implausible:
    """A value with the span that it leaves.

    Attributes
    ----------
    slip
        What may have gone wrong, such as ``"ten times too large"``; None if nothing fits.
    """

    path: Path
    value: Quantity
    span: Span
    slip: str | None


def implausible_values(document: Document, *, preparative: bool = False) -> Iterator[Implausible]:
    """Find the values outside their usual span; zero is never one of them.

    Parameters
    ----------
    document : Document
        A typed document.
    preparative : bool
        The document declares that scale: flows and injection volumes are taken as they are.
    """
    for path, part, value in quantities(document):
        name = _quantity(part, str(path[-1]), value)
        span = plausible_span(name) if name else None
        if span is None or span.dimension != value.dimension or value.si == 0.0:
            continue
        if (preparative and name in _LARGER_SCALE) or span.holds(value.si):
            continue
        yield Implausible(path, value, span, slip(value.si, span, value.unit))


def _quantity(part: BaseModel, field: str, value: Quantity) -> str | None:
    kind = type(part).__name__
    if (kind, field) in _LEFT_OUT:
        return None
    if kind == "TrainPart" and field == "temperature":
        source = getattr(part, "part", "") == "source"
        return "source temperature" if source else "temperature"
    return _BY_FIELD.get((kind, field), value.dimension)
