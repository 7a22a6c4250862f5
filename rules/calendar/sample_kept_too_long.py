"""A sample that stays on the tray for a later sequence is still stable then.

Reason
    A vial that was prepared for one night and is injected again in the next has aged in between. A
    later sequence that does not say when it was prepared hides that.

Unsound
    kind: sequence
    x-name: second
    begins: 2026-11-27T10:00
    slot: null
    prepared: null
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}  # <- here

Sound
    kind: sequence
    x-name: second
    begins: 2026-11-27T10:00
    slot: null
    prepared: 2026-11-27T08:00
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}

Remedy
    Prepare the sample anew and write `prepared:` in the later sequence, or inject it earlier.

Source
    The stability that the sequences state. A sample of the same name at the same place within one
    week is taken for the same vial: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.calendar import WEEK, CalendarCase, TraySample, clock_text
from methodlint.judging.ask.rule import Finding, Measure, counted, show, visible

SUBJECT = "calendar"
CLASSES = ("caution",)
NEEDS = ()


def judge(case: CalendarCase) -> Iterator[Finding]:
    """Look for the preparation of its samples in the sequences before it."""
    own = case.booking
    late: list[tuple[float, float, TraySample, str]] = []
    known: dict[tuple[str, tuple[str, str] | None], tuple[TraySample, str]] = {}
    for other in case.calendar.earlier("instrument", own):
        if own.begins is not None and other.begins is not None and own.begins - other.begins < WEEK:
            for sample in other.samples:
                if sample.prepared is not None:
                    known[sample.name, sample.position] = sample, other.name
    for sample in own.samples:
        first = known.get((sample.name, sample.position)) if sample.prepared is None else None
        moment = own.at(sample.injected)
        if first is None or first[0].prepared is None or moment is None:
            continue
        keeps = sample.stability if sample.stability is not None else first[0].stability
        waited = (moment - first[0].prepared).total_seconds()
        if keeps is not None and waited > keeps:
            late.append((waited, keeps, sample, first[1]))
    if not late:
        return
    waited, keeps, sample, name = late[0]
    yield case.finding(
        case.at(case.documents["sequence"], ("lines", sample.index)),
        "caution",
        f"'{visible(sample.name)}' in line {sample.index + 1} was prepared for {visible(name)} and is "
        f"injected {show(waited, 'time', 'h')} later ({clock_text(own.at(sample.injected))}); it is "
        f"stable for {show(keeps, 'time', 'h')}; late are {counted(len(late), 'line')}",
        found=Measure(waited / 3600.0, "h"),
        limit=Measure(keeps / 3600.0, "h"),
        remedy="prepare it anew and write prepared: in this sequence",
        also=(case.at("sequence.begins"),),
    )
