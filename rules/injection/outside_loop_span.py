"""The injection volume lies within the span of the loop and mode that are used.

Reason
    A part-filled loop that is filled too far loses sample over its front, a filled loop that is
    not flushed often enough keeps the liquid before, and below its least volume a sampler does
    not repeat itself.

Unsound
    kind: method
    injection: {volume: 8 uL}  # <- here

Unsound
    kind: method
    injection: {mode: filled loop, volume: 10 uL, flushes: 1}  # <- here

Sound
    kind: method
    injection: {volume: 5 uL}

Sound, because a filled loop injects the loop
    kind: method
    injection: {mode: filled loop, volume: 10 uL, flushes: 3}

Sound, because a needle in the flow has no loop to overfill
    kind: method
    injection: {mode: metered, volume: 8 uL}
    ---
    kind: instrument
    autosampler: {loop: null, flow_through_needle: true, highest_volume: 20 uL}

Remedy
    Stay within the span that the message gives, or fit the loop that it names.

Source
    Three loop volumes to fill a loop, 50 to 70 % of a loop in part-filled mode: common practice,
    no source. Least and greatest volume: the instrument card.
"""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.judging.ask.column import Injected, injected_by
from methodlint.judging.ask.rule import At, Finding, Grade, NotChecked, RunCase, microlitres, show
from methodlint.judging.ask.sequence import loop_span

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("method.injection.volume", "instrument.autosampler")

_FLUSHES = 3.0
_SAME_AS_LOOP = 0.05


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Look at every volume that the method or a line of the sequence injects."""
    span = loop_span(case.get("instrument.autosampler"), case.get("method.injection.mode"))
    for figure in span.missing:
        yield case.not_checked(figure.partition(".")[0], figure)
    if span.whole:
        yield from _flushes(case)
    groups: dict[object, list[Injected]] = {}
    for group in injected_by(case.documents):
        groups.setdefault((group.volume, group.volume_at.path[:1]), []).append(group)
    for alike in groups.values():
        volume = alike[0].volume
        if volume is None:
            continue
        at = [case.at(w.document, w.path) for group in alike for w in group.volume_places]
        if span.whole and span.highest is not None:
            if abs(volume - span.highest) > _SAME_AS_LOOP * span.highest:
                said = f"a filled loop injects its {_ul(span.highest)}, {_ul(volume)} are written"
                yield _finding(case, at, "fault", said, volume, span.highest)
        elif span.too_little(volume) and span.lowest is not None:
            said = f"{_ul(volume)} is less than the least volume {_ul(span.lowest)}"
            yield _finding(case, at, "fault", said, volume, span.lowest)
        elif span.too_much(volume) and span.highest is not None:
            soft = span.tolerated is not None and volume <= span.tolerated
            loop = span.fitting_loop(volume)
            said = (
                f"{_ul(volume)} is {_ul(volume - span.highest)} more than the "
                f"{_ul(span.highest)} that this mode allows"
            ) + (f"; a loop of {_ul(loop)} would fit" if loop is not None else "")
            yield _finding(case, at, "caution" if soft else "fault", said, volume, span.highest)


def _flushes(case: RunCase) -> Iterator[Finding | NotChecked]:
    flushes = case.get("method.injection.flushes")
    wanted = case.get("instrument.autosampler.flushes_for_full_loop") or _FLUSHES
    if flushes is None:
        yield case.not_checked("method.injection", "method.injection.flushes")
    elif flushes < wanted:
        text = f"draw {wanted:g} loop volumes"
        change = case.change("method.injection.flushes", wanted)
        yield case.finding(
            "method.injection.flushes",
            "fault",
            f"the loop is filled with {flushes:g} of its volumes, it takes {wanted:g}",
            remedy=text,
            candidates=[case.candidate(text, change)],
        )


def _finding(
    case: RunCase, places: list[At], grade: Grade, said: str, volume: float, limit: float
) -> Finding:
    changes = [case.change(at, _ul(limit)) for at in dict.fromkeys(places)]
    return case.finding(
        places[0],
        grade,
        said,
        found=microlitres(volume),
        limit=microlitres(limit),
        remedy="stay within the span of the mode",
        candidates=[case.candidate(f"inject {_ul(limit)}", *changes)],
        also=(case.at("instrument.autosampler"),),
    )


def _ul(volume: float) -> str:
    return show(volume, "volume", "uL")
