"""Every show: what must be found is found, what must not be is not, and its twin is clear to run.

`python -m tests.scenarios` prints both figures.
"""

from __future__ import annotations

import pytest

from tests.fault_injection.remedied import applied
from tests.scenarios.show import Show, shows


def test_there_are_enough() -> None:
    """Sixty labs, half of them sequences with lines of their own."""
    assert len(shows()) >= 60
    assert sum(bool(show.said.get("lines")) for show in shows()) >= len(shows()) / 2
    assert all(show.said["musts"] or show.said.get("not_checked") for show in shows())
    assert all(show.said["must_nots"] for show in shows())


def test_musts_are_found() -> None:
    assert {show.name: lost for show in shows() if (lost := show.missed())} == {}


def test_must_nots_are_not_and_twins_are_clear_to_run() -> None:
    assert {show.name: wrong for show in shows() if (wrong := show.violated())} == {}


@pytest.mark.long
def test_a_remedy_is_a_change_that_was_tried() -> None:
    """Else the report says that none was found, or that another finding comes first."""
    untried = [
        (show.name, finding.remedy)
        for show in shows()
        for finding in show.lab("lines").judged().findings
        if finding.candidates and not finding.solutions
        if "no single change" not in finding.remedy and "check again" not in finding.remedy
    ]
    assert untried == []


@pytest.mark.long
@pytest.mark.parametrize("show", shows(), ids=lambda show: show.name)
def test_no_remedy_of_a_show_does_harm(show: Show) -> None:
    wrong = [
        f"{one.finding.rule}: {one.remedy.text}: {'leaves it' if one.left else one.brought}"
        for one in applied(show.lab("lines"))
        if one.left or one.brought
    ]
    assert wrong == []
