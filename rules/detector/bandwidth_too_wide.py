"""The bandwidth of a quantitative UV trace is narrow compared with the bands of the spectrum.

Reason
    Over a wide bandwidth absorbance is an average over the flank of a band: it bends with
    concentration, and the solvent's own absorbance at the short end raises the noise.

Unsound
    kind: method
    detectors: [{type: UV, cell: UV cell, wavelength: 230 nm, bandwidth: 40 nm}]  # <- here

Sound
    kind: method
    detectors: [{type: UV, cell: UV cell, wavelength: 230 nm, bandwidth: 4 nm}]

Sound, because the trace only triggers the collector
    kind: method
    detectors: [{type: UV, cell: UV cell, wavelength: 230 nm, bandwidth: 40 nm, purpose: trigger}]

Remedy
    Set 4 to 8 nm, or no more than a quarter of the width of the band.

Source
    16 nm: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.detector import ULTRAVIOLET, traces
from methodlint.judging.ask.rule import Finding, Measure, RunCase, show

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("method.detectors",)

_WIDEST = 16e-9


def judge(case: RunCase) -> Iterator[Finding]:
    """Look at each trace that is evaluated."""
    for index, detector in traces(case, *ULTRAVIOLET):
        width = detector.bandwidth
        if width is None or width.si <= _WIDEST:
            continue
        at = f"method.detectors[{index}].bandwidth"
        yield case.finding(
            at,
            "caution",
            f"a bandwidth of {show(width.si, 'length', 'nm')} averages over the band (usual "
            f"limit {show(_WIDEST, 'length', 'nm')}): areas bend with concentration",
            found=Measure(width.si * 1e9, "nm"),
            limit=Measure(_WIDEST * 1e9, "nm"),
            remedy="set a bandwidth of 8 nm",
            candidates=[case.candidate("set a bandwidth of 8 nm", case.change(at, "8 nm"))],
        )
