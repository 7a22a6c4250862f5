"""Routine documents: the sound ones are silent, and none raises more than three cautions."""

from __future__ import annotations

from pathlib import Path

import pytest

from methodlint.checking.check import check
from methodlint.checking.report import Report
from tests.text_labs import EXAMPLES, ROOT

SOUND = "example_methods/sound"
ROUTINE = sorted(
    file.relative_to(ROOT).as_posix()
    for folder in ("sound", "methods", "transferred")
    for file in (EXAMPLES / folder).glob("*.yaml")
)


@pytest.fixture(scope="module")
def sound() -> Report:
    return check(ROOT / SOUND)


def test_the_sound_folder_is_silent_above_a_note(sound: Report) -> None:
    assert [(f.rule, f.message) for f in sound.findings if f.grade != "note"] == []
    assert sound.verdict == "clear to run"


def test_the_sound_folder_was_looked_at(sound: Report) -> None:
    assert sound.checked > 500
    assert len(sound.runs) >= 6
    assert sound.count("note") <= 2 * len(sound.runs)


@pytest.mark.parametrize("file", ROUTINE, ids=lambda file: Path(file).stem)
def test_a_routine_document_raises_at_most_three_cautions(file: str) -> None:
    report = check(ROOT / file)
    assert report.count("stop") == report.count("fault") == 0
    assert report.count("caution") <= 3
