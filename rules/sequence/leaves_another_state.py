"""A sequence leaves the bench as it says.

Reason
    The next user plans by what `leaves` says: which liquid is in the lines, whether CO2 flows,
    which column is in the oven at which temperature.

Unsound
    kind: sequence
    leaves: {modifier: n-heptane, co2: "off"}  # <- here

Sound
    kind: sequence
    leaves: {modifier: methanol, co2: "off"}

Remedy
    Write the state that the last lines leave, or add the flush or the shutdown that is missing.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, visible
from methodlint.judging.ask.sequence import differences, said_state, state_left

SUBJECT = "batch"
CLASSES = ("caution",)
NEEDS = ("sequence.lines",)


def applies(case: BatchCase) -> bool:
    """Only a state that is written down can differ."""
    return case.sequence is not None and case.sequence.leaves is not None


def judge(case: BatchCase) -> Iterator[Finding]:
    """Compare it with what the lines leave."""
    assert case.sequence is not None
    said = said_state(case.sequence.leaves)
    apart = [
        f"{what}: written {visible(first)}, by the lines {visible(second)}"
        for what, first, second in differences(said, state_left(case.batch))
    ]
    if apart:
        yield case.finding(
            "sequence.leaves",
            "caution",
            f"the sequence leaves another state than it says; {'; '.join(apart)}",
            remedy="write the state that the last lines leave, or change the lines",
            also=(case.line_at(len(case.batch.lines) - 1),),
        )
