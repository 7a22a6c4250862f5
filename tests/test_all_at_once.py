"""All cases run, and all that fail are named."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.all_at_once import all_at_once


def test_every_case_that_fails_is_named_and_the_others_run() -> None:
    seen = []

    @all_at_once("left, right", [(1, 1), (1, 2), (2, 2), (3, 4)])
    @all_at_once("sign", [1, -1])
    def compare(left: int, right: int, sign: int) -> None:
        seen.append((left, right, sign))
        assert sign * left == sign * right, "not equal"

    with pytest.raises(AssertionError, match="2 of 4 cases failed") as failed:
        compare()
    assert len(seen) == 8
    assert "{'left': 1, 'right': 2}" in str(failed.value)
    assert "{'left': 3, 'right': 4}" in str(failed.value)
    assert "not equal" in str(failed.value)
    assert "{'left': 2" not in str(failed.value)


def test_an_error_of_a_case_is_a_failure() -> None:
    @all_at_once("value", [0])
    def divide(value: int) -> None:
        assert 1 / value

    with pytest.raises(AssertionError, match="ZeroDivisionError"):
        divide()


def test_no_case_at_all_is_refused() -> None:
    with pytest.raises(AssertionError, match="no case"):
        all_at_once("value", [])


@all_at_once("name", ["a", "b"])
def test_fixtures_are_given_as_to_any_test(tmp_path: Path, name: str) -> None:
    (tmp_path / name).touch()
    assert (tmp_path / name).exists()
