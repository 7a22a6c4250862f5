"""Every part of the flow train withstands the pressure at its own place.

Reason
    The parts upstream of the column see nearly the pressure of the pumps, the parts downstream of it
    that of the regulator. A 350 bar injection valve in a 550 bar pumping system is the classic.
    Column and detector cell have rules of their own.

Unsound
    kind: instrument
    train:
      - {part: mixer, name: mixer, volume: 0.2 mL, pressure_rating: 550 bar}
      - {part: injector, name: injection valve, volume: 10 uL, pressure_rating: 250 bar}  # <- here
      - {part: column}
      - {part: regulator, name: regulator, pressure_rating: 380 bar}

Unsound, because a polymer tube ahead of the regulator is rated to less than its pressure
    kind: instrument
    train:
      - {part: mixer, name: mixer, volume: 0.2 mL, pressure_rating: 550 bar}
      - {part: column}
      - {part: tube, name: column to regulator, length: 0.4 m, bore: 0.25 mm, pressure_rating: 50 bar}  # <- here
      - {part: regulator, name: regulator, pressure_rating: 380 bar}

Sound
    kind: instrument
    train:
      - {part: mixer, name: mixer, volume: 0.2 mL, pressure_rating: 550 bar}
      - {part: injector, name: injection valve, volume: 10 uL, pressure_rating: 550 bar}
      - {part: column}
      - {part: regulator, name: regulator, pressure_rating: 380 bar}

Sound, because the weak valve is bypassed
    kind: instrument
    train:
      - {part: mixer, name: mixer, volume: 0.2 mL, pressure_rating: 550 bar}
      - {part: valve, name: selector, volume: 5 uL, pressure_rating: 200 bar, bypassed: true}
      - {part: injector, name: injection valve, volume: 10 uL, pressure_rating: 550 bar}
      - {part: column}
      - {part: regulator, name: regulator, pressure_rating: 380 bar}

Remedy
    Lower the flow or the outlet pressure, or fit a part with a higher rating.

Source
    Limits: the instrument card. Caution above 0.9 of a rating: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.pressure import (
    Excess,
    PartPressure,
    cut_off_protects,
    lower_outlet,
    part_pressures,
    slower,
    tubes_of_unknown_loss,
    worst_against,
)
from methodlint.judging.ask.rule import At, Finding, NotChecked, RunCase, bar, path_text, show

SUBJECT = "run"
LINES = True
CLASSES = ("stop", "caution")
NEEDS = ("run",)
CAUSES = ("pressure.pump-envelope-exceeded", "pressure.high-limit-ends-line")

_OWN_RULES = ("cell", "column")


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Find the part that is nearest to its rating, and name the others that are too near."""
    over: list[tuple[Excess, PartPressure]] = []
    unrated: list[PartPressure] = []
    for part in case.run.ask(part_pressures):
        if part.kind in _OWN_RULES:
            continue
        if part.rating is None:
            unrated.append(part)
            continue
        protected = part.protected or cut_off_protects(case, part.rating)
        worst = worst_against(case.run, part.pressure, part.rating, "stop", protected=protected)
        if worst is not None:
            over.append((worst, part))
    if unrated:
        names = ", ".join(part.name for part in unrated)
        where = f"instrument.{path_text(unrated[0].path)}"
        yield case.not_checked("instrument.train", where, f"no rating is given for: {names}")
    yield from _tubes(case)
    if over:
        yield _weakest(case, over)


def _tubes(case: RunCase) -> Iterator[NotChecked]:
    """Every pressure upstream of a tube of unknown loss is higher than computed."""
    assert case.instrument is not None
    tubes = tubes_of_unknown_loss(case.instrument)
    if tubes:
        index, _, key = tubes[0]
        names = ", ".join(name for _, name, _ in tubes)
        reason = f"the loss of pressure in {names} is not counted"
        yield case.not_checked("instrument.train", f"instrument.train[{index}].{key}", reason)


def _weakest(case: RunCase, over: list[tuple[Excess, PartPressure]]) -> Finding:
    ranks = {"stop": 0, "caution": 1}
    over.sort(key=lambda one: (ranks.get(one[0].verdict.grade, 2), -one[0].value / one[0].limit))
    worst, part = over[0]
    index = part.path[1]
    others = ", ".join(
        f"{one.name} ({excess.margin()})" for excess, one in over[1:] if one is not part
    )
    return case.finding(
        At(part.document, part.path),
        worst.verdict.grade,
        f"the {part.name} (part {int(index) + 1} of the train) {worst.words(case.run)}, rated "
        f"{show(worst.limit, 'pressure')}: {worst.margin()}" + (f"; also {others}" * bool(others)),
        found=bar(worst.value),
        limit=bar(worst.limit),
        band=bar(worst.band),
        band_below=bar(worst.below),
        when=worst.when,
        possible=worst.verdict.possible,
        first=worst.measure_first(case.run),
        remedy="lower the flow or the outlet pressure, or fit a part with a higher rating",
        candidates=slower(case, worst.when) + lower_outlet(case),
        also=(case.at("method.flow"),),
        cautions=("pressure",),
    )
