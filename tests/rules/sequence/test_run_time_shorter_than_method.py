"""Five standard deviations after the last peak: common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings, judged
from tests.rules.sequence.lines import line, samples, sequence

RULE = "sequence.run-time-shorter-than-method"


def test_silent_without_a_run_length_in_the_lines() -> None:
    assert findings(sequence(samples(3)), RULE) == []


def test_silent_at_the_method_s_length_and_above() -> None:
    lines = [line("sample", "s", run_length=text) for text in ("8 min", "480 s", "10 min")]
    assert findings(sequence(lines), RULE) == []


def test_a_short_blank_is_only_a_note() -> None:
    (found,) = findings(sequence(line("blank", run_length="3 min")), RULE)
    assert found.grade == "note"


def test_a_short_sample_is_a_fault() -> None:
    (found,) = judged(sequence(line("sample", "s", run_length="6 min")), RULE).findings
    assert found.grade == "fault"
    assert "ends at 6 min, method 'method' needs 8 min" in found.message
    assert found.remedy == "take the run length out of the line"


def test_the_last_peak_counts_where_it_is_later() -> None:
    # 9 min and N = 3600: sigma = 9 / 60 = 0.15 min, 9 + 5 x 0.15 = 9.75 min.
    peak = (
        "kind: method\nexpected_peaks: [{name: late, retention_time: 9 min, plates: 3600}]\n---\n"
    )
    (found,) = findings(peak + sequence(line("sample", "s", run_length="9 min")), RULE)
    assert "needs 9.75 min" in found.message


def test_many_lines_are_one_finding() -> None:
    lines = [line("sample", f"s{n}", run_length="6 min") for n in range(9)]
    (found,) = findings(sequence(lines), RULE)
    assert "lines 1, 2, 3, 4, 5, 6 and 3 more" in found.message
