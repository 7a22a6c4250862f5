"""The grade of a liquid suits the detector, and its water the method.

Reason
    A mass spectrometer sees every stabiliser and every plasticiser; a UV cell below 230 nm sees
    stabilisers (amylene, ethanol, butylated hydroxytoluene) as a high and drifting baseline. A
    modifier that is left open takes up water, which moves retention on polar phases.

Unsound
    kind: method
    detectors: [{type: MS, source: ESI, polarity: positive}]
    ---
    kind: solvents
    bottles:
      - {line: modifier-1, liquid: methanol, grade: technical}  # <- here
      - {line: makeup, liquid: methanol, grade: MS}

Sound
    kind: method
    detectors: [{type: MS, source: ESI, polarity: positive}]
    ---
    kind: solvents
    bottles:
      - {line: modifier-1, liquid: methanol, grade: MS}
      - {line: makeup, liquid: methanol, grade: MS}

Unsound, because it has taken up water
    kind: solvents
    bottles:
      - {line: modifier-1, liquid: methanol, grade: MS, water: 0.4 % v/v, water_limit: 0.1 % v/v}  # <- here

Sound, because it is drier than the method asks for
    kind: solvents
    bottles:
      - {line: modifier-1, liquid: methanol, grade: MS, water: 0.04 % v/v, water_limit: 0.1 % v/v}

Remedy
    Use the grade for mass spectrometry with a mass spectrometer, gradient grade for UV. A trace
    that only triggers, and preparative work, do with less for UV.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.detector import uses_mass_spectrometer
from methodlint.judging.ask.document import Bottle
from methodlint.judging.ask.liquids import makeup_bottle
from methodlint.judging.ask.rule import Finding, NotChecked, RunCase, percent

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("method.detectors", "solvents.bottles")

_FOR_SPECTROMETER = ("MS",)
_FOR_SHORT_WAVES = ("MS", "gradient")
_SHORT = 230e-9


def applies(case: RunCase) -> bool:
    """A mass spectrometer, or UV at short waves; a method that names no detector is asked."""
    return _asks_for_grade(case) or any(
        bottle.water_limit is not None
        for bottle in (case.solvents.bottles if case.solvents else ())
    )


def _asks_for_grade(case: RunCase) -> bool:
    method = case.method
    return method is not None and (
        not method.detectors or uses_mass_spectrometer(method) or _short_waves(case)
    )


def _short_waves(case: RunCase) -> bool:
    if case.purpose == "preparative":
        return False
    return any(
        detector.wavelength is not None
        and detector.wavelength.si < _SHORT
        and detector.purpose != "trigger"
        for detector in (case.method.detectors if case.method else ())
    )


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Look at the bottles that this method draws from."""
    method = case.method
    assert method is not None
    spectrometer = uses_mass_spectrometer(method)
    good = _FOR_SPECTROMETER if spectrometer else _FOR_SHORT_WAVES
    detector = "a mass spectrometer" if spectrometer else "UV below 230 nm"
    modifier = case.method_liquid()
    line = getattr(modifier, "line", None)
    bottles = case.solvents.bottles if case.solvents else ()
    makeup = method.makeup if spectrometer else None
    added = makeup_bottle(bottles, makeup) if makeup is not None else None
    for index, bottle in enumerate(bottles):
        if bottle.line != line and index != added:
            continue
        at = f"solvents.bottles[{index}]"
        yield from _water(case, at, bottle)
        if not _asks_for_grade(case):
            continue
        if bottle.grade is None:
            yield case.not_checked(at, f"{at}.grade")
        elif bottle.grade not in good:
            yield case.finding(
                f"{at}.grade",
                "caution",
                f"{bottle.line} is {bottle.grade} grade, {detector} wants {' or '.join(good)}",
                remedy=f"use {good[0]} grade",
                candidates=[
                    case.candidate(
                        f"use {good[0]} grade on {bottle.line}",
                        case.change(f"{at}.grade", good[0]),
                    )
                ],
            )


def _water(case: RunCase, at: str, bottle: Bottle) -> Iterator[Finding | NotChecked]:
    """Water that was taken up, against what the method tolerates; on purpose it is an additive."""
    if bottle.water_limit is None:
        return
    if bottle.water is None:
        reason = f"the water of {bottle.line} is limited to {bottle.water_limit.text}, not measured"
        yield case.not_checked(at, f"{at}.water", reason)
    elif bottle.water.si > bottle.water_limit.si * (1.0 + 1e-9):
        yield case.finding(
            f"{at}.water",
            "caution",
            f"{bottle.line} holds {bottle.water.text} of water, the limit is "
            f"{bottle.water_limit.text}",
            found=percent(bottle.water.si),
            limit=percent(bottle.water_limit.si),
            remedy="take a fresh bottle, and keep it closed with a drying tube",
        )
