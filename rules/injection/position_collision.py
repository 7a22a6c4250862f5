"""One position holds one sample.

Reason
    Two identities for one well mean that at least one result carries the wrong name.

Unsound
    kind: sequence
    lines:
      - {kind: control, sample: QC 1, plate: 2, well: C4, fill: 1 mL}
      - {kind: sample, sample: sample 14, plate: 2, well: C04, fill: 1 mL}  # <- here

Sound
    kind: sequence
    lines:
      - {kind: control, sample: QC 1, plate: 2, well: C4, fill: 1 mL}
      - {kind: sample, sample: sample 14, plate: 2, well: C5, fill: 1 mL}
      - {kind: control, sample: QC 1, plate: 2, well: C4}

Sound, because the second name is declared
    kind: sequence
    aliases: {pool: QC 1}
    lines:
      - {kind: conditioning, sample: pool, plate: 2, well: C4, fill: 1 mL, count: 2}
      - {kind: control, sample: QC 1, plate: 2, well: C4}

Remedy
    Look at the tray and correct the well; if both names mean one vial, write `aliases`.

Source
    Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, When
from methodlint.judging.ask.sequence import LineRun, TrayPlace, tray_of

SUBJECT = "batch"
CLASSES = ("fault",)
NEEDS = ("sequence.lines",)

_REPORTED_SINGLY = 20


def judge(case: BatchCase) -> Iterator[Finding]:
    """Collect the identities that share a place."""
    sequence = case.sequence
    assert sequence is not None
    tray = tray_of(case.get("instrument.autosampler"), sequence)
    aliases = {_plain(name): _plain(other) for name, other in sequence.aliases.items()}
    held: dict[TrayPlace, dict[str, LineRun]] = {}
    for run in case.batch.lines:
        place = tray.place(run.line) if run.injects else None
        if place is None or run.line.sample is None:
            continue
        name = _plain(run.line.sample)
        held.setdefault(place, {}).setdefault(aliases.get(name, name), run)
    shared = [(place, list(runs.values())) for place, runs in held.items() if len(runs) > 1]
    for place, runs in shared[:_REPORTED_SINGLY]:
        yield _finding(case, place, runs)
    if len(shared) > _REPORTED_SINGLY:
        place, runs = shared[_REPORTED_SINGLY]
        yield case.finding(
            case.line_at(runs[1].index, "well"),
            "fault",
            f"{len(shared) - _REPORTED_SINGLY} further places hold more than one sample, "
            f"the first of them {place.words}",
            remedy="look at the plate numbers; one plate may be missing from the list",
        )


def _finding(case: BatchCase, place: TrayPlace, runs: list[LineRun]) -> Finding:
    first, second = runs[0], runs[1]
    names = ", ".join(f"'{run.line.sample}' (line {run.index + 1})" for run in runs[:4])
    more = f" and {len(runs) - 4} more" if len(runs) > 4 else ""
    return case.finding(
        case.line_at(second.index, "well"),
        "fault",
        f"{place.words} holds {len(runs)} samples: {names}{more}",
        when=When(injection=second.first_injection, last_injection=second.last_injection),
        remedy="look at the tray and correct the well, or declare the second name in 'aliases'",
        also=(case.line_at(first.index, "well"),),
    )


def _plain(name: str) -> str:
    return " ".join(name.split()).casefold()
