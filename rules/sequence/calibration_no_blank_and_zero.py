"""A bioanalytical calibration holds a matrix blank and a zero sample.

Reason
    The blank shows what the matrix itself gives, the zero (blank with internal standard) what the
    internal standard adds to it.

Unsound
    kind: sequence
    purpose: bioanalysis
    lines:
      - {kind: calibrator, sample: C1, level: 1, plate: 1, well: B1, fill: 1 mL}  # <- here
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}

Sound
    kind: sequence
    purpose: bioanalysis
    lines:
      - {kind: matrix blank, sample: blank, plate: 1, well: A4, fill: 1 mL}
      - {kind: zero, sample: zero, plate: 1, well: A5, fill: 1 mL}
      - {kind: calibrator, sample: C1, level: 1, plate: 1, well: B1, fill: 1 mL}
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}

Sound, because there is no internal standard
    kind: sequence
    purpose: bioanalysis
    internal_standard: false
    lines:
      - {kind: matrix blank, sample: blank, plate: 1, well: A4, fill: 1 mL}
      - {kind: calibrator, sample: C1, level: 1, plate: 1, well: B1, fill: 1 mL}

Remedy
    Add a line `kind: matrix blank` and a line `kind: zero`, or say `internal_standard: false`.

Source
    ICH M10 (step 4, 2022), section 3.3.1 (unverified).
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding

SUBJECT = "batch"
PARTS = "method"
CLASSES = ("fault",)
NEEDS = ("sequence.lines",)
TAGS = ("bioanalysis",)


def applies(case: BatchCase) -> bool:
    """The purpose decides; a continued block was opened before."""
    return case.purpose == "bioanalysis" and not (case.sequence and case.sequence.continues)


def judge(case: BatchCase) -> Iterator[Finding]:
    """Look for both kinds of line where there is a calibration."""
    kinds = {line.line.kind for line in case.batch.lines}
    first = next((line for line in case.batch.lines if line.line.kind == "calibrator"), None)
    if first is None or case.sequence is None:
        return
    lacking = [] if "matrix blank" in kinds else ["a matrix blank"]
    if "zero" not in kinds and case.sequence.internal_standard is not False:
        lacking.append("a zero sample (blank with internal standard)")
    if lacking:
        yield case.finding(
            case.line_at(first.index),
            "fault",
            f"the calibration lacks {' and '.join(lacking)}",
            remedy=f"add {' and '.join(lacking)} before line {first.index + 1}",
        )
