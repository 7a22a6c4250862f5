"""What has to follow the last injection: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged
from tests.rules.sequence.lines import line, samples, sequence

RULE = "sequence.no-shutdown"


@pytest.mark.parametrize("kind", ["shutdown", "idle"])
def test_silent_with_a_closing_line(kind: str) -> None:
    assert findings(sequence(samples(1), line(kind, duration="5 min"), after=None), RULE) == []


@pytest.mark.parametrize("after", ["shutdown", "idle method", "standby", "next booking"])
def test_silent_when_something_is_said_to_follow(after: str) -> None:
    assert findings(sequence(samples(1), after=after), RULE) == []


def test_silent_for_an_open_access_queue() -> None:
    assert findings(sequence(samples(1), after=None, continuous=True), RULE) == []


def test_a_caution_while_somebody_is_there() -> None:
    (found,) = findings(sequence(samples(1), after=None), RULE)
    assert found.grade == "caution"


def test_a_fault_when_nobody_is_there_at_the_end() -> None:
    text = sequence(samples(1), after=None, begins="2026-11-24T19:00")
    (found,) = findings(text, RULE)
    assert found.grade == "fault"
    # 10 min of equilibration, 11 min of run and settling, 0.7 min of overhead.
    assert "ends at 2026-11-24 19:21, when nobody is in the room" in found.message


@pytest.mark.parametrize(("hours", "grade"), [(8, "caution"), (13, "fault")])
def test_only_the_hours_in_which_it_ends_count(hours: int, grade: str) -> None:
    """From 06:00 to 08:00 nobody is there, from 08:00 to 18:00 somebody is."""
    flush = line("flush", duration=f"{hours} h")
    text = sequence(samples(1), flush, after=None, begins="2026-11-24T06:00")
    (found,) = findings(text, RULE)
    assert found.grade == grade


def test_a_caution_where_the_staffed_hours_are_not_known() -> None:
    room = "kind: room\nstaffed: null\n---\n"
    text = sequence(samples(1), after=None, begins="2026-11-24T19:00")
    assert findings(room + text, RULE)[0].grade == "caution"


def test_a_shutdown_that_leaves_the_co2_on() -> None:
    text = sequence(samples(1), line("shutdown", duration="5 min", co2="on"), after=None)
    (found,) = judged(text, RULE).findings
    assert "leaves the CO2 on" in found.message
    assert found.remedy == 'write co2: "off" in the last line'


def test_the_added_line_clears_it() -> None:
    (found,) = judged(sequence(samples(1), after=None), RULE).findings
    assert found.remedy.startswith("add a shutdown line of 5 min")
