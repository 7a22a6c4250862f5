"""A sequence opens with a blank and with conditioning before its first standard.

Reason
    The first injections after a start meet a column and a flow path that are not settled. A
    blank shows what the system itself gives; conditioning keeps the first standard out of the
    drift.

Unsound
    kind: sequence
    lines:
      - {kind: calibrator, sample: C1, level: 1, plate: 1, well: B1, fill: 1 mL}  # <- here
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}

Sound
    kind: sequence
    lines:
      - {kind: blank, sample: diluent, plate: 1, well: A1, fill: 1 mL}
      - {kind: conditioning, sample: pool, plate: 1, well: A2, fill: 1 mL, count: 2}
      - {kind: calibrator, sample: C1, level: 1, plate: 1, well: B1, fill: 1 mL}
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}

Remedy
    Put a blank of the diluent and two or three conditioning injections before the first
    standard; suitability injections count as conditioning. Preparative work needs neither.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, Measure, When, counted
from methodlint.judging.ask.sequence import BLANKS, LineRun

SUBJECT = "batch"
CLASSES = ("caution",)
NEEDS = ("sequence.lines", "sequence.lines[].count")

_STANDARDS = ("calibrator", "control", "sample")
_SETTLING = ("conditioning", "suitability")
_DEFAULT_BLANKS = 1
_DEFAULT_CONDITIONING = 2


def applies(case: BatchCase) -> bool:
    """Not where the same block of the same day goes on, nor for preparative work."""
    if case.sequence is None or case.sequence.continues:
        return False
    # What is collected is not measured against the first injections.
    return any(_measures(case, line) for line in case.batch.lines)


def _measures(case: BatchCase, line: LineRun) -> bool:
    return line.injects and case.purpose_of(line) != "preparative"


def judge(case: BatchCase) -> Iterator[Finding]:
    """Count blanks and conditioning injections before the first standard or sample."""
    blanks = conditioning = 0
    wanted = case.policy.blanks_at_start
    wanted_blanks = _DEFAULT_BLANKS if wanted is None else wanted
    wanted = case.policy.conditioning_injections
    wanted_conditioning = _DEFAULT_CONDITIONING if wanted is None else wanted
    for line in case.batch.lines:
        count = line.injections
        if line.line.kind in BLANKS:
            blanks += count
        elif line.line.kind in _SETTLING:
            conditioning += count
        elif line.line.kind in _STANDARDS and _measures(case, line):
            break
    else:
        return
    lacking, remedies = [], []
    for there, wanted, name in (
        (blanks, wanted_blanks, "blank"),
        (conditioning, wanted_conditioning, "conditioning injection"),
    ):
        if there < wanted:
            lacking.append(_lacking(there, wanted, name))
            remedies.append(_missing(wanted - there, name, more=there > 0))
    if not lacking:
        return
    at = case.line_at(line.index)
    yield case.finding(
        at,
        "caution",
        f"the first {line.line.kind} comes after {' and '.join(lacking)}",
        found=Measure(blanks + conditioning),
        limit=Measure(wanted_blanks + wanted_conditioning),
        when=When(injection=line.first_injection, last_injection=line.first_injection),
        remedy=f"put {' and '.join(remedies)} before this line",
    )


def _lacking(there: int, wanted: int, name: str) -> str:
    """What stands in front, in words: "no blank", "1 of 2 conditioning injections"."""
    if there == 0:
        return f"no {name}" if wanted == 1 else f"none of {counted(wanted, name)}"
    return f"{there} of {counted(wanted, name)}"


def _missing(number: int, name: str, *, more: bool) -> str:
    """Only what is missing."""
    if more:
        return f"{number} more {name}{'s' if number > 1 else ''}"
    return f"a {name}" if number == 1 else counted(number, name)
