"""Values outside the span that is usual for what they are."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from dataclasses import dataclass

from pydantic import BaseModel

from methodlint.documents.contents.placeholders import FIRST_YEAR, LAST_YEAR
from methodlint.documents.contents.walk import parts, quantities
from methodlint.documents.kinds.base import Document
from methodlint.documents.quantities.format import show
from methodlint.documents.quantities.plausibility import NUMBERS, plausible_span, slip
from methodlint.documents.quantities.quantity import Quantity
from methodlint.documents.text.places import Path, path_text

_RATINGS = {
    (part, name): "pressure rating"
    for part, names in (
        ("TrainPart", ("pressure_rating", "trip", "relief")),
        ("Pump", ("pressure_rating",)),
        ("CO2Pump", ("pressure_rating",)),
        ("ModifierPump", ("pressure_rating",)),
        ("MakeupPump", ("pressure_rating",)),
        ("EnvelopePoint", ("pressure",)),
        ("Trips", ("high_pressure",)),
        ("Regulator", ("highest",)),
        ("ClosedSection", ("pressure_rating", "relief")),
        ("Column", ("pressure_rating", "drop_rating")),
        ("RatedPart", ("pressure_rating",)),
        ("LineSection", ("pressure_rating", "relief")),
        ("Supply", ("cylinder_relief",)),
    )
    for name in names
}
_FLOW_LIMITS = {
    (pump, name): "limit of a pump's flow"
    for pump in ("CO2Pump", "ModifierPump", "MakeupPump")
    for name in ("lowest_flow", "lowest_accurate_flow", "highest_flow")
}
_BY_FIELD: dict[tuple[str, str], str] = {
    **_RATINGS,
    **_FLOW_LIMITS,
    ("Method", "oven_temperature"): "oven temperature",
    ("Method", "preheater_temperature"): "oven temperature",
    ("Method", "flow"): "flow",
    ("Method", "flow_ramp"): "time to reach a flow",
    ("Method", "run_length"): "run length",
    ("Method", "settling_time"): "time of a run",
    ("ProgrammeRow", "temperature"): "oven temperature",
    ("ProgrammeRow", "time"): "time of a run",
    ("MakeupRow", "time"): "time of a run",
    ("Peak", "retention_time"): "time of a run",
    ("Transition", "begins"): "time of a run",
    ("Transition", "ends"): "time of a run",
    ("Detector", "begins"): "time of a run",
    ("Detector", "ends"): "time of a run",
    ("Injection", "volume"): "injection volume",
    ("Detector", "wavelength"): "wavelength",
    ("Detector", "reference_wavelength"): "wavelength",
    ("Detector", "filter"): "time constant",
    ("Suitability", "rsd"): "limit of a standard deviation",
    ("AdditiveLevel", "level"): "additive level",
    ("EnvelopePoint", "flow"): "limit of a pump's flow",
    ("CO2Pump", "head_temperature"): "temperature of a chilled head",
    ("TrainPart", "bore"): "tube bore",
    ("TrainPart", "length"): "tube length",
    ("TrainPart", "volume"): "volume of a part",
    ("VentLine", "bore"): "vent line bore",
    ("VentLine", "length"): "vent line length",
    ("Oven", "lowest"): "oven temperature",
    ("Oven", "highest"): "oven temperature",
    ("Oven", "length"): "oven length",
    ("Regulator", "lowest"): "lower end of a regulator",
    ("VesselType", "capacity"): "vessel capacity",
    ("VesselType", "depth"): "depth of a vessel",
    ("Autosampler", "needle_depth"): "depth of a vessel",
    ("Autosampler", "loop"): "loop volume",
    ("Autosampler", "lowest_volume"): "lowest injection",
    ("Autosampler", "highest_volume"): "highest injection",
    ("Autosampler", "extra_drawn"): "volume drawn by a sampler",
    ("Autosampler", "needle_volume"): "volume drawn by a sampler",
    ("Autosampler", "wash_volume"): "volume drawn by a sampler",
    ("Autosampler", "tray_temperature"): "tray temperature",
    ("Autosampler", "tray_lowest"): "tray temperature",
    ("Autosampler", "tray_highest"): "tray temperature",
    ("MassSpectrometer", "highest_gas_flow"): "flow of source gas",
    ("MassSpectrometer", "gas_flow"): "flow of source gas",
    ("Instrument", "dwell_volume"): "dwell volume",
    ("Instrument", "extra_column_sigma"): "extra-column standard deviation",
    ("Line", "volume"): "injection volume",
    ("Line", "run_length"): "run length",
    ("Line", "stability"): "stability of samples",
    ("Sequence", "stability"): "stability of samples",
    ("Slot", "length"): "booked time",
    ("Supply", "store_temperature"): "store temperature",
    ("Supply", "line_temperature"): "store temperature",
    ("Supply", "net_mass"): "cylinder mass",
    ("Supply", "full_mass"): "cylinder mass",
    ("Supply", "water_capacity"): "water capacity",
    ("Supply", "line_loss"): "loss of pressure along the line",
    ("Supply", "filling_ratio"): "filling ratio",
    ("Supply", "grade"): "purity of CO2",
    ("TemperatureSpan", "lowest"): "store temperature",
    ("TemperatureSpan", "highest"): "store temperature",
    ("Bottle", "fill"): "bottle",
    ("Bottle", "dead_volume"): "dead volume of a bottle",
    ("Column", "trace_tolerated"): "trace of a liquid",
    ("Solvents", "purge_volume"): "purge",
    ("Room", "volume"): "room volume",
    ("Room", "air_changes"): "ventilation",
    ("Room", "air_changes_at_night"): "ventilation",
    ("Room", "outdoor_co2"): "CO2 outdoors",
    ("Room", "lowest_temperature"): "room temperature",
    ("Room", "highest_temperature"): "room temperature",
    ("Room", "air_pressure"): "pressure of the air",
    ("WasteVessel", "capacity"): "waste vessel",
}
_OF_PARTS = {"mixer": "mixer volume", "injector": "injector volume", "cell": "cell volume"}
_NUMBERS: dict[tuple[str, str], str] = {
    ("VesselType", "rows"): "rows or columns of a vessel",
    ("VesselType", "columns"): "rows or columns of a vessel",
    ("VesselType", "positions"): "positions of a tray",
    ("DataFiles", "longest_path"): "longest path",
    ("Supply", "cylinders"): "cylinders",
    ("Column", "plates"): "plate number",
    ("InjectionLog", "count"): "injections seen",
    ("Policy", "samples_between_brackets"): "injections between standards",
    ("Policy", "samples_per_control"): "injections between standards",
    ("Policy", "injections_between_controls"): "injections between standards",
    ("InjectionLog", "limit"): "injections of a column",
    ("Regulator", "ramp"): "ramp of a regulator in bar/min",
    ("Line", "dilution"): "dilution",
    ("FlowResistance", "value"): "flow resistance",
    ("Peak", "plates"): "plate number",
    ("Peak", "ion"): "m/z",
    ("Suitability", "plates"): "plate number",
    ("Suitability", "replicates"): "injections of a suitability test",
    ("Suitability", "resolution"): "resolution",
    ("Suitability", "tailing"): "tailing factor",
    ("Suitability", "signal_to_noise"): "signal-to-noise ratio",
    ("Injection", "flushes"): "loop volumes",
    ("Autosampler", "flushes_for_full_loop"): "loop volumes",
}
_WITH_NUMBERS = frozenset(kind for kind, _ in _NUMBERS)
_STEPS = {"flush": "a flush", "equilibration": "an equilibration"}
_OF_STEPS = (
    ("duration", "that takes no time", "minutes"),
    ("flow", "without any flow", "the flow of the method"),
)
# No room is without any fresh air, and a level computed without it is none.
_NEVER_ZERO = frozenset({"ventilation"})
# Judged elsewhere: a column by its dimensions, a modifier's share by what can be mixed.
_LEFT_OUT = {("Column", name) for name in ("length", "inner_diameter", "particle_size")} | {
    ("ProgrammeRow", "modifier_share"),
    ("MobilePhase", "modifier_share"),
}
_LARGER_SCALE = frozenset({"flow", "injection volume"})


_FIRST, _LAST = 1990, 2049
"""Years of dates on cards and in sequences: common practice, no source."""

_WIDE = 0.5
_WIDE_TEMPERATURE = 25.0
"""Tolerances, relative and in K, that say hardly anything of a value: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Implausible:
    """A value that leaves its usual span, or whose tolerance does.

    Attributes
    ----------
    path
        Where it is written.
    message
        What it is, and what would be usual.
    usual
        The usual span in words.
    """

    path: Path
    message: str
    usual: str


