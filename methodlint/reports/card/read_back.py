"""Set values to read back on the instrument, figures to write down, and what a batch takes.

A document is a copy of what will run; the instrument holds the original.
"""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.documents.contents.bottle_roles import role_of
from methodlint.documents.kinds.base import Liquid
from methodlint.documents.kinds.method import Detector, Method
from methodlint.documents.quantities.format import show
from methodlint.judging.case import BatchCase, RunCase
from methodlint.judging.shared.waste_of_case import collected_modifier
from methodlint.rehearsal.batch.bench_state import liquid_words
from methodlint.rehearsal.batch.lines import INJECTING
from methodlint.rehearsal.batch.waste import liquid_streams, without_fractions
from methodlint.rehearsal.plan.components import components_of
from methodlint.reports.card.blocks import CardRows, Table

__all__ = ["amounts_block", "read_back_block", "record_block", "sequence_read_back"]

_BOX = "[__________]"
_MOST_STEPS = 20


def read_back_block(name: str, case: RunCase) -> Table | None:
    """Set values of one method, one row each with an empty box."""
    if case.method is None:
        return None
    rows = [(what, value, _BOX) for what, value in _of_method(case.method) if value]
    headers = ("setting", "as written", "on the instrument")
    return Table(
        "read-back", "READ BACK", f"method {name}", headers, tuple(rows), frozenset({0, 1, 2})
    )


def _of_method(method: Method) -> Iterator[tuple[str, str]]:
    names = method.column if isinstance(method.column, tuple) else (method.column,)
    yield "column", ", ".join(name for name in names if name)
    yield "oven", _text(method.oven_temperature)
    yield "flow", _text(method.flow)
    phase = method.mobile_phase
    if phase is not None and phase.modifier is not None:
        line = f" on {phase.modifier.line}" if phase.modifier.line else ""
        yield "modifier", f"{liquid_words(phase.modifier) or ''}{line}"
    if phase is not None and not method.programme:
        yield "modifier share", _text(phase.modifier_share)
    for row in method.programme:
        values = (row.modifier_share, row.flow, row.outlet_pressure, row.temperature)
        said = ", ".join(_text(value) for value in values if value is not None)
        yield f"at {row.time.text}", said + (" (step)" if row.step else "")
    yield "regulator", _text(method.outlet_pressure)
    yield "run length", _text(method.run_length)
    yield "settling time", _text(method.settling_time)
    if method.injection is not None:
        yield "injection", _joined(_text(method.injection.volume), method.injection.mode or "")
        yield "stacked every", _text(method.injection.stacked_every)
    if method.collection is not None:
        yield "liquid added at the collector", _text(method.collection.makeup)
        for number, one in enumerate(method.collection.fractions, start=1):
            yield f"fraction {number} opens, closes", f"{_text(one.begins)}, {_text(one.ends)}"
    for detector in method.detectors:
        yield f"detector {detector.type}", _detector(detector)
    if method.makeup is not None:
        yield "makeup", _joined(liquid_words(method.makeup) or "", _text(method.makeup.flow))
    limits = method.pressure_limits
    if limits is not None:
        yield "high limit", _text(limits.high)
        yield "low limit", _text(limits.low)


def _detector(detector: Detector) -> str:
    values = (detector.wavelength, detector.rate, detector.filter)
    words = [_text(value) for value in values if value is not None]
    words += [word for word in (detector.source, detector.polarity) if word]
    return ", ".join(words)


def _joined(*words: str) -> str:
    return ", ".join(word for word in words if word)


def _text(value: object) -> str:
    return str(getattr(value, "text", "")) if value is not None else ""


