"""A splitter sends the same share of the stream to the source during the whole run.

Reason
    The flow through a fixed restrictor falls as the mobile phase gets more viscous. From 5 to
    40 % methanol viscosity doubles, so a ratio stated for the start is wrong at the end and
    areas drift with retention time.

Unsound
    kind: method
    detectors: [{type: MS, source: ESI, polarity: positive}]
    ---
    kind: instrument
    train:
      - {part: mixer, name: mixer, volume: 0.2 mL, pressure_rating: 550 bar}
      - {part: tube, name: mixer to column, length: 0.3 m, bore: 0.15 mm}
      - {part: column}
      - {part: tube, name: column to splitter, length: 0.3 m, bore: 0.15 mm}
      - {part: splitter, name: splitter, split_ratio: 10 %, active: false}  # <- here
      - {part: regulator, name: regulator, pressure_rating: 380 bar}
      - {part: source, name: electrospray source, detector: MS}

Sound
    kind: method
    detectors: [{type: MS, source: ESI, polarity: positive}]
    ---
    kind: instrument
    train:
      - {part: mixer, name: mixer, volume: 0.2 mL, pressure_rating: 550 bar}
      - {part: tube, name: mixer to column, length: 0.3 m, bore: 0.15 mm}
      - {part: column}
      - {part: tube, name: column to splitter, length: 0.3 m, bore: 0.15 mm}
      - {part: splitter, name: splitter, split_ratio: 10 %, active: true}
      - {part: regulator, name: regulator, pressure_rating: 380 bar}
      - {part: source, name: electrospray source, detector: MS}

Remedy
    Use an active splitter, or an internal standard that elutes with the analyte.

Source
    Laminar flow in the restrictor: Hagen and Poiseuille. A change by a quarter: common practice,
    no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.detector import split_drift, splitter_of, uses_mass_spectrometer
from methodlint.judging.ask.rule import Finding, Grade, Measure, NotChecked, RunCase, When, number

SUBJECT = "run"
CLASSES = ("caution", "note")
NEEDS = ("run", "method.detectors")

_CHANGE = 0.25


def applies(case: RunCase) -> bool:
    """A splitter feeds the source."""
    method, instrument = case.method, case.instrument
    if method is None or instrument is None or splitter_of(instrument) is None:
        return False
    return not method.detectors or uses_mass_spectrometer(method)


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare the flow through the restrictor at the thinnest and the thickest moment."""
    assert case.instrument is not None
    part_number = splitter_of(case.instrument)
    part = case.instrument.train[part_number or 0]
    at = f"instrument.train[{part_number}]"
    if part.active is None:
        yield case.not_checked(at, f"{at}.active")
        return
    if part.active:
        return
    drift = split_drift(case.run)
    if drift.change <= _CHANGE:
        return
    stated = part.split_ratio.si if part.split_ratio else None
    ratio = ""
    if stated is not None:
        # the stated share holds at the start of the run
        shares = case.run.split_share
        first, last = float(shares.max()), float(shares.min())
        ratio = f", from {number(100 * first, 3)} to {number(100 * last, 3)} % of the stream"
    method = case.method
    standard = case.sequence is not None and bool(case.sequence.internal_standard)
    standard = standard or (method is not None and method.bracketing == "internal standard")
    grade: Grade = "note" if standard else "caution"
    yield case.finding(
        at,
        grade,
        f"the flow through the fixed restrictor changes by {100 * drift.change:.0f} % over the "
        f"run{ratio}: viscosity goes from {drift.thinnest * 1e6:.0f} to "
        f"{drift.thickest * 1e6:.0f} uPa s; {100 * _CHANGE:.0f} % are usual",
        found=Measure(100 * drift.change, "%"),
        limit=Measure(100 * _CHANGE, "%"),
        when=When(drift.thin_time, drift.thick_time),
        remedy="use an active splitter or an internal standard that elutes with the analyte",
        candidates=[
            case.candidate("use an active splitter", case.change(f"{at}.active", True)),
        ],
    )
