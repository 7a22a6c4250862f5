"""One name stands for one sample: one place, one weight, one dilution.

Reason
    Two samples of one name cannot be told apart in the results.

Unsound
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: sample, sample: extract 1, plate: 1, well: D2, fill: 1 mL}  # <- here

Sound
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: sample, sample: extract 1, plate: 1, well: D2, fill: 1 mL, replicate: true}

Remedy
    Give each sample its name, or write `replicate: true` where the repetition is meant. Another
    injection from the same place is one.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, visible
from methodlint.judging.ask.sequence import LineRun, lines_in_words

SUBJECT = "batch"
CLASSES = ("caution",)
NEEDS = ("sequence.lines", "sequence.lines[].well", "sequence.lines[].replicate")


def judge(case: BatchCase) -> Iterator[Finding]:
    """Compare every sample with the first line of its name."""
    first: dict[str, LineRun] = {}
    clashes: dict[str, list[LineRun]] = {}
    for line in case.batch.lines:
        name = line.line.sample
        if line.line.kind != "sample" or name is None:
            continue
        known = first.setdefault(name, line)
        if line is not known and not line.line.replicate and _differs(known, line):
            clashes.setdefault(name, []).append(line)
    if not clashes:
        return
    name, lines = next(iter(clashes.items()))
    others = f"; {len(clashes) - 1} other names as well" if len(clashes) > 1 else ""
    yield case.finding(
        case.line_at(lines[0].index),
        "caution",
        f"'{visible(name)}' is the name of different samples: "
        f"{lines_in_words([first[name], *lines])} differ in place, weight or dilution{others}",
        remedy="name them apart, or write replicate: true",
        also=(case.line_at(first[name].index),),
    )


def _differs(known: LineRun, line: LineRun) -> bool:
    pairs = (
        (known.position, line.position),
        (known.line.weight, line.line.weight),
        (known.line.dilution, line.line.dilution),
    )
    return any(a is not None and b is not None and a != b for a, b in pairs)