def sequence_read_back(case: BatchCase) -> Table:
    """Set values of the sequence, and of its lines with settings of their own."""
    sequence, batch = case.sequence, case.batch
    assert sequence is not None
    rows = [("lines", str(len(batch.lines))), ("injections", str(batch.injections))]
    rows.append(("equilibration", _text(sequence.equilibration)))
    rows.append(("data files", sequence.data_file or ""))
    rows += [(f"plate {place}", vessel) for place, vessel in sequence.plates.items()]
    steps = [run for run in batch.lines if run.line.kind not in INJECTING or run.line.flow]
    for run in steps[:_MOST_STEPS]:
        line = run.line
        words = [liquid_words(line.liquid) or "", _text(line.duration), _text(line.flow)]
        words += [_text(line.flush_volume), _text(line.modifier_share), _text(line.outlet_pressure)]
        words += [f"CO2 {line.co2}"] if line.co2 else []
        words += ["regulator released"] if line.regulator_released else []
        words += ["column bypassed"] if line.column_bypassed else []
        rows.append(
            (f"line {run.index + 1} {line.kind}", ", ".join(word for word in words if word))
        )
    if len(steps) > _MOST_STEPS:
        rows.append(("further steps", f"{len(steps) - _MOST_STEPS}, see the sequence"))
    headers = ("setting", "as written", "on the instrument")
    boxed = tuple((what, value, _BOX) for what, value in rows if value)
    return Table("read-back", "READ BACK", "sequence", headers, boxed, frozenset({0, 1, 2}))


def record_block() -> CardRows:
    """Boxes for what is read while it runs."""
    return CardRows(
        "record",
        "WRITE DOWN",
        (
            ("pressure", f"at start {_BOX} bar, highest {_BOX} bar"),
            ("cylinder", f"weight before {_BOX} kg, after {_BOX} kg"),
            ("initials", f"{_BOX} {_BOX}"),
        ),
    )


def amounts_block(case: BatchCase) -> Table | None:
    """CO2, organic solvent and liquid waste of one injection and of the sequence."""
    batch = case.batch
    if batch.missing or not batch.lines:
        return None
    documents = case.documents
    streams = liquid_streams(batch, documents.get("solvents"), documents.get("instrument"))
    organic = [_organic(case, index, volumes) for index, volumes in enumerate(streams)]
    streams = without_fractions(batch, streams, collected_modifier(case))
    rows = []
    seen: set[str] = set()
    each = zip(batch.lines, streams[1:], organic[1:], strict=True)
    for line, volumes, solvent in sorted(each, key=lambda one: one[0].line.kind != "sample"):
        if not line.injects or line.method in seen:
            continue
        seen.add(line.method)
        count = line.injections
        rows.append(
            (
                f"one injection, {line.method}",
                show(line.co2_per_injection, "mass", "g"),
                show(solvent / count, "volume", "mL"),
                show(sum(volumes.values()) / count, "volume", "mL"),
            )
        )
    whole = sum(sum(volumes.values()) for volumes in streams)
    rows.append(
        (
            "the whole sequence",
            show(batch.co2_demand, "mass", "kg"),
            show(sum(organic), "volume", "L"),
            show(whole, "volume", "L"),
        )
    )
    headers = ("", "CO2", "organic solvent", "liquid waste")
    return Table("amounts", "TAKES AND LEAVES", "", headers, tuple(rows), frozenset({0}))


def _organic(case: BatchCase, index: int, volumes: dict[str, float]) -> float:
    """Volumes less the water in them [m3]; `index` 0 is what runs before the first line."""
    line = case.batch.lines[max(index - 1, 0)]
    run = case.runs.get(line.method)
    method = run.method if run is not None else None
    own = line.line.liquid if index > 0 else None
    modifier = own or (run.method_liquid() if run is not None else None)
    liquids = {
        "mobile phase": modifier,
        "purge": modifier,
        "makeup": method.makeup if method is not None else None,
        "needle wash": _only(case, "wash"),
        "seal wash": _only(case, "seal wash"),
    }
    return sum(volume * _dry(liquids.get(stream)) for stream, volume in volumes.items())


def _only(case: BatchCase, role: str) -> Liquid | None:
    """The bottle of this role, if there is one alone."""
    bottles = case.solvents.bottles if case.solvents is not None else ()
    found = [bottle for bottle in bottles if role_of(bottle) == role]
    return found[0] if len(found) == 1 else None


def _dry(liquid: Liquid | None) -> float:
    """Part of a liquid that is not water [-]; 1 where it is not known."""
    parts = components_of(liquid) if liquid is not None else ()
    total = sum(share for _, share in parts)
    water = sum(share for name, share in parts if name == "water")
    return 1.0 - water / total if total > 0.0 else 1.0
