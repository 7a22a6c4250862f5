"""Makeup before CO2 enters a source, and after it at the end: common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings
from tests.rules.sequence.lines import line, samples, sequence

RULE = "sequence.start-stop-order"
METHOD = (
    "kind: method\nmakeup: {line: makeup, flow: 0.2 mL/min, tee: after the regulator}\n"
    "detectors: [{type: MS, source: ESI}]\n---\n"
)
END = line("shutdown", duration="2 min", co2="off", makeup="off", source="off")


def test_silent_in_the_right_order() -> None:
    start = line("equilibration", duration="5 min", co2="on", makeup="on")
    stop = line("shutdown", duration="5 min", co2="off", makeup="on")
    assert findings(METHOD + sequence(start, samples(2), stop, END), RULE) == []


def test_silent_while_the_flow_passes_the_source_by() -> None:
    start = line("equilibration", duration="5 min", co2="on", makeup="off", source="off")
    assert findings(METHOD + sequence(start, samples(2), END), RULE) == []


def test_silent_without_a_source() -> None:
    start = line("equilibration", duration="5 min", co2="on", makeup="off")
    assert findings(sequence(start, samples(2), END), RULE) == []


def test_co2_first_at_the_start() -> None:
    start = line("equilibration", duration="5 min", co2="on", makeup="off")
    (found,) = findings(METHOD + sequence(start, samples(2), END), RULE)
    assert found.grade == "fault"
    assert found.at.path == ("lines", 0)


def test_makeup_off_first_at_the_end() -> None:
    flush = line("flush", duration="5 min", makeup="off", liquid="methanol")
    (found,) = findings(METHOD + sequence(samples(2), flush, END), RULE)
    assert "line 3: CO2 flows into the source while the makeup is off" in found.message
