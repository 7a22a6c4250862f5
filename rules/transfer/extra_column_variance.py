"""The target system costs the first peak of a transferred method no more than a tenth of its plates.

Reason
    A smaller column makes peaks of smaller volume. The same tubes, cell and injector then take
    a larger part of the plates, most from the first peaks.

Unsound
    kind: method
    transferred_from: assay-on-tight-bench
    ---
    kind: method
    x-name: assay-on-tight-bench
    runs_on: [tight-bench]
    ---
    kind: instrument
    x-name: tight-bench
    extra_column_sigma: 4 uL
    ---
    kind: instrument
    extra_column_sigma: 25 uL  # <- here

Sound
    kind: method
    transferred_from: assay-on-tight-bench
    ---
    kind: method
    x-name: assay-on-tight-bench
    runs_on: [tight-bench]
    ---
    kind: instrument
    x-name: tight-bench
    extra_column_sigma: 4 uL

Remedy
    Narrower or shorter tubes, a smaller cell, or a wider column. Peaks retained five hold-up
    times and more are wide enough.

Source
    sigma_ec^2/(sigma_ec^2 + sigma_col^2) (arithmetic of variances). 10 and 20 %: common practice,
    no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.detector import (
    first_peak,
    hold_up_time_at,
    peak_widths,
    plate_loss,
    volume_sigma,
)
from methodlint.judging.ask.rule import Finding, NotChecked, RunCase, microlitres, percent, show

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("run", "source.run", "instrument.extra_column_sigma", "method.expected_peaks")

_CAUTION, _FAULT = 0.10, 0.20
_LATE = 5.0


def applies(case: RunCase) -> bool:
    """Only transfers; a method by itself was developed on its system."""
    return case.transferred


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare variances at the first peak that is not well retained."""
    assert case.method is not None
    peak = first_peak(peak_widths(case.method, case.column))
    if peak is None or peak.retention_time is None:
        yield case.not_checked("method.expected_peaks", "plates or width of an expected peak")
        return
    hold_up = hold_up_time_at(case.run, peak.retention_time)
    own = volume_sigma(case.run, peak)
    if hold_up is None or own is None or peak.retention_time / hold_up - 1.0 >= _LATE:
        return
    outside = case.get("instrument.extra_column_sigma").si
    loss = plate_loss(outside**2, own**2)
    if loss <= _CAUTION:
        return
    passes = own * (_CAUTION / (1.0 - _CAUTION)) ** 0.5
    assert case.source is not None
    yield case.finding(
        "instrument.extra_column_sigma",
        "fault" if loss > _FAULT else "caution",
        f"{show(loss, 'share')} of the plates of {peak.name} are lost outside the column: "
        f"{outside**2 * 1e18:.0f} uL2 against {own**2 * 1e18:.0f} uL2 of the peak itself "
        f"({peak.words})",
        found=percent(loss),
        limit=percent(_FAULT if loss > _FAULT else _CAUTION),
        remedy=f"bring the standard deviation outside the column to "
        f"{show(microlitres(passes).value * 1e-9, 'volume')} with narrower tubes or a smaller cell",
        also=(case.source.at("method.expected_peaks"),),
    )
