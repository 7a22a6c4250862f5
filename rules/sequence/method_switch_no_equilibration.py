"""At the start and after a change of method the column settles before anything is measured.

Reason
    Another modifier share, another temperature or another column needs its volumes and its time.
    The first injections of the new method otherwise elute in the drift, and so do those of a
    sequence that begins without an equilibration.

Unsound
    kind: method
    x-name: second
    oven_temperature: 25 degC
    ---
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: sample, sample: extract 2, plate: 1, well: D2, fill: 1 mL, method: second}  # <- here

Sound
    kind: method
    x-name: second
    oven_temperature: 25 degC
    ---
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: equilibration, duration: 15 min, method: second}
      - {kind: sample, sample: extract 2, plate: 1, well: D2, fill: 1 mL, method: second}

Unsound, because nothing settles before the first standard
    kind: sequence
    equilibration: 0 min  # <- here
    lines:
      - {kind: suitability, sample: SST, plate: 1, well: A3, fill: 1 mL, count: 5}
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}

Remedy
    Insert an equilibration line of the length that the message gives, or conditioning
    injections that take as long.

Source
    The dwell volume and 5 hold-up volumes (10 to 20 with an additive); oven 5 K/min and 10 min:
    common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.column import (
    column_volumes_wanted,
    equilibration_volume,
    holds_additive,
)
from methodlint.judging.ask.rule import BatchCase, Candidate, Finding, RunCase, When, minutes, show
from methodlint.judging.ask.sequence import Switch, first_measured, switches, time_to_settle

SUBJECT = "batch"
CLASSES = ("caution",)
NEEDS = ("batch", "sequence.lines", "sequence.lines[].method", "sequence.lines[].duration")


def applies(case: BatchCase) -> bool:
    """A sequence of one method has no change, but it has a start."""
    sequence = case.sequence
    names = {line.method or sequence.method for line in sequence.lines} if sequence else set()
    return len(names) > 1 or _starts_anew(case)


def _starts_anew(case: BatchCase) -> bool:
    """The sequence states its equilibration, and carries on from nothing."""
    sequence = case.sequence
    return sequence is not None and sequence.equilibration is not None and not sequence.continues


def judge(case: BatchCase) -> Iterator[Finding]:
    """Compare the time before the first injection, and between two methods, with the need."""
    if _starts_anew(case):
        yield from _start(case)
    seen: set[tuple[str, str]] = set()
    for switch in switches(case.batch):
        pair = switch.before.method, switch.after.method
        before, after = case.runs.get(pair[0]), case.runs.get(pair[1])
        if pair in seen or before is None or after is None or not _differs(before, after):
            continue
        additive = holds_additive(after.method_liquid())
        share = float(after.run.programme.share[0])
        volumes = column_volumes_wanted(additive=additive, start_share=share)
        needed = time_to_settle(before.run, after.run, volumes)
        if switch.duration >= needed:
            continue
        seen.add(pair)
        yield _finding(case, switch, needed)


def _start(case: BatchCase) -> Iterator[Finding]:
    first = first_measured(case.batch)
    run = case.runs.get(first.method) if first is not None else None
    if first is None or run is None or run.rehearsal is None or not run.rehearsal.done:
        return
    flow = float(run.run.set_flow[0])
    volumes = column_volumes_wanted(
        additive=holds_additive(run.method_liquid()), start_share=float(run.run.programme.share[0])
    )
    needed = equilibration_volume(run.run, volumes) / flow if flow > 0.0 else 0.0
    if first.begins >= needed * (1.0 - 1e-6):
        return
    text = f"{-(-(needed - first.begins + case.batch.equilibration) // 60):.0f} min"
    yield case.finding(
        "sequence.equilibration",
        "caution",
        f"'{first.line.sample or first.line.kind}' in line {first.index + 1} is measured "
        f"{show(first.begins, 'time', 'min')} after the start; the dwell volume and {volumes:.0f} "
        f"hold-up volumes take {show(needed, 'time', 'min')}",
        found=minutes(first.begins),
        limit=minutes(needed),
        when=When(injection=first.first_injection, last_injection=first.first_injection),
        remedy=f"equilibrate for {text} before the first line",
        candidates=[
            case.candidate(
                f"equilibrate for {text} before the first line",
                case.change("sequence.equilibration", text),
            )
        ],
        also=(case.line_at(first.index),),
    )


def _differs(before: RunCase, after: RunCase) -> bool:
    """Whether the two differ in anything the column has to follow."""
    first, second = before.run.programme, after.run.programme
    return (
        before.columns != after.columns
        or before.method_liquid() != after.method_liquid()
        or abs(float(first.oven_temperature[-1] - second.oven_temperature[0])) > 1.0
        or abs(float(first.share[-1] - second.share[0])) > 0.005
        or abs(float(first.outlet_pressure[-1] - second.outlet_pressure[0])) > 1e5
    )


def _finding(case: BatchCase, switch: Switch, needed: float) -> Finding:
    number = switch.after.index + 1
    wanted = show(needed - switch.duration, "time", "min")
    return case.finding(
        case.line_at(switch.after.index),
        "caution",
        f"method '{switch.after.method}' measures {show(switch.duration, 'time', 'min')} after "
        f"'{switch.before.method}', it needs {show(needed, 'time', 'min')}: {wanted} are missing",
        found=minutes(switch.duration),
        limit=minutes(needed),
        when=When(
            injection=switch.after.first_injection, last_injection=switch.after.first_injection
        ),
        remedy=f"put an equilibration of {wanted} before line {number}",
        candidates=list(_candidates(case, switch, needed)),
    )


def _candidates(case: BatchCase, switch: Switch, needed: float) -> Iterator[Candidate]:
    length = -(-(needed - switch.duration) // 60)
    line = {
        "kind": "equilibration",
        "duration": f"{length:.0f} min",
        "method": switch.after.method,
    }
    change = case.change(case.line_at(switch.after.index), line, insert=True)
    text = f"put an equilibration of {length:.0f} min before line {switch.after.index + 1}"
    yield case.candidate(text, change)
