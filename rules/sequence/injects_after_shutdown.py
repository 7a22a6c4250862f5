"""Nothing is injected without flow: after a shutdown it is started again first.

Reason
    A shutdown in the middle of the lines stops the CO2 or releases the regulator. The injection
    that follows meets a column that is not under pressure, and the pumps start against it.

Unsound
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: shutdown, duration: 10 min, co2: "off", regulator_released: true}
      - {kind: sample, sample: extract 2, plate: 1, well: D2, fill: 1 mL}  # <- here
      - {kind: shutdown, duration: 10 min, co2: "off", regulator_released: true}

Unsound, because the CO2 is off
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL, co2: "off"}  # <- here
      - {kind: shutdown, duration: 10 min, co2: "off", regulator_released: true}

Sound
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: shutdown, duration: 10 min, co2: "off", regulator_released: true}
      - {kind: equilibration, duration: 15 min, co2: "on", regulator_released: false}
      - {kind: sample, sample: extract 2, plate: 1, well: D2, fill: 1 mL}
      - {kind: shutdown, duration: 10 min, co2: "off", regulator_released: true}

Remedy
    Move the shutdown to the end, or start the flow again with an equilibration before the next
    injection.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding
from methodlint.judging.ask.sequence import LineRun

SUBJECT = "batch"
CLASSES = ("fault",)
NEEDS = ("sequence.lines", "sequence.lines[].co2", "sequence.lines[].regulator_released")


def judge(case: BatchCase) -> Iterator[Finding]:
    """Follow the state of the bench from line to line."""
    stopped: LineRun | None = None
    for line in case.batch.lines:
        written = line.line
        still = written.flow is not None and written.flow.si == 0.0
        if line.injects and (written.co2 == "off" or still):
            yield case.finding(
                case.line_at(line.index, "co2" if written.co2 == "off" else "flow"),
                "fault",
                f"line {line.index + 1} injects {'with the CO2 off' if written.co2 == 'off' else 'without any flow'}",
                remedy="take the key out of the line: an injection runs at its method's flow",
            )
        if line.injects and stopped is not None:
            what = "releases the regulator" if stopped.line.regulator_released else "stops the flow"
            yield case.finding(
                case.line_at(line.index),
                "fault",
                f"line {line.index + 1} injects after line {stopped.index + 1}, which {what}, and "
                "no line between starts the flow again",
                remedy="move the shutdown to the end, or add an equilibration before this line",
                also=(case.line_at(stopped.index),),
            )
            stopped = None
        elif written.kind == "shutdown" or written.regulator_released:
            stopped = line
        elif written.kind in ("equilibration", "flush") and written.co2 != "off":
            stopped = None
