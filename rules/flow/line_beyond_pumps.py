"""A line's own flow and modifier share stay within what both pumps deliver.

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

Unsound, because the modifier pump delivers nothing below 0.02 mL/min
    kind: instrument
    modifier_pump: {lowest_flow: 0.02 mL/min}
    ---
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: flush, liquid: methanol, duration: 5 min, co2: "off", flow: 0.01 mL/min}  # <- here
      - {kind: shutdown, duration: 5 min, co2: "off", makeup: "off", source: "off"}

Unsound, because the modifier pump mixes up to 50 %
    kind: instrument
    modifier_pump: {highest_share: 50 % v/v}
    ---
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: flush, liquid: methanol, duration: 5 min, co2: "on", modifier_share: 80 % v/v}  # <- here
      - {kind: shutdown, duration: 5 min, co2: "off", makeup: "off", source: "off"}

Sound
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: flush, liquid: methanol, duration: 5 min, flow: 1 mL/min}
      - {kind: shutdown, duration: 5 min, co2: "off", makeup: "off", source: "off"}

Remedy
    Lower the flow of the line, and give a flush more time for the same volume; flush with the CO2
    off, or with no more modifier than the pump mixes in.

Source
    Limits: the instrument card. Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.flow import LineStream, line_streams
from methodlint.judging.ask.rule import BatchCase, Finding, NotChecked, ml_per_min, percent, show
from methodlint.judging.ask.sequence import lines_in_words

SUBJECT = "batch"
CLASSES = ("fault",)
NEEDS = ("batch", "instrument")

_TOLERANCE = 1e-9


def applies(case: BatchCase) -> bool:
    """Only a line with settings of its own differs from its method, which is judged there."""
    lines = case.sequence.lines if case.sequence else ()
    own = ("flow", "flush_volume", "modifier_share")
    return any(getattr(line, key) is not None for line in lines for key in own)


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Compare the part of each pump with its highest and its lowest flow."""
    streams = line_streams(case.batch)
    for name, card in (("CO2", "co2_pump"), ("modifier", "modifier_pump")):
        parts = [(stream.co2 if name == "CO2" else stream.modifier, stream) for stream in streams]
        delivered = [(part, stream) for part, stream in parts if part > 0.0]
        if not delivered:
            continue
        least = case.get(f"instrument.{card}.lowest_flow")
        if least is not None:
            yield from _too_slow(case, name, card, least.si, delivered)
        limit = case.get(f"instrument.{card}.highest_flow")
        if limit is None:
            yield case.not_checked("instrument", f"instrument.{card}.highest_flow")
            continue
        over = [one for one in delivered if one[0] > limit.si * (1.0 + _TOLERANCE)]
        if over:
            yield _too_fast(case, name, card, limit.si, over)
    cap = case.get("instrument.modifier_pump.highest_share")
    if cap is not None:
        yield from _too_rich(case, cap.si, streams)


def _too_slow(
    case: BatchCase, name: str, card: str, least: float, parts: list[tuple[float, LineStream]]
) -> Iterator[Finding]:
    under = [one for one in parts if one[0] < least * (1.0 - _TOLERANCE)]
    if not under:
        return
    part, stream = min(under, key=lambda one: one[0])
    yield case.finding(
        case.line_at(stream.line.index, stream.field),
        "fault",
        f"{lines_in_words([one.line for _, one in under])}: the {name} pump is asked for "
        f"{show(part, 'volume flow')} of the line's {show(stream.total, 'volume flow')}, it "
        f"delivers nothing below {show(least, 'volume flow')}: "
        f"{show(least - part, 'volume flow')} too little",
        found=ml_per_min(part),
        limit=ml_per_min(least),
        remedy="raise the flow of the line, and give a flush less time",
        also=(case.at(f"instrument.{card}.lowest_flow"),),
    )


def _too_rich(case: BatchCase, cap: float, streams: list[LineStream]) -> Iterator[Finding]:
    over = [one for one in streams if (one.mixed_share or 0.0) > cap + _TOLERANCE]
    if not over:
        return
    worst = max(over, key=lambda one: one.mixed_share or 0.0)
    share = worst.mixed_share or 0.0
    lines = lines_in_words([one.line for one in over])
    keys = [case.line_at(one.line.index, "modifier_share") for one in over]
    least = f"{show(cap, 'share')} v/v"
    text = f"set modifier_share to {least} in {lines}"
    yield case.finding(
        case.line_at(worst.line.index, "modifier_share"),
        "fault",
        f"{lines}: {show(share, 'share')} of modifier are asked for with the CO2 on, the modifier "
        f"pump mixes up to {show(cap, 'share')}: {show(share - cap, 'share')} too much",
        found=percent(share),
        limit=percent(cap),
        remedy=text,
        candidates=[case.candidate(text, *(case.change(key, least) for key in keys))],
        also=(case.at("instrument.modifier_pump.highest_share"),),
    )


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
