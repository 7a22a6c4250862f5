"""One wrong value is one problem: nothing is reported because something else was taken out."""

from __future__ import annotations

import pytest

from methodlint.documents.loading import Loaded, load
from methodlint.documents.text.reader import read_text


def loaded(text: str) -> Loaded:
    found = load(read_text(text.encode(), "page.yaml"), "page.yaml", "page")
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("text", "rule"),
    [
        (
            "kind: method\nprogramme: [{time: 5}, {time: 6 min}]\n",
            "document.unit-missing-or-wrong-kind",
        ),
        ("kind: sequence\nlines: [{kind: smaple}]\n", "document.word-not-known"),
        ("kind: method\ndetectors: [{type: 1E2}]\n", "document.word-not-known"),
        ("kind: room\nmonitors: [{gas: TBD}]\n", "document.placeholder-left"),
    ],
)
def test_a_required_value_that_is_wrong_is_not_missing_as_well(text: str, rule: str) -> None:
    assert [problem.rule for problem in loaded(text).problems] == [rule]


def test_a_required_value_that_is_not_there_is_missing() -> None:
    (problem,) = loaded("kind: method\nprogramme: [{flow: 1 mL/min}]\n").problems
    assert problem.rule == "document.shape-wrong"
    assert "'time' is missing" in problem.message


def test_the_first_of_two_equal_keys_is_looked_at_but_never_used() -> None:
    page = loaded("kind: method\nflow: 2\nflow: 2 mL/min\n")
    assert [problem.rule for problem in page.problems] == [
        "document.unit-missing-or-wrong-kind",
        "document.duplicate-key-or-id",
    ]
    assert "flow" not in page.data


@pytest.mark.parametrize(
    ("text", "remedy"),
    [
        ("kind: sequence\nlines: [{kind: blank, well: 1E2}]\n", '"1E2"'),
        ("kind: sequence\nlines: [{kind: blank, sample: 017}]\n", '"017"'),
        ("kind: method\nedition: 1.10\n", '"1.10"'),
        ("kind: method\ndetectors: no\n", "no"),
    ],
)
def test_a_trap_names_what_stands_there(text: str, remedy: str) -> None:
    (problem,) = loaded(text).problems
    assert problem.rule == "document.type-trap"
    assert remedy in problem.remedy


def test_a_value_under_a_trade_word_is_looked_at_but_never_used() -> None:
    page = loaded("kind: method\nbpr: 2000 bar\nbackpresure: 120 bar\n")
    assert [(p.rule, p.path, p.place.line, p.place.column) for p in page.problems] == [
        ("document.unknown-key", ("bpr",), 2, 1),
        ("document.pressure-ambiguous", ("bpr",), 2, 6),
        ("document.unknown-key", ("backpresure",), 3, 1),
    ]
    assert page.model.outlet_pressure is None  # type: ignore[attr-defined]


def test_a_trade_word_inside_a_row() -> None:
    page = loaded("kind: method\nprogramme: [{time: 0 min, bpr: 150 psi}]\n")
    assert ("programme", 0, "bpr") in [
        p.path for p in page.problems if p.rule == "document.pressure-ambiguous"
    ]
