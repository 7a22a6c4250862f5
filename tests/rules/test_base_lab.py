"""The sound lab that examples change is sound: nothing above a note, nothing unchecked."""

from __future__ import annotations

from tests.rules.harness import judged


def test_the_sound_lab_raises_nothing_above_a_note() -> None:
    report = judged("")
    reported = [(f.rule, f.message) for f in report.findings if f.grade != "note"]
    assert reported == []


def test_the_sound_lab_leaves_nothing_unchecked() -> None:
    report = judged("")
    assert [(item.rule, item.missing, item.reason) for item in report.not_checked] == []


def test_the_sound_lab_was_looked_at() -> None:
    report = judged("")
    assert report.verdict == "clear to run"
    assert len(report.documents) >= 7
    assert report.checked >= 4
