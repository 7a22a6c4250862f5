"""A blank follows the highest standard before anything else is injected.

Reason
    What the highest standard leaves behind is seen only in a blank directly after it. A sample in
    its place takes the carry-over up, and nobody can tell.

Unsound
    kind: sequence
    purpose: bioanalysis
    lines:
      - {kind: blank, sample: diluent, plate: 1, well: A1, fill: 1 mL}
      - {kind: calibrator, sample: C1, level: 1, plate: 1, well: B1, fill: 1 mL}
      - {kind: calibrator, sample: C2, level: 50, plate: 1, well: B2, fill: 1 mL}  # <- here
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}

Sound
    kind: sequence
    purpose: bioanalysis
    lines:
      - {kind: calibrator, sample: C1, level: 1, plate: 1, well: B1, fill: 1 mL}
      - {kind: calibrator, sample: C2, level: 50, plate: 1, well: B2, fill: 1 mL}
      - {kind: blank, sample: diluent, plate: 1, well: A1, fill: 1 mL}
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}

Remedy
    Put a blank after the line that the message names. Its response is accepted up to 20 % of
    that of the lowest calibrator, and up to 5 % of that of the internal standard. A blank one line
    later does not count. A fault for bioanalysis and regulated work; for other work a caution if the
    lab's policy asks for it. Behind the one
    standard of a method that says `calibration: single level` nothing is asked: samples are about
    as strong.

Source
    ICH M10 (step 4, 2022), section 3.2.6: limits of carry-over in validation (unverified).
    A blank in each run: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Candidate, Finding, When
from methodlint.judging.ask.sequence import LineRun, ends_of_highest, is_blank, lines_in_words

SUBJECT = "batch"
PARTS = "purpose"
CLASSES = ("fault", "caution")
NEEDS = ("sequence.lines", "sequence.lines[].level", "sequence.lines[].concentration")
TAGS = ("regulated", "bioanalysis")


def applies(case: BatchCase) -> bool:
    """The purpose decides, or the policy of the lab."""
    return case.quantitative or case.policy.blank_after_highest is True


def judge(case: BatchCase) -> Iterator[Finding]:
    """Look at the injection after every row of highest standards."""
    bare = [
        (line, following)
        for line, following in ends_of_highest(case.batch, case.whole_batch)
        if following is not None and not is_blank(following) and not _one_standard(case, line)
    ]
    if not bare:
        return
    line, following = bare[0]
    assert following is not None
    name = line.line.sample or "the highest standard"
    others = f"; the same after {lines_in_words([b for b, _ in bare[1:]])}" if bare[1:] else ""
    yield case.finding(
        case.line_at(line.index),
        "fault" if case.quantitative else "caution",
        f"no blank follows the highest standard ({name}, line {line.index + 1}): "
        f"line {following.index + 1} is a {following.line.kind}{others}",
        when=When(injection=following.first_injection, last_injection=following.first_injection),
        remedy=f"put a blank after line {line.index + 1}; accept up to 20 % of the response of the "
        "lowest calibrator and 5 % of that of the internal standard",
        candidates=_candidates(case, [b for b, _ in bare]),
    )


def _one_standard(case: BatchCase, line: LineRun) -> bool:
    run = case.runs.get(line.method)
    method = run.method if run is not None else None
    return method is not None and method.calibration == "single level"


def _candidates(case: BatchCase, bare: list[LineRun]) -> list[Candidate]:
    blank = next((line for line in case.whole_batch.lines if is_blank(line)), None)
    if blank is None:
        return []
    data = case.documents["sequence"].data["lines"][blank.index]
    copy = {key: value for key, value in data.items() if key not in ("count", "fill", "data_file")}
    changes = [
        case.change(case.line_at(line.index + 1), copy, insert=True) for line in reversed(bare)
    ]
    text = f"put a blank after {lines_in_words(bare)}; accept up to 20 % of the response of the "
    text += "lowest calibrator and 5 % of that of the internal standard"
    return [case.candidate(text, *changes)]
