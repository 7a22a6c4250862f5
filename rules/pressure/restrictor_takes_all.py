"""A splitter's restrictor leaves the regulator a stream to hold its pressure with.

Reason
    A fixed restrictor ends in the open. If it is too wide or too short, the whole stream leaves
    through it at less than the set pressure: the line to the regulator runs dry, the regulator
    closes and holds nothing, and the column sees the pressure that the restrictor happens to need.
    All other pressures of this run are computed with the set one.

Unsound
    kind: instrument
    train:
      - {part: mixer, name: mixer, volume: 0.2 mL, pressure_rating: 550 bar}
      - {part: column}
      - {part: splitter, name: splitter, active: false, length: 0.5 m, bore: 100 um}  # <- here
      - {part: regulator, name: regulator, pressure_rating: 380 bar}
      - {part: source, name: light scattering, detector: ELSD}

Sound
    kind: instrument
    train:
      - {part: mixer, name: mixer, volume: 0.2 mL, pressure_rating: 550 bar}
      - {part: column}
      - {part: splitter, name: splitter, active: false, length: 0.5 m, bore: 25 um}
      - {part: regulator, name: regulator, pressure_rating: 380 bar}
      - {part: source, name: light scattering, detector: ELSD}

Sound, because a pump or valve keeps the ratio
    kind: instrument
    train:
      - {part: mixer, name: mixer, volume: 0.2 mL, pressure_rating: 550 bar}
      - {part: column}
      - {part: splitter, name: splitter, split_ratio: 20 %, active: true}
      - {part: regulator, name: regulator, pressure_rating: 380 bar}
      - {part: source, name: light scattering, detector: ELSD}

Remedy
    Take a narrower restrictor: its flow goes with the fourth power of the bore. Or take a longer
    one, or an active splitter. Relieve the pressure before the restrictor is opened.

Source
    Laminar flow: Hagen and Poiseuille. Laminar below Re 2100, turbulent above 4000: Tarafder, J.
    Chromatogr. A 2018. Choked where the stream boils, and a fifth of the drop as band: common
    practice, no source.
"""

from collections.abc import Iterator

import numpy as np

from methodlint.judging.ask.detector import splitter_of
from methodlint.judging.ask.phase import settings_at
from methodlint.judging.ask.rule import (
    Candidate,
    Finding,
    NotChecked,
    RunCase,
    When,
    bar,
    judge_limit,
    show,
)

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("run",)
CAUSES = ("makeup.split-not-as-stated",)

_USUAL_BORES = (100e-6, 75e-6, 50e-6, 25e-6)
_LONGER = (2.0, 5.0, 10.0)


def applies(case: RunCase) -> bool:
    """A splitter feeds a restrictor, and a regulator holds the pressure beside it."""
    card = case.instrument
    if card is None:
        return False
    number = splitter_of(card)
    if number is None or (card.regulator and card.regulator.kind == "passive restrictor"):
        return False
    part = card.train[number]
    # A ratio that was measured answers the question where the restrictor itself is not known.
    measured = part.split_ratio is not None and (part.length is None or part.bore is None)
    return not part.active and not measured


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare what the restrictor needs for the whole stream with what the regulator is set to."""
    run, found = case.run, case.run.restrictor
    if found is None:
        assert case.instrument is not None
        number = splitter_of(case.instrument)
        at = f"instrument.train[{number}]"
        key = "length" if case.get(f"{at}.length") is None else "bore"
        yield case.not_checked(at, f"{at}.{key}")
        return
    at = f"instrument.train[{found.part}]"
    row = int(np.argmin(found.whole - found.held))
    needed, held, band = (float(of[row]) for of in (found.whole, found.held, found.band))
    verdict = judge_limit(needed, held, band, "fault", above=False)
    if verdict is None:
        for lost in np.flatnonzero(~found.settled)[:1]:
            time = show(float(run.time[lost]), "time", "min")
            yield case.not_checked(
                at, f"{at}.split_ratio", f"the division of the stream at {time} was not found"
            )
        return
    needs = found.whole - found.band if verdict.possible else found.whole
    spans = run.windows(np.where(found.stream > 0.0, found.held - needs, -np.inf))
    verb = "may take" if verdict.possible else "takes"
    yield case.finding(
        f"{at}.bore",
        verdict.grade,
        f"the restrictor ({show(found.length, 'length', 'm')}, bore "
        f"{show(found.bore, 'length', 'um')}) {verb} the whole stream of "
        f"{show(float(found.stream[row]), 'mass flow')} at {show(needed, 'pressure')} (band "
        f"{show(band, 'pressure')}) at {show(float(run.time[row]), 'time', 'min')}; the regulator "
        f"is set to {show(held, 'pressure')}, {show(abs(needed - held), 'pressure')} "
        f"{'more' if held >= needed else 'less'}: "
        + (
            "little or nothing is left for it to hold that with"
            if verdict.possible
            else "its line is dry and it holds nothing"
        ),
        found=bar(needed),
        limit=bar(held),
        band=bar(band),
        when=When(spans[0][0], spans[-1][1]) if spans else None,
        possible=verdict.possible,
        remedy="take a narrower or a longer restrictor, or an active splitter",
        candidates=_candidates(case, at, found.bore, found.length),
        also=(settings_at(case),),
        cautions=("pressure",),
    )


def _candidates(case: RunCase, at: str, bore: float, length: float) -> list[Candidate]:
    narrower = [show(one, "length", "um") for one in _USUAL_BORES if one < 0.99 * bore]
    longer = [show(one * length, "length", "m") for one in _LONGER]
    return [
        case.candidate(
            f"replace the restrictor by one of {text} bore",
            case.change(f"{at}.bore", text),
            way="bore",
        )
        for text in narrower
    ] + [
        case.candidate(
            f"replace the restrictor by one {text} long",
            case.change(f"{at}.length", text),
            way="length",
        )
        for text in longer
    ]
