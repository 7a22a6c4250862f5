"""Bounds of what is read: our own limits (`documents/limits.py`), common practice, no source."""

from __future__ import annotations

import pytest

from methodlint.documents.text.limits import DOCUMENT
from tests.rules.document.pages import found_in, report_on

RULE = "document.too-large"


def test_silent_for_what_people_write() -> None:
    assert found_in("kind: column\nplates: 10000\nlength: 150.000 mm\n", RULE) == []


def test_silent_at_the_very_limits() -> None:
    digits, depth = "1" * DOCUMENT.number, DOCUMENT.depth - 1
    assert found_in(f"kind: column\nplates: {digits}\n", RULE) == []
    assert found_in(f"kind: column\nx-a: {'[' * depth}{']' * depth}\n", RULE) == []


def test_silent_for_an_anchor_that_is_used_a_few_times() -> None:
    assert found_in("kind: column\nx-a: &a 1\nx-b: [*a, *a, *a]\n", RULE) == []


@pytest.mark.parametrize(
    ("text", "limit"),
    [
        (f"plates: {'1' * (DOCUMENT.number + 1)}\n", DOCUMENT.number),
        (f"x-a: {'[' * DOCUMENT.depth}{']' * DOCUMENT.depth}\n", DOCUMENT.depth),
        (f"x-a: &a 1\nx-b: [{', '.join(['*a'] * (DOCUMENT.aliases + 1))}]\n", DOCUMENT.aliases),
        (
            f"x-a: [{', '.join(f'&a{n} 1' for n in range(DOCUMENT.anchors + 1))}]\n",
            DOCUMENT.anchors,
        ),
    ],
    ids=["digits", "levels", "uses of an anchor", "anchors"],
)
def test_one_beyond_a_limit_is_a_fault_that_names_it(text: str, limit: int) -> None:
    (found,) = found_in(f"kind: column\n{text}", RULE)
    assert found.grade == "fault"
    assert f"limit is {limit}" in found.message.replace(",", "")


def test_nothing_is_judged_from_a_number_that_was_not_read() -> None:
    report = report_on(f"kind: column\nplates: {'1' * 80}\n", RULE)
    assert report.documents["page.yaml"].model.plates is None  # type: ignore[attr-defined]
