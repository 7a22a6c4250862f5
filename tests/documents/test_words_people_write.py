"""Words that people write first: taken as meant where they mean one thing, else answered once."""

from __future__ import annotations

from typing import Any

import pytest

from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.kinds.method import Method
from methodlint.documents.loading import Loaded, load
from methodlint.documents.text.reader import read_text


def loaded(text: str) -> Loaded:
    document = load(read_text(text.encode(), "x.yaml"), "x.yaml", "x")
    assert document is not None
    return document


def model(text: str) -> Any:
    document = loaded(text)
    assert document.problems == ()
    return document.model


def test_dad_and_pda_are_both_taken_and_kept_as_written() -> None:
    for word in ("DAD", "PDA"):
        method: Method = model(f"kind: method\ndetectors: [{{type: {word}}}]\n")
        assert method.detectors[0].type == word
        card: Instrument = model(f"kind: instrument\ntrain: [{{part: cell, detector: {word}}}]\n")
        assert card.train[0].detector == word


def test_a_part_of_the_name_ms_is_the_source() -> None:
    card: Instrument = model("kind: instrument\ntrain: [{part: MS, name: quadrupole}]\n")
    assert (card.train[0].part, card.train[0].detector) == ("source", "MS")


@pytest.mark.parametrize("scan", ["100-800", "100 to 800", "m/z 100-800", "{from: 100, to: 800}"])
def test_a_scan_is_read_in_the_forms_that_people_write(scan: str) -> None:
    method: Method = model(f"kind: method\ndetectors: [{{type: MS, scan: {scan}}}]\n")
    assert method.detectors[0].scan == (100.0, 800.0)


@pytest.mark.parametrize(
    ("scan", "polarity"),
    [
        ("100-800 positive", "positive"),
        ("ESI- 100-800", "negative"),
        ("[100, 800, pos]", "positive"),
        ("{from: 100, to: 800, polarity: negative}", "negative"),
    ],
)
def test_a_scan_with_its_polarity_is_written_apart(scan: str, polarity: str) -> None:
    [problem] = loaded(f"kind: method\ndetectors: [{{type: MS, scan: {scan}}}]\n").problems
    assert problem.remedy == f"write 'scan: [100, 800]' and 'polarity: {polarity}'"


@pytest.mark.parametrize(
    "rows",
    [
        "[[0, 5], [5, 40], [6, 5]]",
        "[{time: 0, modifier_share: 5}, {time: 5, modifier_share: 40}, {time: 6, modifier_share: 5}]",
    ],
)
def test_a_gradient_of_bare_numbers_is_one_finding_with_its_rows_rewritten(rows: str) -> None:
    document = loaded(f"kind: method\nprogramme: {rows}\n")
    [problem] = document.problems
    assert problem.rule == "document.unit-missing-or-wrong-kind"
    assert "{time: 5 min, modifier_share: 40 % v/v}" in problem.remedy
    assert all(path[0] == "programme" for path in document.broken)
    assert document.broken, "a guessed unit is never used"


def test_a_single_bare_number_is_told_at_its_place() -> None:
    rows = "[{time: 0 min, modifier_share: 5}, {time: 5 min, modifier_share: 40 % v/v}]"
    [problem] = loaded(f"kind: method\nprogramme: {rows}\n").problems
    assert problem.path == ("programme", 0, "modifier_share")


def test_every_refusal_of_a_word_lists_the_words_allowed() -> None:
    [problem] = loaded("kind: instrument\ntrain: [{part: gizmo}]\n").problems
    assert problem.rule == "document.word-not-known"
    for word in ("mixer", "tube", "injector", "regulator", "source"):
        assert word in problem.remedy
    [meant] = loaded("kind: instrument\ntrain: [{part: bpr}]\n").problems
    assert meant.remedy.startswith("did you mean 'regulator'? write one of: mixer, ")


def test_modifier_in_a_row_is_told_its_key() -> None:
    [problem] = loaded("kind: method\nprogramme: [{time: 0 min, modifier: 5 % v/v}]\n").problems
    assert "did you mean 'modifier_share'?" in problem.remedy
