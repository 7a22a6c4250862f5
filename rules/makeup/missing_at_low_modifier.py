"""An electrospray source gets liquid at all times.

Reason
    Behind the regulator CO2 is gone as gas, and what is left to spray is modifier and makeup. At
    2 % of 1.5 mL/min that is 0.03 mL/min: the spray breaks down, and salt in the modifier dries
    out in the line. A splitter sends less of both; with no makeup at all the spray is as lean.

Unsound
    kind: method
    detectors: [{type: MS, source: ESI, polarity: positive}]
    mobile_phase: {modifier: {liquid: methanol, line: modifier-1}}  # <- here
    makeup: null

Sound
    kind: method
    detectors: [{type: MS, source: ESI, polarity: positive}]
    makeup: {liquid: methanol, line: makeup, flow: 0.15 mL/min, tee: before the regulator}

Sound, because only UV is read
    kind: method
    detectors: [{type: UV, cell: UV cell, wavelength: 254 nm, rate: 20 Hz, filter: 0.1 s}]

Put right
    Add makeup so that the leanest moment has 0.15 to 0.2 mL/min of liquid.

Source
    0.1 mL/min as the least and 0.15 to 0.2 mL/min as the aim: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.detector import source_load, splitter_of, uses_mass_spectrometer
from methodlint.judging.ask.liquids import dissolved_in, makeup_of
from methodlint.judging.ask.rule import (
    Candidate,
    Finding,
    Grade,
    NotChecked,
    RunCase,
    When,
    ml_per_min,
    show,
)

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("run", "method.detectors")

_LEAST = 0.1e-6 / 60.0
_AIM = 0.2e-6 / 60.0


def applies(case: RunCase) -> bool:
    """The whole stream goes into a source, or a part of it that no makeup helps along."""
    method, instrument = case.method, case.instrument
    if method is None or (method.detectors and not uses_mass_spectrometer(method)):
        return False
    return instrument is None or splitter_of(instrument) is None or method.makeup is None


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare the liquid that arrives at every moment with the least an electrospray needs."""
    source = _source(case)
    if source is None:
        yield case.not_checked("method.detectors", "instrument.ms.source")
        return
    if source != "ESI":
        return
    load = source_load(case.run, case.documents["method"], case.documents["instrument"])
    if load is None:
        return
    # Without makeup a splitter leaves liquid and gas in the proportion of the whole stream.
    liquid = load.modifier / load.split if load.splitter is not None else load.liquid
    row = int(liquid.argmin())
    least = float(liquid[row])
    if least >= _LEAST:
        return
    modifier = case.method_liquid()
    salt = next((part.name for part in dissolved_in(modifier) if part.salt), "") if modifier else ""
    grade: Grade = "fault" if salt else "caution"
    begins, ends = case.run.windows(_LEAST - liquid)[0]
    dries = f", and {salt} dries out of it" if salt else ""
    at = "method.makeup" if case.get("method.makeup") else "method.mobile_phase.modifier"
    yield case.finding(
        at,
        grade,
        f"{show(least, 'volume flow', 'mL/min')} of liquid is left for the electrospray"
        f"{' before the splitter' if load.splitter is not None else ''} at "
        f"{show(float(load.time[row]), 'time', 'min')} when CO2 has gone, it needs "
        f"{show(_LEAST, 'volume flow', 'mL/min')}: "
        f"{show(_LEAST - least, 'volume flow', 'mL/min')} short{dries}",
        found=ml_per_min(least),
        limit=ml_per_min(_LEAST),
        when=When(begins, ends),
        remedy="add makeup up to 0.2 mL/min of liquid at the leanest moment",
        candidates=_candidates(case, _AIM - least),
    )


def _source(case: RunCase) -> str | None:
    for detector in case.method.detectors if case.method else ():
        if detector.type == "MS" and detector.source is not None:
            return detector.source
    source = case.get("instrument.ms.source")
    return str(source) if source is not None else None


def _candidates(case: RunCase, more: float) -> list[Candidate]:
    makeup = case.get("method.makeup")
    if makeup is not None and (makeup.programme or makeup.flow is None):
        return []
    flow = more + (makeup.flow.si if makeup is not None else 0.0)
    text = show(flow, "volume flow", "mL/min", digits=2)
    if makeup is not None:
        change = case.change("method.makeup.flow", text)
        return [case.candidate(f"raise the makeup flow to {text}", change)]
    modifier = case.method_liquid()
    known = makeup_of(case.documents)
    name = modifier.liquid if modifier is not None and modifier.liquid else "methanol"
    liquid = {} if known is not None else {"liquid": name}
    value = {**liquid, "line": "makeup", "flow": text, "tee": "before the regulator"}
    said = f"add {text} of {name} as makeup before the regulator"
    return [case.candidate(said, case.change("method.makeup", value))]
