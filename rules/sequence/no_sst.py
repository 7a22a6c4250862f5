"""The system is shown to be suitable before the first sample, and again after a change of method.

Reason
    Without suitability injections nobody knows whether the column and the instrument could do
    what is asked of them on that day.

Unsound
    kind: sequence
    purpose: regulated
    lines:
      - {kind: blank, sample: diluent, plate: 1, well: A1, fill: 1 mL}
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}  # <- here

Sound
    kind: sequence
    purpose: regulated
    lines:
      - {kind: suitability, sample: SST, plate: 1, well: A3, fill: 1 mL, count: 5}
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}

Remedy
    Put suitability lines before the first sample of every method. A fault for regulated work, a
    note for research and screening, a caution for bioanalysis; without a purpose, and for
    preparative work, there is no finding.

Source
    General chapters of the pharmacopoeias on chromatography ask for it (unverified); the place in
    the sequence: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, Grade, When
from methodlint.judging.ask.sequence import LineRun, lines_in_words

SUBJECT = "batch"
PARTS = "purpose"
CLASSES = ("fault", "caution", "note")
NEEDS = ("sequence.lines", "sequence.lines[].method")
TAGS = ("regulated", "bioanalysis", "research", "screening")

_GRADES: dict[str, Grade] = {
    "regulated": "fault",
    "research": "note",
    "screening": "note",
}


def applies(case: BatchCase) -> bool:
    """Without a purpose the question is open; what is collected is analysed elsewhere."""
    return (
        case.purpose is not None
        and case.purpose in TAGS
        and not (case.sequence and case.sequence.continues)
    )


def judge(case: BatchCase) -> Iterator[Finding]:
    """Look for suitability lines of each stretch of a method before its first sample."""
    bare: list[LineRun] = []
    method, shown, asked = "", False, False
    mine = {line.index for line in case.batch.lines}
    for line in case.whole_batch.lines:
        if line.injects and line.method != method:
            method, shown, asked = line.method, False, False
        kind = line.line.kind
        if kind == "suitability" or (kind == "calibrator" and _calibrators_serve(case, method)):
            shown = True
        elif kind == "sample" and not shown and not asked and line.index in mine:
            bare.append(line)
            asked = True
    if not bare:
        return
    first = bare[0]
    yield case.finding(
        case.line_at(first.index),
        _GRADES.get(case.purpose or "", "caution"),
        f"no suitability injection comes before the samples from {lines_in_words(bare)} on",
        when=When(injection=first.first_injection, last_injection=first.first_injection),
        remedy=f"put suitability lines before {lines_in_words(bare)}",
    )


def _calibrators_serve(case: BatchCase, method: str) -> bool:
    run = case.runs.get(method)
    suitability = run.method.suitability if run is not None and run.method is not None else None
    return suitability is not None and suitability.calibrators_serve
