"""There are enough controls for the number of samples, at enough levels.

Reason
    A run is accepted or refused by its controls; with one of each level a single bad injection
    costs the batch, and with one level a bend of the calibration is not seen.

Unsound
    kind: sequence
    purpose: bioanalysis
    lines:
      - {kind: control, sample: low, control_level: lower, plate: 1, well: C1, fill: 1 mL}  # <- here
      - {kind: control, sample: mid, control_level: middle, plate: 1, well: C2, fill: 1 mL}
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: control, sample: high, control_level: upper, plate: 1, well: C3, fill: 1 mL}

Sound
    kind: sequence
    purpose: bioanalysis
    lines:
      - {kind: control, sample: low, control_level: lower, plate: 1, well: C1, fill: 1 mL}
      - {kind: control, sample: mid, control_level: middle, plate: 1, well: C2, fill: 1 mL}
      - {kind: control, sample: high, control_level: upper, plate: 1, well: C3, fill: 1 mL}
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: control, sample: low, control_level: lower, plate: 1, well: C1}
      - {kind: control, sample: mid, control_level: middle, plate: 1, well: C2}
      - {kind: control, sample: high, control_level: upper, plate: 1, well: C3}

Remedy
    Add the controls that the message counts. Outside bioanalysis a sequence that uses controls
    wants one for ten samples, at two levels; the lab's policy may set another number. A method
    that goes by one standard (`calibration: single level`) is controlled by its brackets, one
    without a calibration (`calibration: none`) by its suitability series.

Source
    Three levels in duplicate, or 5 % of the samples if that is more: ICH M10 (step 4, 2022),
    section 3.3.1 (unverified). One in ten: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, Measure, counted

SUBJECT = "batch"
PARTS = "method"
CLASSES = ("fault", "caution")
NEEDS = ("sequence.lines", "sequence.lines[].count", "sequence.lines[].control_level")
TAGS = ("bioanalysis",)

_LEAST = 6
_LEVELS = ("lower", "middle", "upper")
_SAMPLES_PER_CONTROL = 10
_ONE_STANDARD = ("single level", "none")


def judge(case: BatchCase) -> Iterator[Finding]:
    """Count controls, their levels and the samples they stand for."""
    samples = sum(line.injections for line in case.batch.lines if line.line.kind == "sample")
    controls = [line for line in case.batch.lines if line.line.kind == "control"]
    if not samples:
        return
    found = sum(line.injections for line in controls)
    levels: dict[str, int] = {}
    for line in controls:
        level = line.line.control_level or line.line.sample or ""
        levels[level] = levels.get(level, 0) + line.injections
    if case.purpose == "bioanalysis":
        needed, arithmetic, lacking = _bioanalysis(samples, levels)
    else:
        policy = case.policy.samples_per_control
        asked = case.quantitative and not _goes_by_one_standard(case)
        if policy is None and not asked and (not controls or _goes_by_one_standard(case)):
            return
        each = max(policy or _SAMPLES_PER_CONTROL, 1)
        needed = -(-samples // each)
        arithmetic = (
            f"one for {each} of {counted(samples, 'sample')} = {samples / each:g} -> {needed}"
        )
        lacking = [] if len(levels) >= 2 or needed < 2 else ["a second level"]
    if found >= needed and not lacking:
        return
    at = case.line_at(controls[0].index) if controls else case.at("sequence.lines")
    missing = f"; missing: {', '.join(lacking)}" if lacking else ""
    yield case.finding(
        at,
        "fault" if case.quantitative else "caution",
        f"{counted(found, 'control')} for {counted(samples, 'sample')}, {needed} {'is' if needed == 1 else 'are'} needed ({arithmetic}){missing}",
        found=Measure(found),
        limit=Measure(needed),
        remedy=f"add {counted(max(needed - found, len(lacking)), 'control')}"
        f"{' (' + ', '.join(lacking) + ')' if lacking else ''}, spread over the samples",
    )


def _goes_by_one_standard(case: BatchCase) -> bool:
    methods = {line.method for line in case.batch.lines if line.line.kind == "sample"}
    runs = [case.runs.get(name) for name in methods]
    return all(
        run is not None and run.method is not None and run.method.calibration in _ONE_STANDARD
        for run in runs
    )


def _bioanalysis(samples: int, levels: dict[str, int]) -> tuple[int, str, list[str]]:
    # Whole numbers: 0.05 * 140 is a little more than 7.
    part = -(-samples * 5 // 100)
    needed = max(_LEAST, part)
    arithmetic = f"5 % of {samples} = {samples * 5 / 100:g} -> {part}, at least {_LEAST}"
    lacking = [
        f"{2 - levels.get(level, 0)} x {level}" for level in _LEVELS if levels.get(level, 0) < 2
    ]
    return needed, arithmetic, lacking
