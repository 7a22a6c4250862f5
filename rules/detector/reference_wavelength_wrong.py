"""A reference wavelength sees neither the analyte nor the solvent, and is there where needed.

Reason
    A reference that overlaps the band that is measured subtracts the peak from itself; one below
    the solvent's cutoff adds the solvent's noise. In a very compressible mobile phase the
    refractive index moves with every pulse of pressure, and a reference takes that out.

Unsound
    kind: method
    detectors:
      - {type: PDA, cell: UV cell, wavelength: 254 nm, reference_wavelength: 260 nm}  # <- here

Sound
    kind: method
    detectors:
      - {type: PDA, cell: UV cell, wavelength: 254 nm, reference_wavelength: 360 nm}

Sound, because the detector has a single wavelength
    kind: instrument
    reference_detector: single wavelength
    ---
    kind: method
    detectors:
      - {type: UV, cell: UV cell, wavelength: 254 nm, reference_wavelength: 260 nm}

Remedy
    Move the reference to where nothing absorbs, usually 80 nm or more above the measured one. That
    a very compressible mobile phase goes without one is a note.

Source
    Distance of 20 nm (80 nm is proposed), an absorbance of 0.2 in 1 cm, 1 % of density for 1 bar:
    common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.detector import ULTRAVIOLET, least_absorbance, row_absorbance, traces
from methodlint.judging.ask.flow import filled_rows
from methodlint.judging.ask.rule import Finding, Measure, NotChecked, RunCase, number, show

SUBJECT = "run"
CLASSES = ("caution", "note")
NEEDS = ("method.detectors",)

_NEAR = 20e-9
_FURTHER = 80e-9
_ABSORBS = 20.0  # per metre, decadic
_SUPERCRITICAL = 273.15 + 31.0
_COMPRESSIBLE = 0.01 / 1e5


def applies(case: RunCase) -> bool:
    """A detector of a single wavelength has no reference."""
    if case.instrument is not None and case.instrument.reference_detector == "single wavelength":
        return False
    return next(traces(case, *ULTRAVIOLET), None) is not None


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Look at a reference that is set, and at one that is missing where it would help."""
    for index, detector in traces(case, *ULTRAVIOLET):
        at = f"method.detectors[{index}]"
        measured = detector.wavelength
        if detector.reference_wavelength is None:
            yield from _absent(case, at, measured.si if measured is not None else None)
        elif measured is None:
            yield case.not_checked(at, f"{at}.wavelength")
        else:
            yield from _present(case, at, measured.si, detector.reference_wavelength.si)


def _further(measured: float) -> str:
    return f"{round((measured + _FURTHER) * 1e9)} nm"


def _present(case: RunCase, at: str, measured: float, reference: float) -> Iterator[Finding]:
    place = f"{at}.reference_wavelength"
    distance = abs(reference - measured)
    liquid = case.method_liquid()
    absorbs = (least_absorbance(liquid, reference) if liquid is not None else None) or 0.0
    rows = filled_rows(case.method) if case.method is not None else ()
    level = max((row_absorbance(row, absorbs, 0.0, 0.0) for row in rows), default=0.0)
    if distance < _NEAR:
        said = (
            f"{show(distance, 'length', 'nm')} from the {show(measured, 'length', 'nm')} measured, "
            f"{show(_NEAR, 'length', 'nm')} is the least: it subtracts the peak from itself"
        )
        found, limit = Measure(distance * 1e9, "nm"), Measure(_NEAR * 1e9, "nm")
    elif level >= _ABSORBS:
        said = (
            f"below the cutoff of the mobile phase, which absorbs at least {number(level / 100.0, 2)} in "
            f"1 cm there; {number(_ABSORBS / 100.0, 2)} is workable"
        )
        found, limit = Measure(level / 100.0, "1/cm"), Measure(_ABSORBS / 100.0, "1/cm")
    else:
        return
    text = _further(measured)
    yield case.finding(
        place,
        "caution",
        f"the reference at {show(reference, 'length', 'nm')} is {said}",
        found=found,
        limit=limit,
        remedy=f"set the reference to {text} or further up",
        candidates=[case.candidate(f"set the reference to {text}", case.change(place, text))],
        also=(case.at(f"{at}.wavelength"),),
    )


def _absent(case: RunCase, at: str, measured: float | None) -> Iterator[Finding | NotChecked]:
    run = case.rehearsal
    if run is None or not run.done:
        return
    warm = float(run.temperature[:, run.slices_of(run.plan.analytical_column)].max())
    stiff = float(run.outlet_compressibility.max())
    if warm <= _SUPERCRITICAL or stiff <= _COMPRESSIBLE:
        return
    if case.instrument is None or case.instrument.reference_detector is None:
        yield case.not_checked("instrument", "instrument.reference_detector")
        return
    text = _further(measured) if measured is not None else "a wavelength that nothing absorbs"
    place = f"{at}.reference_wavelength"
    changes = [case.candidate(f"set the reference to {text}", case.change(place, text))]
    # That the mobile phase is so soft is phase.near-critical-compressible's to raise.
    yield case.finding(
        at,
        "note",
        f"no reference, while 1 bar moves the density at the outlet by {number(1e7 * stiff, 2)} %; "
        f"above {number(1e7 * _COMPRESSIBLE, 2)} % a reference takes the baseline's swing out",
        found=Measure(1e7 * stiff, "%/bar"),
        limit=Measure(1e7 * _COMPRESSIBLE, "%/bar"),
        remedy=f"set a reference to {text}",
        candidates=changes if measured is not None else (),
    )
