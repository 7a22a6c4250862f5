"""A line that injects runs as its method is written; a setting of its own would not be seen.

Reason
    Share, regulator, liquid and the column in line belong to the method of an injection, and are
    judged there. Written into the line they are not run, or run without having been judged.

Unsound
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL, modifier_share: 60 % v/v}  # <- here
      - {kind: shutdown, duration: 5 min, co2: "off", makeup: "off", source: "off"}

Unsound, because the method has a flow for each of its rows
    kind: method
    programme:
      - {time: 0 min, modifier_share: 5 % v/v, flow: 1.5 mL/min}
      - {time: 4 min, modifier_share: 20 % v/v, flow: 1.2 mL/min}
    ---
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL, flow: 1 mL/min}  # <- here
      - {kind: shutdown, duration: 5 min, co2: "off", makeup: "off", source: "off"}

Sound
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: flush, liquid: methanol, duration: 5 min, modifier_share: 40 % v/v, co2: "on"}
      - {kind: shutdown, duration: 5 min, co2: "off", makeup: "off", source: "off"}

Remedy
    Write a method with this setting and name it in the line; what only conditions the column is a
    flush or an equilibration.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding
from methodlint.judging.ask.sequence import LineRun

SUBJECT = "batch"
CLASSES = ("fault",)
NEEDS = ("sequence.lines",)

_OF_THE_METHOD = (
    "modifier_share",
    "outlet_pressure",
    "column_bypassed",
    "liquid",
    "flush_volume",
    "regulator_released",
)


def judge(case: BatchCase) -> Iterator[Finding]:
    """Report each line that injects and sets what its method sets."""
    for line in case.batch.lines:
        if not line.injects:
            continue
        keys = [key for key in _OF_THE_METHOD if getattr(line.line, key)]
        if line.line.flow is not None and _flow_is_programmed(case, line):
            keys.append("flow")
        if keys:
            yield case.finding(
                case.line_at(line.index, keys[0]),
                "fault",
                f"line {line.index + 1} injects ({line.line.kind}) and sets "
                f"{' and '.join(keys)}: an injection runs as its method is written, so that this "
                "is neither run nor judged",
                remedy="write a method with this setting and name it in the line, or make the "
                "line a flush or an equilibration",
            )


def _flow_is_programmed(case: BatchCase, line: LineRun) -> bool:
    method = case.batch.methods.get(line.method)
    rows = method.model.programme or () if method is not None else ()
    return len({row.flow.si for row in rows if row.flow is not None}) > 1
