"""Clocks: the sequence begins at 09:00, equilibrates 10 min and takes 11.7 min for an injection."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged
from tests.rules.sequence.lines import line, samples, sequence

RULE = "injection.prepared-after-injection"
BEGINS = "2026-11-24T09:00"


def test_silent_for_samples_prepared_before_or_on_time() -> None:
    for prepared in ("2026-11-22", "2026-11-24", "2026-11-24T08:00", "2026-11-24T09:10"):
        assert findings(sequence(samples(3), begins=BEGINS, prepared=prepared), RULE) == []


def test_silent_within_a_quarter_of_an_hour() -> None:
    text = sequence(samples(3), begins=BEGINS, prepared="2026-11-24T09:20")
    assert findings(text, RULE) == []


def test_silent_for_a_line_that_comes_after_its_preparation() -> None:
    late = line("sample", "late", well="D1", prepared="2026-11-24T10:30")
    assert findings(sequence(samples(9), late, begins=BEGINS), RULE) == []


def test_silent_for_standards_that_stood_there_before_the_samples() -> None:
    standards = [line("suitability", "SST", count=5), line("calibrator", "C1", level=1)]
    text = sequence(standards, samples(2), begins=BEGINS, prepared="2026-11-24T10:00")
    assert findings(text, RULE) == []


def test_silent_for_blanks() -> None:
    blank = line("blank", "diluent", prepared="2026-11-25T08:00")
    assert findings(sequence(blank, begins=BEGINS), RULE) == []


def test_silent_if_the_begin_is_a_day_without_an_hour() -> None:
    text = sequence(samples(3), begins="2026-11-24", prepared="2026-11-24T15:00")
    assert findings(text, RULE) == []
    text = sequence(samples(3), begins="2026-11-24", prepared="2026-11-26")
    assert len(findings(text, RULE)) == 1


def test_silent_for_a_queue_without_an_end() -> None:
    text = sequence(samples(3), begins=BEGINS, prepared="2026-11-25T08:00", continuous=True)
    assert findings(text, RULE) == []


def test_silent_and_nothing_to_give_without_a_preparation() -> None:
    report = judged(sequence(samples(3), begins=None, prepared=None), RULE)
    assert (report.findings, report.not_checked) == ([], [])


def test_without_a_begin_it_is_not_checked() -> None:
    report = judged(sequence(samples(3), begins=None, prepared="2026-11-25T08:00"), RULE)
    assert report.findings == []
    assert report.not_checked[0].missing == ("sequence.begins",)


def test_a_day_too_late() -> None:
    """From 09:10 on the 24th to 08:00 on the 25th: 22.8 h (arithmetic)."""
    (found,) = findings(sequence(samples(3), begins=BEGINS, prepared="2026-11-25T08:00"), RULE)
    assert (found.grade, found.at.path) == ("caution", ("prepared",))
    assert (
        "'extract 1' in line 1 is prepared at 2026-11-25 08:00 and injected at 2026-11-24 09:10, "
        "22.8 h earlier; prepared too late are the samples of 3 lines" in found.message
    )
    assert found.found is not None
    assert found.found.value == pytest.approx(22.83, abs=0.01)
    assert "correct the date" in found.remedy


def test_a_line_is_told_at_its_own_moment() -> None:
    late = line("sample", "late", well="D1", prepared="2026-11-24T12:00")
    (found,) = findings(sequence(samples(2), late, begins=BEGINS), RULE)
    assert found.at.path == ("lines", 2, "prepared")
    assert "'late' in line 3" in found.message
    assert found.message.endswith("the samples of 1 line")


def test_of_a_sequence_s_own_moment_the_later_lines_are_silent() -> None:
    """The second of three lines begins at 09:21, the third at 09:33."""
    text = sequence(samples(3), begins=BEGINS, prepared="2026-11-24T09:30")
    (found,) = findings(text, RULE)
    assert found.message.endswith("the samples of 1 line")
