"""A deviation that is new or holds longer is seen when it is made."""

from __future__ import annotations

import pytest

from tests.rules.change.changed import found_in

RULE = "change.deviation-added"
HELD = (
    "  - {rule: pressure.low-limit-missing, reason: the pumps stop, approved_by: A. Head, "
    "until: 2026-12-31}\n"
)
OTHER = "  - {rule: pressure.cutoff-unsound, reason: none}\n"


def _with(deviations: str) -> str:
    return f"kind: room\n{'deviations:' if deviations else ''}\n{deviations}"


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("", ""),
        (HELD, HELD),
        (HELD, ""),
        (HELD, HELD.replace("2026-12-31", "2026-11-30")),
        (HELD, HELD.replace("the pumps stop", "all pumps stop")),
        (OTHER + HELD, HELD + OTHER),
        (HELD.replace(", until: 2026-12-31", ""), HELD),
    ],
)
def test_silent_about_deviations_that_stay_or_end_sooner(before: str, after: str) -> None:
    assert found_in(_with(before), _with(after), RULE) == []


@pytest.mark.parametrize(
    ("before", "after", "words"),
    [
        ("", HELD, "a new deviation from pressure.low-limit-missing until 2026-12-31, approved by A. Head"),
        (HELD, HELD + OTHER, "a new deviation from pressure.cutoff-unsound without an end, approved by nobody"),
        (HELD, HELD.replace("low-limit-missing", "cutoff-unsound"), "a new deviation from pressure.cutoff-unsound"),
        (HELD, HELD.replace("2026-12", "2027-12"), "holds until 2027-12-31, no longer until 2026-12-31"),
        (HELD, HELD.replace(", until: 2026-12-31", ""), "holds without an end, no longer until 2026-12-31"),
    ],
)  # fmt: skip
def test_a_deviation_that_is_new_or_longer(before: str, after: str, words: str) -> None:
    (found,) = found_in(_with(before), _with(after), RULE)
    assert found.grade == "caution"
    assert words in found.message


def test_a_deviation_of_a_new_document() -> None:
    (found,) = found_in(None, _with(HELD), RULE)
    assert found.at.path == ("deviations", 0)
    assert "a new deviation" in found.message
