"""What reaches the source suits how its ions are made and read.

Reason
    Trifluoroacetic acid pairs with ions in the spray and suppresses them, in positive mode too,
    and leaves nothing else to be read in negative mode; formic and acetic acid do not. Triethylamine and diethylamine beyond 0.1 % take the charge from the analytes in positive
    mode and stay in the source for days. An alkane as makeup carries no charge: electrospray
    needs a liquid that conducts, and the spray of hexane is a flammable mist without ions.

Unsound
    kind: method
    detectors: [{type: MS, source: ESI, polarity: negative}]
    makeup:
      liquid: methanol
      additives: [{additive: trifluoroacetic acid, level: 0.1 % v/v}]  # <- here
      line: makeup
      flow: 0.2 mL/min
      tee: after the regulator

Sound
    kind: method
    detectors: [{type: MS, source: ESI, polarity: negative}]
    makeup:
      liquid: methanol
      additives: [{additive: ammonium formate, level: 5 mM}]
      line: makeup
      flow: 0.2 mL/min
      tee: after the regulator

Unsound, because an alkane carries no charge to an electrospray
    kind: method
    detectors: [{type: MS, source: ESI, polarity: positive}]
    makeup: {liquid: n-hexane, line: makeup, flow: 0.2 mL/min, tee: after the regulator}  # <- here

Sound, because photoionisation needs no charge in the liquid
    kind: method
    detectors: [{type: MS, source: APPI, polarity: positive}]
    makeup: {liquid: n-hexane, line: makeup, flow: 0.2 mL/min, tee: after the regulator}

Remedy
    Take an ammonium salt (5 to 10 mM ammonium formate or acetate) in place of the additive; it
    suits both polarities. Take an alcohol as makeup in place of an alkane.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.detector import uses_mass_spectrometer
from methodlint.judging.ask.liquids import (
    Dissolved,
    concentration,
    dissolved_in,
    find_liquid,
    makeup_of,
)
from methodlint.judging.ask.rule import At, Finding, RunCase

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("method.detectors",)

_AMINES = ("triethylamine", "diethylamine")
_AMINE_LEVEL = "0.1 % v/v"
_STRONG_ACIDS = ("trifluoroacetic acid", "heptafluorobutyric acid")


def applies(case: RunCase) -> bool:
    """A mass spectrometer is among the detectors; a method that names none is asked."""
    method = case.method
    return method is not None and (not method.detectors or uses_mass_spectrometer(method))


def judge(case: RunCase) -> Iterator[Finding]:
    """Look at all additives of modifier and makeup together, for each polarity used."""
    yield from _alkane(case)
    polarities = _polarities(case)
    everything = _additives(case)
    for at, part in everything:
        if part.additive is None:
            continue
        why = ""
        if polarities and part.name in _STRONG_ACIDS:
            why = f"{part.name} suppresses ions in the spray, in {_words(polarities)} mode"
        elif "positive" in polarities and part.name in _AMINES and _much(part):
            why = f"{part.name} beyond {_AMINE_LEVEL} takes the charge in positive mode"
        if why:
            yield case.finding(
                at,
                "caution",
                f"{why}; an ammonium salt suits both polarities",
                remedy="take 5 to 10 mM ammonium formate in its place",
                candidates=[
                    case.candidate(
                        "take 5 mM ammonium formate in its place",
                        case.change(
                            at,
                            {"additive": "ammonium formate", "level": "5 mM"},
                        ),
                    )
                ],
            )
            return


def _alkane(case: RunCase) -> Iterator[Finding]:
    """An alkane alone as makeup of an electrospray source."""
    detectors = case.method.detectors if case.method else ()
    sources = [
        one.source or case.get("instrument.ms.source") for one in detectors if one.type == "MS"
    ]
    makeup = makeup_of(case.documents)
    if "ESI" not in sources or makeup is None or not makeup.components:
        return
    known = [find_liquid(name) for name, _ in makeup.components]
    if any(liquid is None or liquid.family != "alkane" for liquid in known):
        return
    name = makeup.components[0][0]
    yield case.finding(
        At(makeup.document, makeup.path),
        "fault",
        f"{name} is the makeup of an electrospray source: an alkane carries no charge, so there "
        "are no ions",
        remedy="take methanol, with 5 mM ammonium formate if a salt is needed",
        cautions=("flammable",),
    )


def _words(polarities: set[str]) -> str:
    return " and ".join(sorted(polarities, reverse=True))


def _polarities(case: RunCase) -> set[str]:
    """Polarities in which a mass spectrometer reads; adducts of neutral analytes are left out."""
    found: set[str] = set()
    for detector in case.method.detectors if case.method else ():
        if detector.type != "MS":
            continue
        said = {detector.polarity} | {step.polarity for step in detector.transitions}
        for polarity in said - {None}:
            found |= {"positive", "negative"} if polarity == "both" else {str(polarity)}
    return found


def _additives(case: RunCase) -> list[tuple[At, Dissolved]]:
    found = []
    modifier = case.method_liquid()
    places = [(modifier, case.at("method.mobile_phase.modifier"))] if modifier else []
    makeup = makeup_of(case.documents)
    if makeup is not None and case.method is not None:
        own = case.method.makeup
        if makeup.document.kind == "solvents" and case.solvents is not None:
            own = case.solvents.bottles[int(makeup.path[1])]  # type: ignore[assignment]
        places.append((own, At(makeup.document, makeup.path)))  # type: ignore[arg-type]
    for liquid, place in places:
        for part in dissolved_in(liquid):
            found.append((At(place.document, (*place.path, "additives", part.index)), part))
    return found


def _much(part: Dissolved) -> bool:
    limit = concentration(_AMINE_LEVEL, part.name)
    return (
        part.concentration is not None and limit is not None and (part.concentration > 1.02 * limit)
    )