def implausible_values(document: Document, *, preparative: bool = False) -> Iterator[Implausible]:
    """Find the values outside their usual span; zero is one of them only for fresh air.

    Parameters
    ----------
    document : Document
        A typed document.
    preparative : bool
        The document declares that scale: flows and injection volumes are taken as they are.
    """
    for path, part, value in quantities(document):
        yield from _wide_tolerance(path, value)
        name = _quantity(part, str(path[-1]), value)
        span = plausible_span(name) if name else None
        if span is None or span.dimension != value.dimension:
            continue
        if value.si == 0.0 and name not in _NEVER_ZERO:
            continue
        if (preparative and name in _LARGER_SCALE) or span.holds(value.si):
            continue
        lower, upper = (show(end, span.dimension, span.unit) for end in (span.lower, span.upper))
        guess = slip(value.si, span, value.unit)
        above, what = value.si > span.upper, f"a {span.quantity}"
        yield _outside(path, value.text, above, what, lower, upper, guess)
    yield from _numbers(document)
    yield from _dates(document)
    for index, line in enumerate(getattr(document, "lines", ())):
        for field, words, usual in _OF_STEPS if line.kind in _STEPS else ():
            value = getattr(line, field)
            if value is not None and value.si == 0.0:
                message = f"line {index + 1} is {_STEPS[line.kind]} {words}"
                yield Implausible(("lines", index, field), message, usual)
        if line.kind in _STEPS and line.duration is None and line.flush_volume is None:
            message = f"line {index + 1} is {_STEPS[line.kind]} that does not say how long it takes"
            yield Implausible(("lines", index), message, "a duration in minutes")


