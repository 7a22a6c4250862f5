"""Makeup flows before CO2 enters a source and until after the CO2 is off.

Reason
    CO2 without liquid cools and dries the source, and what the column gives off is left in the
    capillary. At the end the makeup goes on until the CO2 has gone.

Unsound
    kind: method
    makeup: {line: makeup, flow: 0.2 mL/min, tee: after the regulator}
    detectors: [{type: MS, source: ESI}]
    ---
    kind: sequence
    lines:
      - {kind: equilibration, duration: 10 min, co2: "on", makeup: "off"}  # <- here
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: shutdown, duration: 5 min, co2: "off", makeup: "off", source: "off"}

Sound
    kind: method
    makeup: {line: makeup, flow: 0.2 mL/min, tee: after the regulator}
    detectors: [{type: MS, source: ESI}]
    ---
    kind: sequence
    lines:
      - {kind: equilibration, duration: 10 min, co2: "on", makeup: "on"}
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: shutdown, duration: 5 min, co2: "off", makeup: "on"}
      - {kind: shutdown, duration: 2 min, co2: "off", makeup: "off", source: "off"}

Remedy
    Start the makeup first and stop it last, or lead the flow away from the source meanwhile
    (`source: "off"`).

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding
from methodlint.judging.ask.sequence import LineRun, co2_flows, lines_in_words

SUBJECT = "batch"
CLASSES = ("fault",)
NEEDS = (
    "sequence.lines",
    "sequence.lines[].makeup",
    "sequence.lines[].co2",
    "sequence.lines[].source",
)


def applies(case: BatchCase) -> bool:
    """Only a method that sends makeup into a source raises the question."""
    return any(
        run.method is not None
        and run.method.makeup is not None
        and any(detector.type == "MS" for detector in run.method.detectors)
        for run in case.runs.values()
    )


def judge(case: BatchCase) -> Iterator[Finding]:
    """Follow CO2, makeup and source from line to line; the state at the end is judged elsewhere."""
    dry: list[LineRun] = []
    makeup = source = None
    for line in case.batch.lines[:-1]:
        written = line.line
        if line.injects:
            makeup = written.makeup or ("on" if makeup == "off" else makeup)
        else:
            makeup = written.makeup or makeup
        source = written.source or ("on" if line.injects else source)
        flows = written.co2 != "off" if line.injects else co2_flows(written) is not False
        if makeup == "off" and flows and source != "off":
            dry.append(line)
    if not dry:
        return
    yield case.finding(
        case.line_at(dry[0].index),
        "fault",
        f"{lines_in_words(dry)}: CO2 flows into the source while the makeup is off",
        remedy='start the makeup first and stop it last, or write source: "off" in the line',
    )
