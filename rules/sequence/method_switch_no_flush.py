"""Between two methods the first one's liquid is flushed out with one that mixes with both.

Reason
    What a method leaves in lines and mixer meets the next liquid, and may part in the pump head.

Unsound
    kind: method
    x-name: second
    mobile_phase: {modifier: {liquid: heptane, line: modifier-2}}
    ---
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: sample, sample: extract 2, plate: 1, well: D2, fill: 1 mL, method: second}  # <- here

Sound
    kind: method
    x-name: second
    mobile_phase: {modifier: {liquid: heptane, line: modifier-2}}
    ---
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: flush, liquid: 2-propanol, flush_volume: 15 mL, duration: 10 min}
      - {kind: sample, sample: extract 2, plate: 1, well: D2, fill: 1 mL, method: second}

Remedy
    Insert the flush that the message works out: a liquid that mixes with both, five times what is
    left behind. Between liquids that mix, a purge of the line is enough. What the residue does to
    the column is judged with the column.

Source
    Miscibility: the figures of the property tables. Five volumes: common practice, no source.
"""

import math
from collections.abc import Iterator

from methodlint.judging.ask.liquids import BRIDGES, coldest_place, components_of, miscible_blend
from methodlint.judging.ask.rule import (
    BatchCase,
    Candidate,
    Finding,
    NotChecked,
    RunCase,
    millilitres,
    show,
)
from methodlint.judging.ask.sequence import FLUSHES, Switch, flush_volume, residue_volume, switches

SUBJECT = "batch"
CLASSES = ("fault", "caution")
NEEDS = ("sequence.lines", "sequence.lines[].method", "sequence.lines[].liquid")

Components = tuple[tuple[str, float], ...]


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Look at the first change between each two methods; either run tells what the lines hold."""
    seen: set[tuple[str, str]] = set()
    for switch in switches(case.batch):
        pair = switch.before.method, switch.after.method
        runs = case.runs.get(pair[0]), case.runs.get(pair[1])
        if pair in seen or runs[0] is None or runs[1] is None:
            continue
        first, second = _modifier(runs[0]), _modifier(runs[1])
        if not first or not second or first == second:
            continue
        run = runs[0] if runs[0].run.metered else runs[1]
        said = _judge_switch(case, switch, run, first, second)
        if said is not None:
            seen.add(pair)
            yield said


def _modifier(run: RunCase) -> Components:
    liquid = run.method_liquid()
    return components_of(liquid) if liquid is not None else ()


def _judge_switch(
    case: BatchCase, switch: Switch, run: RunCase, first: Components, second: Components
) -> Finding | NotChecked | None:
    at = case.line_at(switch.after.index)
    if not run.run.metered:
        lacks = run.run.missing[0]
        return case.not_checked(at, lacks.where, lacks.reason)
    answer = miscible_blend(first, second, coldest_place(case.documents)[0])
    names = f"{_words(first)} and {_words(second)}"
    if answer.verdict == "unknown":
        return case.not_checked(at, "whether the two liquids mix", f"not known for {names}")
    needed = FLUSHES * residue_volume(run.run)
    apart = answer.verdict == "immiscible"
    if _flushed(case, switch, first, second, needed, apart or answer.verdict == "partly"):
        return None
    mixing = "do not mix" if apart else "mix only in part" if answer.verdict == "partly" else "mix"
    return case.finding(
        at,
        "fault" if apart else "caution",
        f"method '{switch.after.method}' follows '{switch.before.method}' without a flush: "
        f"{show(residue_volume(run.run), 'volume')} of {_words(first)} are left, and {names} "
        f"{mixing} ({answer.why})",
        limit=millilitres(needed),
        remedy=f"put a flush of {_volume(needed):g} mL before line {switch.after.index + 1}, of a "
        "liquid that mixes with both and that the column withstands, or past the column",
        candidates=_flushes(case, switch, run, needed, (first, second)),
    )


def _volume(needed: float) -> float:
    """Volume [mL], rounded up to what is set on a pump."""
    return math.ceil(needed * 1e6 * 2.0 - 1e-9) / 2.0


def _flushes(
    case: BatchCase, switch: Switch, run: RunCase, needed: float, both: tuple[Components, ...]
) -> list[Candidate]:
    """Flushes with each liquid that mixes with both, those of the bench first, slower ones later."""
    bottles = case.solvents.bottles if case.solvents is not None else ()
    of_bench = [parts[0][0] for one in bottles if len(parts := components_of(one)) == 1]
    names = [
        name
        for name in dict.fromkeys([*(both[1][0][0],), *of_bench, *BRIDGES])
        if all(_mixes(case, ((name, 1.0),), other) for other in both)
    ]
    volume, number = _volume(needed), switch.after.index + 1
    at, found = case.line_at(switch.after.index), []
    for flow in sorted({float(run.run.set_flow[0]) * 6e7, 1.0, 0.5}, reverse=True):
        for name in names:
            texts = (
                f"{volume:g} mL",
                f"{flow:g} mL/min",
                f"{math.ceil(10 * volume / flow) / 10:g} min",
            )
            line = {"kind": "flush", "liquid": name, "co2": "off", "flush_volume": texts[0],
                    "flow": texts[1], "duration": texts[2]}  # fmt: skip
            words = f"put a flush of {texts[0]} of {name} before line {number}, {texts[2]} at {texts[1]}"
            found.append(case.candidate(words, case.change(at, line, insert=True)))
    return found


def _flushed(
    case: BatchCase,
    switch: Switch,
    first: Components,
    second: Components,
    needed: float,
    bridge_wanted: bool,
) -> bool:
    total = 0.0
    for line in switch.between:
        run = case.runs.get(line.method)
        liquid = line.line.liquid
        if bridge_wanted:
            parts = components_of(liquid) if liquid is not None else ()
            if not parts or not all(_mixes(case, parts, other) for other in (first, second)):
                continue
        total += flush_volume(line, run.run if run is not None else None)
    if total >= needed:
        return True
    purge = case.solvents.purge_volume if case.solvents is not None else None
    return not bridge_wanted and purge is not None and purge.si > 0.0


def _mixes(case: BatchCase, first: Components, second: Components) -> bool:
    return miscible_blend(first, second, coldest_place(case.documents)[0]).verdict == "miscible"


def _words(components: Components) -> str:
    return " + ".join(name for name, _ in components)
