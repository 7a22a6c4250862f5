"""Controls are spread over the whole run, the last tenth included.

Reason
    Controls that all stand at the front say how the run began.

Unsound
    kind: sequence
    lines:
      - {kind: control, sample: low, control_level: lower, plate: 1, well: C1, fill: 1 mL}  # <- here
      - {kind: control, sample: high, control_level: upper, plate: 1, well: C2, fill: 1 mL}
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: sample, sample: extract 2, plate: 1, well: D2, fill: 1 mL}

Sound
    kind: sequence
    lines:
      - {kind: control, sample: low, control_level: lower, plate: 1, well: C1, fill: 1 mL}
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: sample, sample: extract 2, plate: 1, well: D2, fill: 1 mL}
      - {kind: control, sample: high, control_level: upper, plate: 1, well: C2, fill: 1 mL}

Remedy
    Move a control into the gap that the message names.

Source
    At most 20 injections between controls and one in the last tenth: common practice, no source.
"""

from collections.abc import Iterator
from itertools import pairwise

from methodlint.judging.ask.rule import BatchCase, Finding, Measure, When

SUBJECT = "batch"
PARTS = "method"
CLASSES = ("caution",)
NEEDS = ("sequence.lines", "sequence.lines[].count")

_GAP = 20
_LAST_PART = 10


def applies(case: BatchCase) -> bool:
    """A screening goes without."""
    return case.purpose != "screening"


def judge(case: BatchCase) -> Iterator[Finding]:
    """Look at the gaps between controls from the first sample to the last."""
    samples = [line for line in case.batch.lines if line.line.kind == "sample"]
    controls = [line for line in case.batch.lines if line.line.kind == "control"]
    if not samples or not controls:
        return
    # Counted among the injections of this part, which others may stand between.
    numbers = [
        number
        for line in case.batch.lines
        if line.injects
        for number in range(line.first_injection, line.last_injection + 1)
    ]
    order = {number: index + 1 for index, number in enumerate(numbers)}
    first, last = order[samples[0].first_injection], order[samples[-1].last_injection]
    marks = [first - 1]
    for control in controls:
        ends = order[control.first_injection], order[control.last_injection]
        marks += [n for n in ends if first <= n <= last]
    marks.append(last + 1)
    gaps = [(end - start - 1, start, end) for start, end in pairwise(marks)]
    widest, start, end = max(gaps)
    policy = case.policy.injections_between_controls
    most = _GAP if policy is None else policy
    behind = order[controls[-1].last_injection]
    length = last - first + 1
    late = behind >= last - length // _LAST_PART
    if widest <= most and late:
        return
    begins, until = numbers[start], numbers[max(end - 2, start)]
    final, at_last = numbers[behind - 1], numbers[last - 1]
    said = [f"{widest} injections without a control ({begins} to {until})"] * (widest > most)
    if not late:
        said.append(f"the last control is injection {final}, the last sample injection {at_last}")
    place = controls[0] if widest <= most else controls[-1]
    middle = numbers[min(start + widest // 2, len(numbers) - 1)]
    yield case.finding(
        case.line_at(place.index),
        "caution",
        "; ".join(said),
        found=Measure(widest),
        limit=Measure(most),
        when=When(injection=begins, last_injection=until),
        remedy=(
            f"move a control to about injection {middle}"
            if widest > most and late
            else f"put a control after injection {at_last}"
            + (f" and one at about injection {middle}" if widest > most else "")
        ),
    )
