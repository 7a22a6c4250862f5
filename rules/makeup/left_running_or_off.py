"""Makeup never runs into a source without gas, and CO2 never into a hot source without makeup.

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

Put right
    Switch the makeup off with the source, and CO2 off before the makeup.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.for_rules import BatchCase, Finding, When, uses_mass_spectrometer

SUBJECT = "batch"
CLASSES = ("stop",)
NEEDS = ("sequence.lines",)

_RESTS = ("idle method", "standby")


def applies(case: BatchCase) -> bool:
    """One of the methods sprays makeup into a source."""
    return any(
        run.method is not None and run.method.makeup and uses_mass_spectrometer(run.method)
        for run in case.runs.values()
    )


def judge(case: BatchCase) -> Iterator[Finding]:
    """Carry the states of makeup, CO2 and source from line to line."""
    sequence = case.sequence
    assert sequence is not None
    makeup, co2, source = "on", "on", "on"
    last = len(sequence.lines) - 1
    for index, line in enumerate(sequence.lines):
        run = case.runs.get(line.method or sequence.method or "")
        method = run.method if run is not None else None
        sprays = method is not None and uses_mass_spectrometer(method)
        has_makeup = method is not None and method.makeup is not None
        if line.kind not in ("shutdown", "idle"):
            makeup, co2, source = ("on" if has_makeup else "off"), "on", "on"
        makeup, co2 = line.makeup or makeup, line.co2 or co2
        source = line.source or source
        key = ""
        if not sprays:
            continue
        if makeup == "on" and source == "off":
            if index == last and sequence.after in _RESTS:
                continue
            key, said = "makeup", "makeup runs on into a source that is off"
        elif makeup == "off" and co2 == "on" and source == "on" and has_makeup:
            key, said = "makeup", "CO2 goes into the hot source while the makeup is off"
        if not key:
            continue
        value = "off" if source == "off" else "on"
        yield case.finding(
            case.line_at(index, key if getattr(line, key) is not None else ""),
            "stop",
            f"line {index + 1} ({line.kind}): {said}",
            when=When(injection=max(_injections(case, index), 1)),
            remedy=f"switch the makeup {value} on this line",
            candidates=[
                case.candidate(
                    f"switch the makeup {value} on this line",
                    case.change(case.line_at(index, key), value),
                )
            ],
        )
        return


def _injections(case: BatchCase, index: int) -> int:
    """Number of the last injection up to a line."""
    return max((line.last_injection for line in case.batch.lines[: index + 1]), default=0)
