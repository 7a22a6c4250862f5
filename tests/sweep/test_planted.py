"""No edit that makes the sound day batch dangerous or senseless comes out clear."""

from __future__ import annotations

import pytest

from tests.sweep.planted import PLANTED, planted
from tests.sweep.sound_lab import BATCH, judged, lab, without_remedies


def test_the_day_batch_itself_is_clear() -> None:
    report = judged()
    assert report.verdict == "clear to run"
    assert report.exit_status() == 0
    assert BATCH in lab().targets


@pytest.mark.parametrize("name", PLANTED)
def test_an_edit_is_never_clear_and_never_an_error(name: str) -> None:
    with without_remedies():
        report = planted(name).judged()
    assert report.verdict != "clear to run"
    assert report.exit_status() != 3
