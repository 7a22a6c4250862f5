"""The source is hot enough, and has gas enough, for the liquid that reaches it.

Reason
    A source that does not dry all of the liquid sprays droplets: signal is lost and jumps, and
    the liquid fouls the inlet. Makers state how much liquid a temperature and a gas flow dry.

Unsound
    kind: method
    detectors:
      - {type: MS, source: ESI, polarity: positive, source_temperature: 150 degC, gas_flow: 4 L/min}  # <- here
    ---
    kind: instrument
    ms:
      source: ESI
      highest_liquid_flow: 1.0 mL/min
      settings:
        - {highest_liquid_flow: 0.2 mL/min, temperature: 150 degC, gas_flow: 4 L/min}
        - {highest_liquid_flow: 1.0 mL/min, temperature: 350 degC, gas_flow: 10 L/min}

Sound
    kind: method
    detectors:
      - {type: MS, source: ESI, polarity: positive, source_temperature: 350 degC, gas_flow: 10 L/min}
    ---
    kind: instrument
    ms:
      source: ESI
      highest_liquid_flow: 1.0 mL/min
      settings:
        - {highest_liquid_flow: 0.2 mL/min, temperature: 150 degC, gas_flow: 4 L/min}
        - {highest_liquid_flow: 1.0 mL/min, temperature: 350 degC, gas_flow: 10 L/min}

Remedy
    Set the temperature and gas of the row that dries this much, or lower makeup or split.

Source
    The table on the instrument card, as its maker states it.
"""

from collections.abc import Iterator

from methodlint.judging.ask.detector import source_load
from methodlint.judging.ask.liquids import makeup_of
from methodlint.judging.ask.rule import Finding, NotChecked, RunCase, ml_per_min, number, show

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("run", "method.detectors", "instrument.ms")

_LITRES_PER_MINUTE = 6e4


def applies(case: RunCase) -> bool:
    """The card has a table of what its source dries, and a mass spectrometer is used."""
    used = case.method is not None and any(d.type == "MS" for d in case.method.detectors)
    return used and bool(case.get("instrument.ms.settings"))


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Take the rows that the settings reach, and the liquid at the richest moment."""
    assert case.method is not None
    makeup = makeup_of(case.documents)
    documents = case.documents
    content = makeup.components if makeup else ()
    load = source_load(case.run, documents["method"], documents["instrument"], content)
    if load is None:
        return  # makeup.total-liquid-too-high asks for the ratio of the splitter
    most = float(load.liquid.max())
    rows = case.get("instrument.ms.settings")
    for index, used in enumerate(case.method.detectors):
        if used.type != "MS":
            continue
        at = f"method.detectors[{index}]"
        for key, name in (("source_temperature", "temperature"), ("gas_flow", "gas_flow")):
            if getattr(used, key) is None and any(getattr(row, name) for row in rows):
                yield case.not_checked(at, f"{at}.{key}", "the card says what dries the liquid")
                return
        heat, gas = used.source_temperature, used.gas_flow
        reached = [
            row.highest_liquid_flow.si
            for row in rows
            if (row.temperature is None or (heat and row.temperature.si <= heat.si))
            and (row.gas_flow is None or (gas and row.gas_flow.si <= gas.si))
        ]
        dries = max(reached, default=0.0)
        if most <= dries:
            continue
        enough = [row for row in rows if row.highest_liquid_flow.si >= most]
        best = min(enough, key=lambda row: float(row.highest_liquid_flow.si), default=None)
        words = []
        if best is not None and best.temperature is not None:
            words.append(show(best.temperature.si, "temperature"))
        if best is not None and best.gas_flow is not None:
            words.append(f"{number(best.gas_flow.si * _LITRES_PER_MINUTE, 3)} L/min of gas")
        yield case.finding(
            at,
            "caution",
            f"{show(most, 'volume flow', 'mL/min')} of liquid reaches the source; its settings dry "
            f"{show(dries, 'volume flow', 'mL/min')}",
            found=ml_per_min(most),
            limit=ml_per_min(dries),
            remedy=f"set {' and '.join(words)}" if words else "lower the makeup, or split",
            also=(case.at("instrument.ms.settings"),),
        )
