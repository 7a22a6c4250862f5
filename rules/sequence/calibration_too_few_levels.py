"""A calibration has enough distinct levels above zero.

Reason
    Two levels cannot show a bend, and of three one wrong level turns the line. Replicates of a
    level are one level.

Unsound
    kind: sequence
    purpose: bioanalysis
    lines:
      - {kind: calibrator, sample: C1, level: 1, plate: 1, well: B1, fill: 1 mL}  # <- here
      - {kind: calibrator, sample: C2, level: 2, plate: 1, well: B2, fill: 1 mL}
      - {kind: calibrator, sample: C3, level: 5, plate: 1, well: B3, fill: 1 mL}
      - {kind: calibrator, sample: C4, level: 10, plate: 1, well: B4, fill: 1 mL}
      - {kind: calibrator, sample: C5, level: 20, plate: 1, well: B5, fill: 1 mL}
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}

Sound, because three show a bend in routine work outside bioanalysis
    kind: sequence
    purpose: regulated
    lines:
      - {kind: calibrator, sample: C1, level: 1, plate: 1, well: B1, fill: 1 mL}
      - {kind: calibrator, sample: C2, level: 5, plate: 1, well: B2, fill: 1 mL}
      - {kind: calibrator, sample: C3, level: 20, plate: 1, well: B3, fill: 1 mL}
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}

Remedy
    Add levels, or say in the method that it goes by one level or by standard addition
    (`calibration:`). The lab's policy may ask for another number.

Source
    Six levels for bioanalysis: ICH M10 (step 4, 2022), section 3.2.4 (unverified). The five of
    ICH Q2(R2) belong to the validation of linearity (unverified); three in routine work: common
    practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, Grade, Measure, NotChecked, counted
from methodlint.judging.ask.sequence import LineRun, levels

SUBJECT = "batch"
PARTS = "purpose"
CLASSES = ("fault", "caution")
NEEDS = ("sequence.lines", "sequence.lines[].level", "sequence.lines[].concentration")
TAGS = ("regulated", "bioanalysis")

_LEVELS = 3
_LEVELS_OF_BIOANALYSIS = 6
_OTHER_WAYS = ("single level", "standard addition", "none")


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Count the levels of the calibrators of each method."""
    by_method: dict[str, list[LineRun]] = {}
    for line in case.batch.lines:
        if line.line.kind == "calibrator":
            by_method.setdefault(line.method, []).append(line)
    wanted = case.policy.calibration_levels
    if wanted is None:
        wanted = _LEVELS_OF_BIOANALYSIS if case.purpose == "bioanalysis" else _LEVELS
    grade: Grade = (
        "fault" if case.purpose == "bioanalysis" or case.policy.calibration_levels else "caution"
    )
    for name, lines in by_method.items():
        run = case.runs.get(name)
        if run is None or run.method is None or run.method.calibration in _OTHER_WAYS:
            continue
        if case.quantitative and not any(
            line.line.level is not None or line.line.concentration is not None for line in lines
        ):
            at, reason = case.line_at(lines[0].index), "which calibrator is which is not known"
            yield case.not_checked(at, f"sequence.lines[{lines[0].index}].level", reason)
        found = len(levels(lines))
        # One level and no word of a purpose is a check standard, not a calibration.
        if found >= wanted or (found == 1 and not case.quantitative):
            continue
        yield case.finding(
            case.line_at(lines[0].index),
            grade,
            f"the calibration of method '{name}' has {counted(found, 'level')} above zero, {wanted} are recommended",
            found=Measure(found),
            limit=Measure(wanted),
            remedy=f"add {counted(wanted - found, 'level')} between the lowest and the highest"
            if found > 1
            else f"add {counted(wanted - found, 'level')}, or write 'calibration: single level' in "
            "the method if it goes by one standard",
        )
