"""Who is there on which day: weekdays and holidays against the clock of a sequence.

24 November 2026 is a Tuesday, 28 November a Saturday, 25 December a Friday (any calendar).
"""

from __future__ import annotations

from typing import Any

import pytest

from methodlint.checking.report import Report
from methodlint.reports.card.contents import card_blocks
from tests.text_labs import REMOVED, TextLab, base_lab, everything, reported

RULE = "safety.unattended-without-trips"
OFF = {"low_pressure_stop": False, "leak_sensor": False, "co2_alarm_interlock": False,
       "waste_level": False}  # fmt: skip
HOURS = {"begins": "08:00", "ends": "18:00"}
WORKING = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday"]
SATURDAY, TUESDAY, CHRISTMAS = "2026-11-28T09:00", "2026-11-24T09:00", "2026-12-25T09:00"


def lab(begins: str, staffed: Any = None, *, trips: bool = False, **room: Any) -> TextLab:
    """The sound lab begun at a time, with its trips on or off."""
    found = base_lab().changed("sequence.begins", begins)
    day = begins[:10]
    found = found.changed("supply.weighed", day)
    found = found.changed("sequence.prepared", f"{day}T08:00")
    found = found.changed("sequence.slot", {"begins": f"{day}T08:30", "length": "9 h"})
    if staffed is not None:
        found = found.changed("room.staffed", staffed)
    for key, value in room.items():
        found = found.changed(f"room.{key}", value)
    for key, value in OFF.items() if not trips else ():
        found = found.changed(f"instrument.trips.{key}", value)
    return found


def found(report: Report, rule: str = RULE) -> list[str]:
    return [f.message for f in everything(report.findings) if f.rule == rule]


DAYS = HOURS | {"days": WORKING}


def test_saturday_with_every_trip_off_runs_unattended() -> None:
    # 24 injections of 11.7 min, and 20 min before and after
    [message] = found(lab(SATURDAY, DAYS).judged())
    assert message.startswith("5.0 h of the sequence run with nobody there (2026-11-28 09:00 to")


def test_twin_tuesday_with_the_same_card() -> None:
    assert found(lab(TUESDAY, DAYS).judged()) == []


def test_twin_saturday_with_every_trip_armed_is_clear() -> None:
    report = lab(SATURDAY, DAYS, trips=True).judged()
    assert report.verdict == "clear to run", reported(report)


def test_a_card_without_days_does_not_answer_for_saturday() -> None:
    [message] = found(lab(SATURDAY).judged())
    assert "runs on Saturday 2026-11-28" in message
    assert "does not say on which days" in message


def test_twin_a_card_of_0_1_with_its_trips_armed_stays_clear_on_saturday() -> None:
    report = lab(SATURDAY, trips=True).judged()
    assert report.verdict == "clear to run", reported(report)
    assert report.not_checked == []


def test_twin_a_card_of_0_1_on_tuesday() -> None:
    assert found(lab(TUESDAY).judged()) == []


def test_saturday_that_is_staffed_on_saturdays() -> None:
    spells = [DAYS, {"begins": "08:00", "ends": "14:30", "days": ["Saturday"]}]
    assert found(lab(SATURDAY, spells).judged()) == []
    early = [DAYS, {"begins": "08:00", "ends": "12:00", "days": ["Saturday"]}]
    [message] = found(lab(SATURDAY, early).judged())
    assert "(2026-11-28 12:00 to" in message


def test_a_holiday_is_nobodys_day() -> None:
    [message] = found(lab(CHRISTMAS, DAYS, holidays=["2026-12-25"]).judged())
    assert "(2026-12-25 09:00 to" in message
    assert found(lab(CHRISTMAS, DAYS, holidays=["2026-12-24"]).judged()) == []


def test_a_holiday_counts_where_somebody_is_always_there() -> None:
    assert found(lab(CHRISTMAS, "always").judged()) == []
    assert found(lab(CHRISTMAS, "always", holidays=["2026-12-25"]).judged())


@pytest.mark.parametrize(
    ("staffed", "said"),
    [(HOURS, "not known for Saturday 2026-11-28"), ("always", "all the time"),
     (HOURS | {"days": ["Saturday"]}, "all the time")],
)  # fmt: skip
def test_the_card_does_not_call_saturday_staffed(staffed: Any, said: str) -> None:
    [case] = lab(SATURDAY, staffed, trips=True).judged().batches
    assert said in str(card_blocks(case))


def test_a_sequence_that_ends_on_saturday_without_shutdown_is_a_fault() -> None:
    """From Friday 17:00 into the night and Saturday: nobody is there when it ends."""
    friday = "2026-11-27T17:00"
    lines = base_lab().plain("sequence/sequence")["lines"]
    held = [*lines[:-1], {"kind": "idle", "duration": "16 h", "co2": "on"}]
    changed = lab(friday, DAYS, trips=True).changed("sequence.lines", held)
    changed = changed.changed("sequence.after", REMOVED)
    changed = changed.changed("sequence.slot", {"begins": "2026-11-27T16:30", "length": "60 h"})
    rule = "sequence.no-shutdown"
    grades = [f.grade for f in everything(changed.judged().findings) if f.rule == rule]
    week = changed.changed("room.staffed", HOURS | {"begins": "08:00", "ends": "23:59"})
    others = [f.grade for f in everything(week.judged().findings) if f.rule == rule]
    assert grades == ["fault"]
    assert others == ["caution"]


@pytest.mark.parametrize("word", ["Sat", "sa", "Saturdy", "weekend"])
def test_another_word_for_a_day_is_a_finding_that_names_the_day(word: str) -> None:
    report = lab(SATURDAY, HOURS | {"days": [word]}).judged()
    faults = [f for f in everything(report.findings) if f.grade == "fault"]
    assert any("Saturday" in f.message + f.remedy for f in faults)
    assert report.verdict == "do not run"
