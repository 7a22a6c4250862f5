"""A document in use keeps its status."""

from __future__ import annotations

import pytest

from tests.rules.change.changed import found_in

RULE = "change.status-lowered"


def _with(status: str) -> str:
    return f"kind: room\n{f'status: {status}' if status else ''}\n"


@pytest.mark.parametrize(
    ("before", "after"),
    [("", ""), ("", "approved"), ("draft", ""), ("draft", "draft"), ("retired", "approved")],
)
def test_silent_about_a_status_that_stays_or_rises(before: str, after: str) -> None:
    assert found_in(_with(before), _with(after), RULE) == []


def test_silent_about_a_new_draft() -> None:
    assert found_in(None, _with("draft"), RULE) == []


@pytest.mark.parametrize(
    ("before", "after"),
    [("", "draft"), ("", "retired"), ("approved", "draft"), ("approved", ""), ("draft", "retired")],
)
def test_a_status_that_falls(before: str, after: str) -> None:
    (found,) = found_in(_with(before), _with(after), RULE)
    assert found.grade == "caution"
    assert found.message == f"the status goes from {before or 'none'} to {after or 'none'}"
