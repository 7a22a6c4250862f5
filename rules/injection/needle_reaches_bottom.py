"""The needle stays clear of the bottom of every vessel, and can pierce its cover.

Reason
    A needle that strikes glass bends or breaks, and a plug of septum or glass in the needle goes
    on into the injection valve under pressure. An insert is shallower than its vial.

Unsound
    kind: instrument
    autosampler: {needle_depth: 29 mm}  # <- here

Sound
    kind: instrument
    autosampler: {needle_depth: 27 mm}

Sound, because the sampler feels the bottom
    kind: instrument
    autosampler: {needle_depth: 29 mm, bottom_sensing: true}

Remedy
    Set the needle as high as the message says, or use a deeper vessel.

Source
    2 mm above the bottom: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, Measure, NotChecked, show
from methodlint.judging.ask.sequence import tray_of

SUBJECT = "batch"
CLASSES = ("stop",)
NEEDS = ("sequence.lines", "instrument.autosampler.needle_depth")

_CLEARANCE = 2e-3
_SLACK = 1e-9


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Compare the needle with every kind of vessel that the sequence uses."""
    sampler = case.get("instrument.autosampler")
    tray = tray_of(sampler, case.sequence)
    depth = sampler.needle_depth.si
    used: dict[str, int] = {}
    for run in case.batch.lines:
        name = tray.vessel_name(run.line, tray.place(run.line)) if run.injects else None
        if name is not None:
            used.setdefault(name, run.index)
    too_deep: list[tuple[float, str, int]] = []
    for name, index in used.items():
        vessel = tray.vessels.get(name)
        if vessel is not None and not vessel.pierceable:
            yield case.finding(
                case.line_at(index),
                "stop",
                f"the cover of '{name}' cannot be pierced; first used in line {index + 1}",
                remedy="take the cover off or use one that can be pierced",
            )
        if sampler.bottom_sensing:
            continue
        if vessel is None or vessel.depth is None:
            figure = f"instrument.autosampler.vessels: depth of '{name}'"
            reason = f"first used in line {index + 1}"
            yield case.not_checked(case.line_at(index), figure, reason)
        elif depth > vessel.depth.si - _CLEARANCE + _SLACK:
            too_deep.append((vessel.depth.si, name, index))
    if too_deep:
        yield _finding(case, depth, *min(too_deep))


def _finding(case: BatchCase, depth: float, bottom: float, name: str, index: int) -> Finding:
    """Report the shallowest vessel; what is right for it is right for the others."""
    lowest = bottom - _CLEARANCE
    text = show(max(lowest, 0.0), "length", "mm")
    change = case.change("instrument.autosampler.needle_depth", text)
    return case.finding(
        "instrument.autosampler.needle_depth",
        "stop",
        f"the needle goes {show(depth, 'length', 'mm')} deep, '{name}' is "
        f"{show(bottom, 'length', 'mm')} deep and allows {text}: "
        f"{show(depth - lowest, 'length', 'mm')} too deep; first in line {index + 1}",
        found=Measure(depth * 1e3, "mm"),
        limit=Measure(lowest * 1e3, "mm"),
        remedy=f"set the needle to {text}",
        candidates=[case.candidate(f"set the needle to {text}", change)],
        also=(case.line_at(index),),
    )
