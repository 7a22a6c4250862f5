"""A hash of the parsed values: what changes a value changes it, and nothing else does."""

from __future__ import annotations

import pytest

from methodlint.documents.contents.values_hash import part_hashes, values_hash
from methodlint.documents.loading import load
from methodlint.documents.text.reader import read_text
from tests.rules.document.pages import found_in

RULE = "document.approval-stale"
VALUES = "flow: 1.5 mL/min\noven_temperature: 40 degC\n"


def _hashes(values: str) -> tuple[str, dict[str, str]]:
    loaded = load(read_text(f"kind: method\n{values}".encode(), "x"), "x", "x")
    assert loaded is not None
    return values_hash(loaded.model), part_hashes(loaded.model)


def _approved(values: str, now: str, parts: bool = False) -> str:
    whole, each = _hashes(values)
    named = f", parts: {each}" if parts else ""
    return f"kind: method\napproval: {{by: QA office, on: 2026-09-01, hash: {whole}{named}}}\n{now}"


@pytest.mark.parametrize(
    "now",
    [
        VALUES,
        "flow: 1500 uL/min\noven_temperature: 313.15 K\n",
        "oven_temperature: 40 C  # as before\nflow: '1.50 mL/min'\n",
        VALUES + "title: Another title\ncomment: a word\nedition: 4\nstatus: approved\n",
    ],
)
def test_silent_while_the_values_are_the_same(now: str) -> None:
    assert found_in(_approved(VALUES, now), RULE) == []


def test_silent_without_an_approval() -> None:
    assert found_in(f"kind: method\n{VALUES}", RULE) == []


@pytest.mark.parametrize(
    "now",
    [
        "flow: 1.6 mL/min\noven_temperature: 40 degC\n",
        "flow: 1.5 mL/min\n",
        VALUES + "purpose: regulated\n",
        "flow: {value: 1.5 mL/min, tolerance: 0.1 mL/min}\noven_temperature: 40 degC\n",
    ],
)
def test_a_changed_value_is_a_caution(now: str) -> None:
    (found,) = found_in(_approved(VALUES, now), RULE)
    assert found.grade == "caution"
    assert "approved by QA office on 2026-09-01" in found.message


def test_what_has_changed_is_named() -> None:
    now = "flow: 1.6 mL/min\noven_temperature: 40 degC\npurpose: research\n"
    (found,) = found_in(_approved(VALUES, now, parts=True), RULE)
    assert "differ in flow, purpose from those" in found.message


def test_a_hash_of_another_edition_cannot_be_compared() -> None:
    text = "kind: method\napproval: {by: QA, on: 2026-09-01, hash: v0-12ab}\n"
    (found,) = found_in(text, RULE)
    assert "not one of this edition" in found.message


def test_the_hash_in_the_remedy_clears_it() -> None:
    (found,) = found_in(_approved(VALUES, "flow: 2 mL/min\n"), RULE)
    new = found.remedy.rpartition(" ")[2]
    text = f"kind: method\napproval: {{by: QA, on: 2026-09-02, hash: {new}}}\nflow: 2 mL/min\n"
    assert found_in(text, RULE) == []
