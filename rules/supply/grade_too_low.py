"""The purity and the dryness of the CO2 fit the detector, and its purifier is in date.

Reason
    Oil and hydrocarbons of technical CO2 collect on the column and show in a mass spectrometer
    and in UV below 220 nm, most of all in gradients. Water freezes where CO2 expands and moves
    retention; a purifier that is spent gives back what it held.

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

Unsound, because its purifier is overdue
    kind: supply
    purifier_changed: 2025-01-15  # <- here
    purifier_interval: 365 d

Sound, because its purifier is in date
    kind: supply
    purifier_changed: 2026-06-15
    purifier_interval: 365 d
    moisture: 5 ppm

Remedy
    Order CO2 of 99.99 % or better, with a statement on oil and hydrocarbons.

Source
    Common practice, no source; so is the water of 20 ppm from which a caution is worth it.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, NotChecked, percent, ppm

SUBJECT = "batch"
CLASSES = ("caution", "note")
NEEDS = ("supply",)

_LEAST = 0.9999
_WET = 20e-6
_DAY = 86400.0
_SHORT_WAVE = 220e-9


def applies(case: BatchCase) -> bool:
    """Only detectors that see what impure CO2 carries ask for it, or a card that tells of it."""
    told = ("moisture", "certificate_until", "purifier_changed")
    return bool(_sensitive(case)) or any(case.get(f"supply.{key}") is not None for key in told)


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Look at water and purifier, compare the grade, then ask for the statement on oil."""
    yield from _dryness(case)
    if not _sensitive(case):
        return
    seen = " and ".join(_sensitive(case))
    if case.get("supply.grade") is None:
        yield case.not_checked("supply", "supply.grade")
        return
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


def _dryness(case: BatchCase) -> Iterator[Finding]:
    """Water in the CO2, and what is to take it out; a certificate that holds answers for both."""
    supply, day = case.supply, case.last_day
    assert supply is not None
    until = supply.certificate_until
    if until is not None and day is not None and day <= until and supply.moisture is None:
        return
    if supply.moisture is not None and supply.moisture.si > _WET:
        yield case.finding(
            "supply.moisture",
            "caution",
            f"the CO2 holds {supply.moisture.text} of water: it freezes where CO2 expands, and moves "
            "retention",
            found=ppm(supply.moisture.si),
            limit=ppm(_WET),
            remedy="order dry CO2, or fit a purifier for water",
        )
    changed, interval = supply.purifier_changed, supply.purifier_interval
    age = (day - changed).days if changed is not None and day is not None else 0
    if interval is not None and age * _DAY > interval.si:
        yield case.finding(
            "supply.purifier_changed",
            "caution",
            f"the purifier was changed {age} d ago, every {interval.text} is the rule here",
            remedy="change it with the line vented, and write the day as `purifier_changed:`",
        )


def _sensitive(case: BatchCase) -> list[str]:
    found = []
    for run in case.runs.values():
        for detector in run.method.detectors if run.method else ():
            if detector.type == "MS":
                found.append("a mass spectrometer")
                continue
            wave = detector.wavelength if detector.type in ("UV", "PDA", "DAD") else None
            if wave is not None and wave.si < _SHORT_WAVE - 1e-12:
                found.append(f"UV at {wave.si * 1e9:.0f} nm")
    return list(dict.fromkeys(found))
