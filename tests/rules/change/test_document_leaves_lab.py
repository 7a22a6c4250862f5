"""A document that was judged before a change is judged after it."""

from __future__ import annotations

import pytest

from tests.rules.change.changed import found_in

RULE = "change.document-leaves-lab"


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("kind: room\n", "kind: room\ntitle: the same\n"),
        (None, "kind: room\n"),
        (None, "kind: lab\n"),
        ("kind: lab\n", "kind: lab\nname: the same\n"),
    ],
)
def test_silent_about_what_is_still_there_or_new(before: str | None, after: str) -> None:
    assert found_in(before, after, RULE) == []


def test_a_document_that_goes_is_named_with_its_kind() -> None:
    (found,) = found_in("kind: room\n", None, RULE)
    assert found.grade == "caution"
    assert found.at.file == "lab/a.yaml"
    assert "the room is no longer there" in found.message


def test_a_document_that_becomes_another_kind() -> None:
    (found,) = found_in("kind: room\n", "kind: supply\n", RULE)
    assert found.at.path == ("kind",)
    assert "the room has become a supply" in found.message


@pytest.mark.parametrize(
    ("taken", "words"),
    [
        (("m/a.yaml",), "m/a.yaml belonged"),
        (("m/a.yaml", "m/b.yaml"), "m/a.yaml and 1 other belonged"),
        (("m/a.yaml", "m/b.yaml", "m/c.yaml"), "m/a.yaml and 2 others belonged"),
    ],
)
def test_a_new_lab_that_takes_documents_over(taken: tuple[str, ...], words: str) -> None:
    (found,) = found_in(None, "kind: lab\n", RULE, taken)
    assert words in found.message
