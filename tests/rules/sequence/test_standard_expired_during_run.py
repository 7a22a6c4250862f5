"""A date holds until the end of its day: common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings, judged
from tests.rules.sequence.lines import line, samples, sequence

RULE = "sequence.standard-expired-during-run"


def _standard(expires: str) -> str:
    return line("calibrator", "C1", level=1, expires=expires)


def test_silent_on_its_last_day() -> None:
    text = sequence(_standard("2026-11-24"), begins="2026-11-24T09:00")
    assert findings(text, RULE) == []


def test_silent_without_dates() -> None:
    assert findings(sequence(samples(3)), RULE) == []


def test_past_midnight() -> None:
    text = sequence(samples(2), _standard("2026-11-24"), begins="2026-11-24T23:30")
    (found,) = findings(text, RULE)
    # 23:30 + 10 + 3 x 11.7 min = 00:15.
    assert found.grade == "caution"
    assert "expires on 2026-11-24, its line ends at 2026-11-25 00:15 (line 3)" in found.message


def test_a_date_that_cannot_be_read_is_not_passed_over() -> None:
    report = judged(sequence(_standard("31/02")), RULE)
    assert report.findings == []
    assert report.not_checked[0].missing == ("sequence.lines[0].expires",)


def test_another_value_that_cannot_be_read_raises_no_question_of_dates() -> None:
    """The key sorts behind `expires`, as most keys of a line do."""
    report = judged(sequence(line("sample", "S1", fill="1 bar")), RULE)
    assert report.checked == 0
    assert [item for item in report.not_checked if "expires" in str(item.missing)] == []
