"""Remedies on one screen: none deepens another finding, no two contradict each other."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from methodlint.judging.finding import Finding, Measure
from methodlint.judging.loader import Rule
from tests.fault_injection.remedied import screen
from tests.judging.test_engine import judged, rule
from tests.judging.test_every_remedy import flawed_lab
from tests.judging.test_remedies_applied import FLAWED
from tests.scenarios.show import HERE, sound_lab
from tests.text_labs import base_lab


def _flow(case: Any) -> float:
    return float(case.get("method.flow").si * 6e7)


def _wants(name: str, grade: str, lower: float, upper: float, *tried: str, **more: Any) -> Rule:
    """A rule that wants a flow between two limits in mL/min, and the flows that it offers."""

    def say(case: Any) -> Iterator[Finding]:
        if not lower <= _flow(case) <= upper:
            changes = [case.candidate(f"set {v}", case.change("method.flow", v)) for v in tried]
            figures = {"found": Measure(100 * _flow(case), "bar"), **more} if more else {}
            yield case.finding("method.flow", grade, "not so", candidates=changes, **figures)

    return rule(name, say)


def _remedies(*rules: Rule) -> dict[str, str]:
    found = judged("kind: method\nflow: 1.5 mL/min\n", *rules).findings
    return {finding.rule: finding.remedy for finding in found}


def test_a_caution_does_not_raise_the_pressure_of_a_stop() -> None:
    stop = _wants("made.rating", "stop", 0.0, 1.0, limit=Measure(100.0, "bar"))
    slow = _wants("made.slow", "caution", 2.0, 9.0, "2.5 mL/min")
    assert "no single change" in _remedies(stop, slow)["made.slow"]


def test_a_caution_may_lower_the_pressure_of_a_stop() -> None:
    stop = _wants("made.rating", "stop", 0.0, 1.0, limit=Measure(100.0, "bar"))
    fast = _wants("made.fast", "caution", 0.0, 1.3, "1.2 mL/min")
    assert _remedies(stop, fast)["made.fast"] == "set 1.2 mL/min"


def test_a_possible_stop_is_deepened_towards_its_limit() -> None:
    stop = _wants("made.rating", "stop", 0.0, 1.0, limit=Measure(300.0, "bar"), possible=True)
    slow = _wants("made.slow", "caution", 2.0, 9.0, "2.5 mL/min")
    assert "no single change" in _remedies(stop, slow)["made.slow"]


def test_a_change_that_resolves_both_is_offered_for_both() -> None:
    stop = _wants("made.rating", "stop", 0.0, 1.3, "1.2 mL/min", "0.8 mL/min")
    fast = _wants("made.fast", "caution", 0.0, 1.0, "0.8 mL/min")
    assert _remedies(stop, fast) == {
        "made.rating": "set 0.8 mL/min",
        "made.fast": "set 0.8 mL/min",
    }


def test_the_milder_of_two_that_contradict_waits() -> None:
    stop = _wants("made.rating", "stop", 0.0, 1.0, "0.8 mL/min")
    slow = _wants("made.slow", "caution", 2.0, 9.0, "2.5 mL/min")
    said = _remedies(stop, slow)
    assert said["made.rating"] == "set 0.8 mL/min"
    assert said["made.slow"].startswith("correct made.rating first")


def test_remedies_of_other_settings_stand_side_by_side() -> None:
    stop = _wants("made.rating", "stop", 0.0, 1.0, "0.8 mL/min")

    def hot(case: Any) -> Iterator[Finding]:
        if case.get("method.oven_temperature").si > 300.0:
            cool = case.candidate("cool", case.change("method.oven_temperature", "20 degC"))
            yield case.finding("method.oven_temperature", "caution", "hot", candidates=[cool])

    assert _remedies(stop, rule("made.hot", hot)) == {
        "made.rating": "set 0.8 mL/min",
        "made.hot": "cool",
    }


def test_a_method_is_not_remedied_at_the_cost_of_a_flush() -> None:
    """At 100 bar instead of 85 the pumps stop in the flush that keeps the method's pressure.

    Ethanol and CO2 have two phases below 81 bar at 45 degC; the pumps stop at 260 bar.
    """
    lab = sound_lab(HERE / "lines").changed("method.oven_temperature", "45 degC")
    lab = lab.changed("method.outlet_pressure", "85 bar")
    lab = lab.changed("method.pressure_limits.low", "90 bar")
    flush = {"kind": "flush", "liquid": "ethanol", "co2": "off", "duration": "15 min"}
    said = {}
    for flow in ("2 mL/min", "2.4 mL/min"):
        lines = lab.plain("sequence/morning")["lines"]
        lines[-1:-1] = [{**flush, "flow": flow}]
        [found] = [
            one
            for one in lab.changed("sequence.lines", lines).judged().findings
            if one.rule == "phase.two-phase-at-outlet"
        ]
        said[flow] = found.remedy
    assert said["2 mL/min"].startswith("set the outlet pressure to 100 bar")
    assert "which then raises pressure.high-limit-ends-line" in said["2.4 mL/min"]


def test_two_cases_of_one_card_agree() -> None:
    """A pump's head that is too warm by itself and against the cylinder's pressure."""
    lab = base_lab().changed("instrument.co2_pump.head_temperature", "21 degC")
    found = screen(lab)
    assert found.remedies > 1 and found.sound, found


@pytest.mark.parametrize("name", FLAWED)
def test_remedies_of_a_flawed_example_done_together(name: str) -> None:
    found = screen(flawed_lab(name))
    assert found.sound, found


def test_a_longer_flush_says_that_it_overruns_the_booked_slot() -> None:
    """Slower by two thirds it takes twenty minutes more, of which five are booked."""
    flush = {"kind": "flush", "liquid": "ethanol", "co2": "off", "flow": "4 mL/min"}
    lab = sound_lab(HERE / "lines")
    lines = lab.plain("sequence/morning")["lines"]
    lines[-1:-1] = [{**flush, "duration": "10 min"}]
    lab = lab.changed("sequence.lines", lines)
    roomy = lab.judged()
    minutes = round(roomy.batches[0].batch.duration / 60.0)
    tight = lab.changed("sequence.slot.length", f"{30 + minutes + 5} min").judged()
    said = [
        next(one for one in report.findings if one.rule == "pressure.column-rating-exceeded").remedy
        for report in (roomy, tight)
    ]
    assert said[0].startswith("set the flow of line 8 to")
    assert "overruns-slot" not in said[0]
    assert "sequence.overruns-slot (caution)" in said[1].partition("; that leaves ")[2]
