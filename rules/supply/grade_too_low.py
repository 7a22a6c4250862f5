"""The purity of the CO2 fits the detector.

Reason
    Oil and hydrocarbons of technical CO2 collect on the column and show in a mass spectrometer
    and in UV below 220 nm, most of all in gradients.

Unsound
    kind: supply
    grade: 99.5 %  # <- here
    ---
    kind: method
    detectors:
      - {type: UV, cell: UV cell, wavelength: 210 nm, rate: 20 Hz, filter: 0.1 s}

Sound
    kind: supply
    grade: 99.995 %
    ---
    kind: method
    detectors:
      - {type: UV, cell: UV cell, wavelength: 210 nm, rate: 20 Hz, filter: 0.1 s}

Sound, because UV above 250 nm does not see it
    kind: supply
    grade: 99.5 %
    ---
    kind: method
    detectors:
      - {type: UV, cell: UV cell, wavelength: 254 nm, rate: 20 Hz, filter: 0.1 s}

Remedy
    Order CO2 of 99.99 % or better, with a statement on oil and hydrocarbons.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, NotChecked, percent

SUBJECT = "batch"
CLASSES = ("caution", "note")
NEEDS = ("supply.grade",)

_LEAST = 0.9999
_SHORT_WAVE = 220e-9


def applies(case: BatchCase) -> bool:
    """Only detectors that see what impure CO2 carries ask for it."""
    return bool(_sensitive(case))


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Compare the grade, then ask for the statement on oil."""
    seen = " and ".join(_sensitive(case))
    grade = case.get("supply.grade").si
    text = "order CO2 of 99.99 % or better, with a statement on oil and hydrocarbons"
    if grade < _LEAST - 1e-9:
        yield case.finding(
            "supply.grade",
            "caution",
            f"CO2 of {100 * grade:.6g} % with {seen}: 99.99 % or better is usual",
            found=percent(grade),
            limit=percent(_LEAST),
            remedy=text,
            candidates=[case.candidate(text, case.change("supply.grade", "99.995 %"))],
        )
    elif case.get("supply.oil_statement") is False:
        yield case.finding(
            "supply.oil_statement",
            "note",
            f"the supplier states no limit for oil and hydrocarbons, which {seen} would see",
            remedy=text,
            candidates=[case.candidate(text, case.change("supply.oil_statement", True))],
        )
    elif case.get("supply.oil_statement") is None:
        yield case.not_checked("supply", "supply.oil_statement")


def _sensitive(case: BatchCase) -> list[str]:
    found = []
    for run in case.runs.values():
        for detector in run.method.detectors if run.method else ():
            if detector.type == "MS":
                found.append("a mass spectrometer")
                continue
            wave = detector.wavelength if detector.type in ("UV", "PDA") else None
            if wave is not None and wave.si < _SHORT_WAVE - 1e-12:
                found.append(f"UV at {wave.si * 1e9:.0f} nm")
    return list(dict.fromkeys(found))
