"""The detector cell is small against the narrowest peak.

Reason
    A peak is spread over the volume of the cell. A cell that suits a wide column takes a good
    part of the plates of a narrow one.

Unsound
    kind: column
    length: 50 mm
    inner_diameter: 2.1 mm
    ---
    kind: method
    expected_peaks: [{name: first peak, retention_time: 0.3 min, plates: 9000}]
    flow: 1.0 mL/min
    detectors:
      - {type: UV, cell: UV cell, wavelength: 254 nm, rate: 40 Hz}  # <- here

Sound
    kind: method
    expected_peaks: [{name: first peak, retention_time: 2.5 min, plates: 9000}]

Sound, because the trace only triggers and the mass spectrometer is evaluated
    kind: column
    length: 50 mm
    inner_diameter: 2.1 mm
    ---
    kind: method
    expected_peaks: [{name: first peak, retention_time: 0.3 min, plates: 9000}]
    flow: 1.0 mL/min
    detectors:
      - {type: UV, cell: UV cell, wavelength: 254 nm, rate: 40 Hz, purpose: trigger}
      - {type: MS, source: ESI, rate: 20 Hz, purpose: quantify}

Remedy
    Fit a smaller cell, or use a wider column.

Source
    Variance of a cell, volume squared over 12 (rectangular distribution, arithmetic). A tenth of
    the peak's variance: common practice, no source.
"""

import math
from collections.abc import Iterator

from methodlint.judging.ask.detector import (
    ULTRAVIOLET,
    cell_of,
    no_width,
    plate_loss,
    plug_of_variance,
    plug_variance,
    traces,
    volume_sigma,
    widths,
)
from methodlint.judging.ask.rule import Finding, NotChecked, RunCase, microlitres, number, show

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("run", "method.detectors")

_PART = 0.1


def applies(case: RunCase) -> bool:
    """Only a trace that is evaluated, and whose cell stands in the flow, is spoilt by it."""
    return any(cell_of(case, detector) is not None for _, detector in traces(case, *ULTRAVIOLET))


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare the variance of each cell with that of the narrowest peak in volume."""
    assert case.instrument is not None
    known = [(sigma, peak) for peak in widths(case) if (sigma := volume_sigma(case.run, peak))]
    for index, detector in traces(case, *ULTRAVIOLET):
        cell = cell_of(case, detector)
        if cell is None:
            continue
        volume = case.instrument.train[cell].volume
        if volume is None:
            yield case.not_checked(f"instrument.train[{cell}]", f"instrument.train[{cell}].volume")
            continue
        if not known:
            yield no_width(case)
            return
        sigma, peak = min(known, key=lambda pair: pair[0])
        added = plug_variance(volume.si)
        if added <= _PART * sigma**2:
            continue
        largest = plug_of_variance(_PART * sigma**2)
        text = f"{_rounded_down(largest * 1e9):g} uL"
        place = f"instrument.train[{cell}].volume"
        yield case.finding(
            f"method.detectors[{index}]",
            "caution",
            f"the cell of {show(volume.si, 'volume', 'uL')} adds {number(added * 1e18, 3)} uL2 to the "
            f"{number(sigma**2 * 1e18, 3)} uL2 of '{peak.name}' ({peak.words}), "
            f"{100.0 * plate_loss(added, sigma**2):.0f} % of the plates; a tenth of the variance "
            f"is the usual limit, a cell of at most {show(largest, 'volume', 'uL')}",
            found=microlitres(volume.si),
            limit=microlitres(largest),
            remedy=f"fit a cell of {text} or less",
            candidates=[case.candidate(f"fit a cell of {text}", case.change(place, text))],
            also=(case.at(place), case.at(f"method.expected_peaks[{peak.index}]")),
        )


def _rounded_down(figure: float) -> float:
    step = 10.0 ** (math.floor(math.log10(figure)) - 1)
    return math.floor(figure / step + 1e-9) * step
