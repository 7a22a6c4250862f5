"""A sequence leaves neither makeup in a source that is off nor CO2 in a hot one without makeup.

Reason
    Makeup that goes on after the source is off fills the source with liquid. CO2 without makeup
    into a heated source dries out what the mobile phase carries and bakes it in.

Unsound
    kind: method
    detectors: [{type: MS, source: ESI, polarity: positive}]
    makeup: {liquid: methanol, line: makeup, flow: 0.2 mL/min, tee: after the regulator}
    ---
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: shutdown, duration: 5 min, co2: "off", makeup: "on", source: "off"}  # <- here

Sound
    kind: method
    detectors: [{type: MS, source: ESI, polarity: positive}]
    makeup: {liquid: methanol, line: makeup, flow: 0.2 mL/min, tee: after the regulator}
    ---
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: shutdown, duration: 5 min, co2: "off", makeup: "off", source: "off"}

Remedy
    Switch the makeup off with the source, and CO2 off before the makeup. What happens on the way
    there is judged with the order of starting and stopping.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.detector import uses_mass_spectrometer
from methodlint.judging.ask.rule import BatchCase, Finding, When

SUBJECT = "batch"
CLASSES = ("stop",)
NEEDS = ("sequence.lines",)

_RESTS = ("idle method", "standby", "next booking")


def applies(case: BatchCase) -> bool:
    """One of the methods sprays makeup into a source."""
    return any(
        run.method is not None and run.method.makeup and uses_mass_spectrometer(run.method)
        for run in case.runs.values()
    )


def judge(case: BatchCase) -> Iterator[Finding]:
    """Carry the states of makeup, CO2 and source to the end of the last line."""
    sequence = case.sequence
    assert sequence is not None
    if not sequence.lines or sequence.after in _RESTS:
        return
    makeup = co2 = source = "off"
    for line in sequence.lines:
        run = case.runs.get(line.method or sequence.method or "")
        method = run.method if run is not None else None
        if line.kind not in ("shutdown", "idle") and method is not None:
            makeup = "on" if method.makeup is not None else "off"
            co2, source = "on", "on" if uses_mass_spectrometer(method) else "off"
        makeup, co2 = line.makeup or makeup, line.co2 or co2
        source = line.source or source
    last = len(sequence.lines) - 1
    if makeup == "on" and source == "off":
        said, value = "makeup runs on into a source that is off", "off"
    elif makeup == "off" and co2 == "on" and source == "on":
        said, value = "CO2 goes into the hot source while the makeup is off", "on"
    else:
        return
    written = sequence.lines[last].makeup is not None
    text = f"switch the makeup {value} on this line"
    yield case.finding(
        case.line_at(last, "makeup" if written else ""),
        "stop",
        f"after the last line ({sequence.lines[last].kind}) {said}",
        when=When(injection=case.batch.injections or None),
        remedy=text,
        candidates=[case.candidate(text, case.change(case.line_at(last, "makeup"), value))],
        also=(case.line_at(last),) if written else (),
    )
