"""Sums of declared times; 119 lines x 6.2 min = 737.8 min = 12.3 h."""

from __future__ import annotations

from tests.rules.harness import findings
from tests.rules.sequence.lines import line, samples, sequence

RULE = "sequence.overruns-slot"
SLOT = {"begins": "2026-11-24T09:00", "length": "1 h"}


def test_silent_within_the_slot() -> None:
    # 10 + 4 x 11.7 min = 56.8 min.
    assert findings(sequence(samples(4), slot=SLOT), RULE) == []


def test_silent_when_the_slot_is_open_ended() -> None:
    assert findings(sequence(samples(9), slot={**SLOT, "open_ended": True}), RULE) == []


def test_silent_without_a_booking() -> None:
    assert findings(sequence(samples(90), slot=None), RULE) == []


def test_silent_for_a_start_a_little_before_the_slot() -> None:
    text = sequence(samples(4), slot=SLOT, begins="2026-11-24T08:45")
    assert findings(text, RULE) == []


def test_silent_for_a_slot_whose_hour_is_not_known() -> None:
    assert findings(sequence(samples(4), slot={"begins": None, "length": "1 h"}), RULE) == []


def test_silent_over_midnight() -> None:
    slot = {"begins": "2026-11-24T22:00", "length": "9 h"}
    text = sequence(samples(4), slot=slot, begins="2026-11-25T01:00")
    assert findings(text, RULE) == []


def test_a_begin_behind_the_slot_is_told_as_such() -> None:
    # The slot ends at 10:00; 21:00 is 11 h later.
    text = sequence(samples(4), slot=SLOT, begins="2026-11-24T21:00")
    (found,) = findings(text, RULE)
    assert (found.grade, found.at.path) == ("caution", ("begins",))
    assert (
        "begins at 2026-11-24 21:00, outside its slot (2026-11-24 09:00 to 2026-11-24 10:00): "
        "11 h after its end; it takes 0.947 h" in found.message
    )
    assert found.remedy == "begin within the slot, or book the time at which it begins"


def test_a_begin_on_the_day_before_is_told_as_such() -> None:
    text = sequence(samples(4), slot=SLOT, begins="2026-11-23T09:00")
    (found,) = findings(text, RULE)
    assert "24 h before it" in found.message


def test_five_do_not_fit() -> None:
    # 10 + 5 x 11.7 min = 68.5 min: 8.5 min or 0.142 h too long.
    (found,) = findings(sequence(samples(5), slot=SLOT), RULE)
    assert found.grade == "caution"
    assert (
        "ends at 2026-11-24 10:08, 0.142 h after its slot; 4 of 5 injections fit" in found.message
    )


def test_a_late_start_takes_from_the_slot() -> None:
    text = sequence(samples(4), slot=SLOT, begins="2026-11-24T09:30")
    (found,) = findings(text, RULE)
    assert "1 of 4 injections fit" in found.message  # 10 + 11.7 of 30 min, 33.4 is too much


def test_injections_of_one_line_are_counted() -> None:
    (found,) = findings(sequence(line("sample", "s", count=9), slot=SLOT), RULE)
    assert "4 of 9 injections fit" in found.message


def test_a_month_on_end_is_a_slip_with_and_without_a_slot() -> None:
    """9000 injections of 11.7 min are 73 days."""
    for slot in ("null", "{length: 9 h, open_ended: true}"):
        text = f"kind: sequence\nslot: {slot}\nlines: [{{kind: sample, sample: a, well: A1, count: 9000}}]\n"
        (found,) = findings(text, RULE)
        assert found.grade == "caution"
        assert "for 73 days on end" in found.message
