"""A transferred method names a sequence on each system that verifies the transfer.

Reason
    What is computed is a prediction. Only the same suitability mixture on both systems, with limits
    for retention and resolution, shows that the method arrived.

Unsound
    kind: method
    transferred_from: assay  # <- here
    ---
    kind: method
    x-name: assay
    runs_on: [other-bench]
    ---
    kind: instrument
    x-name: other-bench

Sound
    kind: method
    transferred_from: assay
    transfer: {verification: [assay-there, assay-here]}
    ---
    kind: method
    x-name: assay
    runs_on: [other-bench]
    ---
    kind: instrument
    x-name: other-bench
    ---
    kind: sequence
    x-name: assay-there
    instrument: other-bench
    method: assay
    ---
    kind: sequence
    x-name: assay-here

Remedy
    `methodlint transfer ... -o FILE` writes both sequences; give the suitability limits in the
    method.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.document import SequenceModel
from methodlint.judging.ask.rule import Finding, RunCase

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("source",)


def applies(case: RunCase) -> bool:
    """Only a transfer has to be verified."""
    return case.transferred


def judge(case: RunCase) -> Iterator[Finding]:
    """Look for suitability lines on both systems, and for limits to hold them against."""
    assert case.source is not None
    assert case.method is not None
    done = {
        sequence.instrument
        for sequence in _sequences(case)
        if any(line.kind == "suitability" for line in sequence.lines)
    }
    lacks = []
    for words, side in (("source", case.source), ("target", case)):
        instrument = side.documents.get("instrument")
        if instrument is not None and instrument.name not in done:
            lacks.append(f"suitability lines on the {words}, {instrument.name}")
    limits = case.method.suitability
    if limits is None or (limits.resolution is None and not case.method.expected_peaks):
        lacks.append("limits of the suitability test")
    if not lacks:
        return
    yield case.finding(
        "method.transferred_from",
        "caution",
        "the transfer is not verified: no " + ", no ".join(lacks),
        remedy="name one sequence per system under transfer.verification and give suitability limits",
    )


def _sequences(case: RunCase) -> list[SequenceModel]:
    found = [item.model for item in case.verifications]
    if case.sequence is not None:
        found.append(case.sequence)
    return [model for model in found if isinstance(model, SequenceModel)]
