"""The source gas of a mass spectrometer that sprays organic liquid is an inert one.

Reason
    In the source, organic vapour meets gas, heat and high voltage. With air as source gas the
    vapour can burn or explode; nitrogen keeps oxygen away.

Unsound
    kind: method
    detectors: [{type: MS, source: ESI, polarity: positive}]
    ---
    kind: instrument
    ms: {gas: air}  # <- here

Sound
    kind: method
    detectors: [{type: MS, source: ESI, polarity: positive}]
    ---
    kind: instrument
    ms: {gas: nitrogen}

Sound, because the maker of this source permits clean air
    kind: method
    detectors: [{type: MS, source: APCI, polarity: positive}]
    ---
    kind: instrument
    ms: {gas: air, air_permitted: true}

Remedy
    Connect nitrogen (or argon) to the source, and say so on the instrument card. Some sources are
    specified for clean air: then the card states it (`ms.air_permitted: true`).

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.detector import uses_mass_spectrometer
from methodlint.judging.ask.liquids import components_of, find_liquid, makeup_of
from methodlint.judging.ask.rule import Finding, NotChecked, RunCase

SUBJECT = "run"
CLASSES = ("stop",)
NEEDS = ("method.detectors", "instrument.ms.gas")

_INERT = ("nitrogen", "argon")


def applies(case: RunCase) -> bool:
    """A mass spectrometer is among the detectors; a method that names none is asked."""
    method = case.method
    return method is not None and (not method.detectors or uses_mass_spectrometer(method))


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Air with anything that burns is a stop; a gas that is not named cannot be judged."""
    gas = case.get("instrument.ms.gas")
    if gas in _INERT or (gas == "air" and case.get("instrument.ms.air_permitted")):
        return
    modifier = case.method_liquid()
    makeup = makeup_of(case.documents)
    parts = [*(components_of(modifier) if modifier else ()), *(makeup.components if makeup else ())]
    names = [name for name, _ in parts if (known := find_liquid(name)) is None or known.flammable]
    if not names:
        return
    if gas == "other":
        yield case.not_checked("instrument.ms.gas", "instrument.ms.gas", "the gas is not named")
        return
    yield case.finding(
        "instrument.ms.gas",
        "stop",
        f"the source sprays {', '.join(dict.fromkeys(names))} into {gas}: the vapour can burn or "
        "explode",
        remedy="connect nitrogen to the source",
        candidates=[
            case.candidate(
                "connect nitrogen to the source", case.change("instrument.ms.gas", "nitrogen")
            )
        ],
        cautions=("flammable",),
    )
