"""An electrospray source gets liquid at all times.

Reason
    Downstream of the regulator CO2 is gone as gas, and what is left to spray is modifier and makeup. At
    2 % of 1.5 mL/min that is 0.03 mL/min: the spray breaks down, and salt in the modifier dries
    out in the line. A splitter sends less of both; with no makeup at all the spray is as lean.
    Makeup that joins ahead of a splitter is divided by it, and none of it reaches the source
    where its tee is on the main line downstream of it.

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

Remedy
    Add makeup so that the leanest moment has 0.15 to 0.2 mL/min of liquid.

Source
    0.1 mL/min as the least and 0.15 to 0.2 mL/min as the aim: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.detector import (
    SourceLoad,
    source_load,
    tee_behind_splitter,
    uses_mass_spectrometer,
)
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
    """A mass spectrometer is among the detectors; a method that names none is asked."""
    method = case.method
    return method is not None and (not method.detectors or uses_mass_spectrometer(method))


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
    whole = load.splitter is not None and case.get("method.makeup") is None
    liquid = load.modifier / load.split if whole else load.liquid
    row = int(liquid.argmin())
    least = float(liquid[row])
    if load.joins == "not stated":
        if float(load.modifier.min()) < _LEAST:
            assert case.method is not None and case.instrument is not None
            path = tee_behind_splitter(case.instrument, case.method)
            yield case.not_checked("instrument.train", path, "the makeup may miss the source")
        return
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
        f"{' before the splitter' if whole else ''} at "
        f"{show(float(load.time[row]), 'time', 'min')} when CO2 has gone, it needs "
        f"{show(_LEAST, 'volume flow', 'mL/min')}: "
        f"{show(_LEAST - least, 'volume flow', 'mL/min')} short{dries}",
        found=ml_per_min(least),
        limit=ml_per_min(_LEAST),
        when=When(begins, ends),
        remedy=_remedy(load),
        candidates=_candidates(case, load, row, _AIM - least),
    )


def _source(case: RunCase) -> str | None:
    for detector in case.method.detectors if case.method else ():
        if detector.type == "MS" and detector.source is not None:
            return detector.source
    source = case.get("instrument.ms.source")
    return str(source) if source is not None else None


def _remedy(load: SourceLoad) -> str:
    if load.joins == "main line":
        return "let the makeup join on the branch to the source"
    return "add makeup up to 0.2 mL/min of liquid at the leanest moment"


def _candidates(case: RunCase, load: SourceLoad, row: int, more: float) -> list[Candidate]:
    makeup = case.get("method.makeup")
    if makeup is not None and (makeup.programme or makeup.flow is None):
        return []
    if makeup is not None and load.joins == "main line":
        return []
    if makeup is not None and load.joins == "whole stream":
        more /= float(load.split[row])
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
