"""A line's own flow stays within what both pumps deliver.

Reason
    A flush, an equilibration or a sample with a flow of its own is set at the same pumps as the
    method. A pump that cannot follow delivers less, or stops the sequence with an alarm in the
    middle of the night.

Unsound
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: flush, liquid: methanol, duration: 5 min, flow: 50 mL/min}  # <- here
      - {kind: shutdown, duration: 5 min, co2: "off", makeup: "off", source: "off"}

Sound
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: flush, liquid: methanol, duration: 5 min, flow: 1 mL/min}
      - {kind: shutdown, duration: 5 min, co2: "off", makeup: "off", source: "off"}

Remedy
    Lower the flow of the line, and give a flush more time for the same volume.

Source
    Limit: the instrument card. Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.flow import LineStream, line_streams
from methodlint.judging.ask.rule import BatchCase, Finding, NotChecked, ml_per_min, show
from methodlint.judging.ask.sequence import lines_in_words

SUBJECT = "batch"
CLASSES = ("fault",)
NEEDS = ("batch", "instrument")

_TOLERANCE = 1e-9


def applies(case: BatchCase) -> bool:
    """Only a line with a flow of its own differs from its method, whose flow is judged there."""
    lines = case.sequence.lines if case.sequence else ()
    return any(line.flow is not None or line.flush_volume is not None for line in lines)


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Compare the part of each pump with its highest flow."""
    streams = line_streams(case.batch)
    for name, card in (("CO2", "co2_pump"), ("modifier", "modifier_pump")):
        parts = [(stream.co2 if name == "CO2" else stream.modifier, stream) for stream in streams]
        delivered = [(part, stream) for part, stream in parts if part > 0.0]
        if not delivered:
            continue
        limit = case.get(f"instrument.{card}.highest_flow")
        if limit is None:
            yield case.not_checked("instrument", f"instrument.{card}.highest_flow")
            continue
        over = [one for one in delivered if one[0] > limit.si * (1.0 + _TOLERANCE)]
        if over:
            yield _too_fast(case, name, card, limit.si, over)


def _too_fast(
    case: BatchCase, name: str, card: str, limit: float, over: list[tuple[float, LineStream]]
) -> Finding:
    part, stream = max(over, key=lambda one: one[0])
    lines = lines_in_words([one.line for _, one in over])
    return case.finding(
        case.line_at(stream.line.index, stream.field),
        "fault",
        f"{lines}: the {name} pump is asked for {show(part, 'volume flow')} of the line's "
        f"{show(stream.total, 'volume flow')}, it reaches {show(limit, 'volume flow')}: "
        f"{show(part - limit, 'volume flow')} too much",
        found=ml_per_min(part),
        limit=ml_per_min(limit),
        remedy="lower the flow of the line, and give a flush more time",
        also=(case.at(f"instrument.{card}.highest_flow"),),
    )
