"""Every sample lies between two standards that are not too far apart.

Reason
    A drift of the system shows only in standards after the samples. What comes after the last one
    is not covered, and of fifty samples in a row nobody knows where the drift began.

Unsound
    kind: sequence
    purpose: regulated
    lines:
      - {kind: control, sample: QC, control_level: lower, plate: 1, well: C1, fill: 1 mL}
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}  # <- here

Sound
    kind: sequence
    purpose: regulated
    lines:
      - {kind: control, sample: QC, control_level: lower, plate: 1, well: C1, fill: 1 mL}
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: control, sample: QC, control_level: upper, plate: 1, well: C2, fill: 1 mL}

Remedy
    Put a control or a standard where the message says. A method with an internal standard may
    state `bracketing: internal standard`. A fault for bioanalysis and regulated work; for other
    work a caution if the lab's policy asks for bracketing.

Source
    At most 20 samples or 12 hours between brackets: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import (
    BatchCase,
    Candidate,
    Finding,
    Measure,
    NotChecked,
    When,
    counted,
    show,
)
from methodlint.judging.ask.sequence import Span, spans_between_standards

SUBJECT = "batch"
PARTS = "method"
CLASSES = ("fault", "caution")
NEEDS = ("sequence.lines", "sequence.lines[].count")
TAGS = ("regulated", "bioanalysis")

_SAMPLES = 20
_HOURS = 12.0


def applies(case: BatchCase) -> bool:
    """The purpose decides, or the policy of the lab; a method may state that it does without."""
    if not case.quantitative and case.policy.bracketing_required is not True:
        return False
    stated = [case.sequence.bracketing if case.sequence else None]
    stated += [run.method.bracketing for run in case.runs.values() if run.method is not None]
    return not any(word in ("internal standard", "none") for word in stated)


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Look at the worst stretch of samples between standards."""
    spans = spans_between_standards(case.batch)
    wanted = case.policy.samples_between_brackets
    most = _SAMPLES if wanted is None else wanted
    policy = case.policy.time_between_brackets
    longest = policy.si if policy is not None else _HOURS * 3600.0
    clock = not case.batch.missing
    open_ended = [span for span in spans if not span.closed or not span.opened]
    crowded = [span for span in spans if span.samples > most]
    slow = [span for span in spans if clock and span.ends - span.begins > longest]
    if open_ended or crowded or slow:
        yield _finding(case, open_ended, crowded, slow, most, longest)
    elif spans and not clock:
        lacks = case.batch.missing[0]
        yield case.not_checked("sequence.lines", lacks.where, lacks.reason)


def _finding(
    case: BatchCase,
    open_ended: list[Span],
    crowded: list[Span],
    slow: list[Span],
    most: int,
    longest: float,
) -> Finding:
    said = []
    if crowded:
        span = max(crowded, key=lambda s: s.samples)
        said.append(f"{span.samples} samples in a row{_lines(span)}, {most} are allowed")
    if slow:
        span = max(slow, key=lambda s: s.ends - s.begins)
        said.append(
            f"{show(span.ends - span.begins, 'time', 'h')} between two standards{_lines(span)}, "
            f"{show(longest, 'time', 'h')} are allowed"
        )
    for span in open_ended:
        side = "after the last" if not span.closed else "before the first"
        said.append(f"{counted(span.samples, 'sample')} {side} standard{_lines(span)}")
    worst = (crowded or slow or open_ended)[0]
    return case.finding(
        case.line_at(worst.first.index),
        "fault" if case.quantitative else "caution",
        "; ".join(said),
        found=Measure(worst.samples),
        limit=Measure(most),
        when=When(injection=worst.first.first_injection, last_injection=worst.last.last_injection),
        remedy=f"put a control or a standard after every {most} samples and after the last",
        candidates=_candidates(case, most),
    )


def _lines(span: Span) -> str:
    if span.first.index == span.last.index:
        return f" (line {span.first.index + 1})"
    return f" (lines {span.first.index + 1} to {span.last.index + 1})"


def _candidates(case: BatchCase, most: int) -> list[Candidate]:
    """Copies of a control after every so many samples and behind the last one."""
    control = next((line for line in case.batch.lines if line.line.kind == "control"), None)
    if control is None:
        return []
    data = case.documents["sequence"].data["lines"][control.index]
    copy = {key: value for key, value in data.items() if key not in ("count", "fill", "data_file")}
    places: list[int] = []
    for span in spans_between_standards(case.batch):
        held = 0
        for line in case.batch.lines:
            if line.line.kind != "sample" or not span.first.index <= line.index <= span.last.index:
                continue
            count = line.line.count
            if held and held + count > most:
                places.append(line.index)
                held = 0
            held += count
        if not span.closed:
            places.append(span.last.index + 1)
        if not span.opened:
            places.append(span.first.index)
    changes = [
        case.change(case.line_at(place), copy, insert=True) for place in sorted(places)[::-1]
    ]
    name = control.line.sample or "the control"
    behind = ", ".join(str(place) for place in sorted(places)[:8])
    more = " ..." if len(places) > 8 else ""
    return [case.candidate(f"put {name} after line {behind}{more}", *changes)] if changes else []
