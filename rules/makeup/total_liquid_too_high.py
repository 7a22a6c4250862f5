"""A source gets no more liquid and gas than it can take.

Reason
    Modifier and makeup add up where the gradient is rich. Beyond the source's limit the spray is
    not dried, liquid collects in the housing and can reach the vacuum, where it does harm. What
    a splitter leaves in the main line does not count.

Unsound
    kind: method
    detectors: [{type: MS, source: ESI, polarity: positive}]
    makeup: {liquid: methanol, line: makeup, flow: 0.5 mL/min, tee: before the regulator}  # <- here

Sound
    kind: method
    detectors: [{type: MS, source: ESI, polarity: positive}]
    makeup: {liquid: methanol, line: makeup, flow: 0.2 mL/min, tee: before the regulator}

Remedy
    Lower the makeup while the mobile phase is rich, or split the stream.

Source
    Limits: the instrument card. Caution above 0.9 of the limit: common practice, no source. Heat
    of evaporation: CRC Handbook of Chemistry and Physics.
"""

from collections.abc import Iterator

from methodlint.judging.ask.detector import SourceLoad, source_load, uses_mass_spectrometer
from methodlint.judging.ask.liquids import makeup_of
from methodlint.judging.ask.rule import (
    Candidate,
    Finding,
    Grade,
    Measure,
    NotChecked,
    RunCase,
    When,
    ml_per_min,
    number,
    show,
)

SUBJECT = "run"
CLASSES = ("stop", "caution")
NEEDS = ("run", "method.detectors", "instrument.ms.highest_liquid_flow")
LINES = True

_CLOSE = 0.9
_LITRES_PER_MINUTE = 6e4
_MAKEUP_FLOWS = (0.3, 0.2, 0.15, 0.1)
_SMALL = 1e-12


def applies(case: RunCase) -> bool:
    """A mass spectrometer is among the detectors; a method that names none is asked."""
    method = case.method
    return method is not None and (not method.detectors or uses_mass_spectrometer(method))


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare liquid, gas and heat of evaporation with what the source takes."""
    makeup = makeup_of(case.documents)
    load = source_load(
        case.run,
        case.documents["method"],
        case.documents["instrument"],
        makeup.components if makeup else (),
        makeup_off=case.makeup_off,
    )
    if load is None:
        yield case.not_checked("instrument.train", "instrument.train.split_ratio")
        return
    yield from _liquid(case, load)
    yield from _gas(case, load)
    yield from _heat(case, load)


def _liquid(case: RunCase, load: SourceLoad) -> Iterator[Finding]:
    limit = case.get("instrument.ms.highest_liquid_flow").si
    row = int(load.liquid.argmax())
    most = float(load.liquid[row])
    if most <= _CLOSE * limit + _SMALL:
        return
    grade: Grade = "stop" if most > limit + _SMALL else "caution"
    begins, ends = case.run.windows(load.liquid - _CLOSE * limit)[0]
    split = (
        f", {number(100 * float(load.split[row]), 3)} % of the stream"
        if load.splitter is not None
        else ""
    )
    yield case.finding(
        "method.makeup" if case.get("method.makeup") else "method.mobile_phase",
        grade,
        f"{show(most, 'volume flow', 'mL/min')} of liquid reaches the source at "
        f"{show(float(load.time[row]), 'time', 'min')} "
        f"({show(float(load.modifier[row]), 'volume flow', 'mL/min')} modifier{split}, "
        f"{show(float(load.makeup[row]), 'volume flow', 'mL/min')} makeup), it takes "
        f"{show(limit, 'volume flow', 'mL/min')}: "
        f"{show(abs(limit - most), 'volume flow', 'mL/min')} "
        f"{'too much' if grade == 'stop' else 'left'}",
        found=ml_per_min(most),
        limit=ml_per_min(limit),
        when=When(begins, ends),
        remedy="lower the makeup while the mobile phase is rich, or split the stream",
        candidates=_candidates(case),
        also=(case.at("instrument.ms.highest_liquid_flow"),),
    )


def _gas(case: RunCase, load: SourceLoad) -> Iterator[Finding]:
    limit = case.get("instrument.ms.highest_gas_flow")
    most = float(load.gas.max())
    if limit is None or most <= limit.si:
        return
    yield case.finding(
        "instrument.ms.highest_gas_flow",
        "caution",
        f"{number(most * _LITRES_PER_MINUTE, 3)} L/min of CO2 gas reaches the source, it takes "
        f"{number(limit.si * _LITRES_PER_MINUTE, 3)} L/min",
        found=Measure(most * _LITRES_PER_MINUTE, "L/min"),
        limit=Measure(limit.si * _LITRES_PER_MINUTE, "L/min"),
        remedy="split the stream or lower the flow",
        also=(case.at("method.flow"),),
    )


def _heat(case: RunCase, load: SourceLoad) -> Iterator[Finding]:
    limit = case.get("instrument.ms.source_power")
    if limit is None or load.evaporation is None:
        return
    most = float(load.evaporation.max())
    if most <= limit.si:
        return
    yield case.finding(
        "instrument.ms.source_power",
        "caution",
        f"evaporating the liquid takes {show(most, 'power')}, the source gives "
        f"{show(limit.si, 'power')}: {show(most - limit.si, 'power')} too much",
        found=Measure(most, "W"),
        limit=Measure(limit.si, "W"),
        remedy="lower the makeup or split the stream",
    )


def _candidates(case: RunCase) -> list[Candidate]:
    makeup = case.get("method.makeup")
    if makeup is None or makeup.programme or makeup.flow is None:
        return []
    found = []
    for value in _MAKEUP_FLOWS:
        if value / 6e7 < makeup.flow.si:
            change = case.change("method.makeup.flow", f"{value} mL/min")
            found.append(case.candidate(f"lower the makeup flow to {value} mL/min", change))
    return found