def _dates(document: Document) -> Iterator[Implausible]:
    """Days that no card of a lab carries: most are slips of a digit."""
    for path, part in parts(document):
        for name in part.model_fields_set:
            value = getattr(part, name)
            if not isinstance(value, datetime.date) or _FIRST <= value.year <= _LAST:
                continue
            if FIRST_YEAR <= value.year <= LAST_YEAR:  # what lies beyond keeps a place
                message = f"{path_text((*path, name))} is {value.isoformat()}: no year of this work"
                yield Implausible((*path, name), message, f"a year from {_FIRST} to {_LAST}")


def _numbers(document: Document) -> Iterator[Implausible]:
    for path, part in parts(document):
        kind = type(part).__name__
        if kind not in _WITH_NUMBERS:
            continue
        for name in part.model_fields_set:
            quantity = _NUMBERS.get((kind, name))
            value = getattr(part, name) if quantity else None
            if quantity is None or value is None:
                continue
            lower, upper = NUMBERS[quantity]
            if not lower <= value <= upper:
                ends = f"{lower:g}", f"{upper:g}"
                yield _outside((*path, name), f"{value:g}", value > upper, quantity, *ends, None)


def _outside(
    path: Path, text: str, above: bool, quantity: str, lower: str, upper: str, guess: str | None
) -> Implausible:
    usual = f"{lower} to {upper}"
    message = (
        f"{path_text(path)} is {text}, {'above' if above else 'below'} the usual {usual} of "
        f"{quantity}{f'; it may be {guess}' if guess else ''}"
    )
    return Implausible(path, message, usual)


def _wide_tolerance(path: Path, value: Quantity) -> Iterator[Implausible]:
    if value.tolerance is None or value.si == 0.0:
        return
    thermal = value.dimension in ("temperature", "temperature difference")
    limit = _WIDE_TEMPERATURE if thermal else _WIDE * abs(value.si)
    if value.tolerance > limit:
        usual = "25 K at most" if thermal else "half the value at most"
        message = f"{path_text(path)} is {value.text}: so wide a tolerance says hardly anything"
        yield Implausible(path, message, usual)


def _quantity(part: BaseModel, field: str, value: Quantity) -> str | None:
    kind = type(part).__name__
    if (kind, field) in _LEFT_OUT:
        return None
    if kind == "TrainPart" and field == "temperature":
        source = getattr(part, "part", "") == "source"
        return "source temperature" if source else "temperature"
    if kind == "TrainPart" and field == "volume":
        return _OF_PARTS.get(getattr(part, "part", ""), "volume of a part")
    return _BY_FIELD.get((kind, field), value.dimension)
