"""Editions and hashes that a sequence names: common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings

RULE = "sequence.pinned-edition-differs"


def _pinned(pin: str, more: str = "") -> str:
    return (
        "kind: method\nedition: 4\n---\nkind: sequence\n"
        f"pins: [{{document: method, {pin}}}]\n{more}"
    )


def test_silent_for_the_edition_that_is_named() -> None:
    assert findings(_pinned("edition: 4"), RULE) == []
    assert findings(_pinned("edition: '4'"), RULE) == []


def test_silent_for_a_draft() -> None:
    assert findings(_pinned("edition: 3", "status: draft\n"), RULE) == []


def test_another_edition_than_the_sequence_names_is_a_fault() -> None:
    (found,) = findings(_pinned("edition: 3"), RULE)
    assert found.grade == "fault"
    assert "has edition 4, the sequence names edition 3" in found.message


def test_another_hash_than_the_sequence_names_is_a_fault() -> None:
    (found,) = findings(_pinned("hash: 1-0000"), RULE)
    assert found.grade == "fault"
    assert "of the hash 1-0000" not in found.message.partition("names")[0]


def test_a_document_that_the_sequence_does_not_use_is_a_fault_with_what_is_meant() -> None:
    (found,) = findings(_pinned("edition: 4").replace("document: method", "document: methd"), RULE)
    assert "which it does not use; it may mean 'method'" in found.message
