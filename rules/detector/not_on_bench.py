"""Every detector of the method is fitted on the bench, in the flow and at its own pressure.

Reason
    A method that moves to another bench, or a cell that is bypassed for a day, leaves a detector
    that records nothing. A UV cell downstream of the regulator sees gas and droplets.

Unsound
    kind: method
    detectors:
      - {type: UV, cell: UV cel, wavelength: 254 nm}  # <- here

Sound
    kind: method
    detectors:
      - {type: UV, cell: UV cell, wavelength: 254 nm}

Unsound, because the bench has none
    kind: method
    detectors:
      - {type: FID}  # <- here

Sound, because a diode array records in the cell of a UV detector as well
    kind: method
    detectors:
      - {type: PDA, wavelength: 254 nm}

Remedy
    Name the cell as the instrument card does, put it into the flow, or run on a bench that has
    the detector.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.detector import why_not_recorded
from methodlint.judging.ask.rule import Finding, RunCase

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("instrument",)


def applies(case: RunCase) -> bool:
    """A bench that lists no train has nothing to compare with."""
    return case.instrument is not None and bool(case.instrument.train)


def judge(case: RunCase) -> Iterator[Finding]:
    """Look each detector up in the train."""
    assert case.method is not None and case.instrument is not None
    fitted = case.instrument.ms is not None
    for index, detector in enumerate(case.method.detectors):
        wrong = why_not_recorded(
            case.instrument.train, detector.type, detector.cell, spectrometer=fitted
        )
        if wrong is None:
            yield from _source(case, index)
            continue
        message, remedy = wrong
        place = f"method.detectors[{index}]"
        yield case.finding(
            place if detector.cell is None else f"{place}.cell",
            "fault",
            f"the {detector.type} of the method: {message}",
            remedy=remedy,
            also=(case.at("instrument.train"),),
        )


def _source(case: RunCase, index: int) -> Iterator[Finding]:
    """Another ion source has to be mounted first."""
    wanted = case.get(f"method.detectors[{index}].source")
    fitted = case.get("instrument.ms.source")
    if wanted is None or fitted is None or wanted == fitted:
        return
    yield case.finding(
        f"method.detectors[{index}].source",
        "caution",
        f"the method uses {wanted}, the bench has {fitted} fitted",
        remedy=f"mount the {wanted} source and write it on the instrument card",
        also=(case.at("instrument.ms.source"),),
    )
