"""The needle wash dissolves the analytes, suffices for the span of levels and suits the diluent.

Reason
    What the needle brings from the highest level into the lowest is carryover. A wash that does
    not dissolve the analytes moves nothing, and a strong one that stays in the loop is injected
    with the next sample. Whether wash and diluent mix at all is judged by
    `solvent.pair-not-miscible`.

Unsound
    kind: solvents
    bottles:
      - {line: modifier-1, liquid: methanol}
      - {line: needle-wash, liquid: methanol, enters_flow: true}  # <- here

Sound
    kind: solvents
    bottles:
      - {line: strong-wash, liquid: methanol, enters_flow: true}
      - {line: weak-wash, liquid: 2-propanol, enters_flow: true}

Sound, because an outside wash never enters the loop
    kind: solvents
    bottles:
      - {line: needle-wash, liquid: methanol, enters_flow: false}

Remedy
    Wash in two steps: first with what dissolves the analytes, then with the diluent or weaker.

Source
    Three needle volumes where the calibration spans more than a factor of 1000; which class of
    analyte which liquid dissolves; order of washes, and 0.5 on the scale of eluting strength
    as what counts as stronger: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.judging.ask.column import Injected, injected_by, liquid_strength
from methodlint.judging.ask.liquids import (
    Wash,
    calibration_span,
    dissolves,
    salts_thrown_out,
    washes_of,
)
from methodlint.judging.ask.rule import At, Finding, Measure, NotChecked, RunCase, microlitres, show

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("solvents", "sequence.lines")

_WIDE = 1000.0
_NEEDLES = 3.0
_STRONGER = 0.5
_USUAL = ("2-propanol", "methanol", "acetonitrile", "ethyl acetate", "n-heptane")


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Look at the washes one after the other."""
    washes = washes_of(case.documents)
    yield from _amount(case, washes)
    if not washes:
        return
    analytes = case.get("method.analytes")
    bottles = [case.at(case.documents["solvents"], ("bottles", wash.index)) for wash in washes]
    if analytes is None:
        yield case.not_checked("method", "method.analytes")
    elif not any(dissolves(wash.components, analytes) for wash in washes):
        yield case.finding(
            bottles[0],
            "caution",
            f"none of the washes ({', '.join(wash.words for wash in washes)}) dissolves {analytes}",
            remedy=f"wash first with a liquid that dissolves {analytes}",
            candidates=[
                case.candidate(
                    f"fill {name} as the first wash", case.change(_liquid_of(bottles[0]), name)
                )
                for name in _USUAL
                if not washes[0].components[1:] and dissolves(((name, 1.0),), analytes)
            ],
        )
    groups = [group for group in injected_by(case.documents) if group.diluent is not None]
    for out in salts_thrown_out(case.documents, washes, groups):
        yield case.finding(
            case.at(case.documents["solvents"], ("bottles", out.wash.index)),
            "fault",
            f"{out.salt} of the {out.words} falls out in the wash {out.wash.words}",
            remedy="wash with the same liquid without salt first",
            also=(case.at(out.document, out.path),),
        )
    if washes[-1].enters is None:
        yield case.not_checked(bottles[-1], "instrument.autosampler.wash_enters_loop")
    elif washes[-1].enters:
        yield from _last(case, washes[-1], groups)


def _liquid_of(bottle: At) -> At:
    return At(bottle.document, (*bottle.path, "liquid"))


def _amount(case: RunCase, washes: list[Wash]) -> Iterator[Finding | NotChecked]:
    span = calibration_span(case.documents)
    if span is None or span <= _WIDE:
        return
    levels = f"the calibration spans a factor of {span:.0f}"
    if not washes:
        message = f"{levels} and no bottle is a needle wash"
        yield case.finding("solvents.bottles", "caution", message, remedy="set out a needle wash")
        return
    figures = [f"instrument.autosampler.{name}" for name in ("wash_volume", "needle_volume")]
    lacking = [figure for figure in figures if case.get(figure) is None]
    for figure in lacking:
        yield case.not_checked("sequence", figure, levels)
    if lacking:
        return
    wash = case.get("instrument.autosampler.wash_volume").si
    wanted = _NEEDLES * case.get("instrument.autosampler.needle_volume").si
    if wash < wanted * (1.0 - 1e-9):
        text = show(wanted, "volume", "uL")
        change = case.change("instrument.autosampler.wash_volume", text)
        yield case.finding(
            "instrument.autosampler.wash_volume",
            "caution",
            f"{levels}, {show(wash, 'volume', 'uL')} of wash are less than three needle volumes, {text}",
            found=microlitres(wash),
            limit=microlitres(wanted),
            remedy=f"wash with {text}",
            candidates=[case.candidate(f"wash with {text}", change)],
        )


def _last(case: RunCase, wash: Wash, groups: list[Injected]) -> Iterator[Finding]:
    own = liquid_strength(wash.components)
    known = [(s, g) for g in groups if (s := liquid_strength(g.components)) is not None]
    if own is None or not known:
        return
    weakest, group = min(known, key=lambda pair: pair[0])
    if own - weakest < _STRONGER:
        return
    at = case.at(case.documents["solvents"], ("bottles", wash.index))
    yield case.finding(
        at,
        "caution",
        f"the last wash {wash.words} stays in the loop and elutes better than the diluent "
        f"{group.words}",
        found=Measure(own),
        limit=Measure(weakest),
        remedy=f"wash first with {wash.words}, then with {group.words} or weaker",
        also=(case.at(group.diluent_at.document, group.diluent_at.path),),
    )
