"""A document with very many faults costs little and is told in a hundred lines."""

from __future__ import annotations

import pytest

from methodlint.documents import loading
from methodlint.documents.loading import load
from methodlint.documents.text.limits import SEQUENCE
from methodlint.documents.text.reader import read_text
from tests.work_done import calls_of


def loaded(text: str):
    document = load(read_text(text.encode(), "x.yaml", limits=SEQUENCE), "x.yaml", "x")
    assert document is not None
    return document


@pytest.mark.parametrize(
    ("count", "most"), [(6_000, 2_000), pytest.param(60_000, 20_000, marks=pytest.mark.long)]
)
def test_thousands_of_unknown_keys(count: int, most: int, monkeypatch: pytest.MonkeyPatch) -> None:
    text, less = (
        "kind: method\n" + "".join(f"flou{n}: 1\n" for n in range(number))
        for number in (count, count // 10)
    )
    assert loading._MOST_ERRORS == 20_000
    monkeypatch.setattr(loading, "_MOST_ERRORS", most)
    document = loaded(text)
    # One edit distance to every word we know took minutes for all of them.
    assert calls_of(lambda: loaded(text)) <= 12 * calls_of(lambda: loaded(less))
    problems = document.problems
    assert {problem.rule for problem in problems} == {"document.unknown-key"}
    assert len(problems) == 100
    assert f"{count - 100} further values" in problems[-1].message
    # Nobody reads on from there: nothing of it is used.
    assert () in document.broken
    assert all(problem.remedy for problem in problems)


def test_each_kind_of_trouble_keeps_its_first_hundred() -> None:
    text = "kind: sequence\nlines:\n" + "- {kind: sampel, methd: x}\n" * 300
    rules = [problem.rule for problem in loaded(text).problems]
    assert rules.count("document.word-not-known") == rules.count("document.unknown-key") == 100


def test_a_hundred_are_told_without_a_word_about_others() -> None:
    problems = loaded("kind: method\n" + "".join(f"flou{n}: 1\n" for n in range(100))).problems
    assert len(problems) == 100
    assert not any("further" in problem.message for problem in problems)


def test_a_table_of_a_thousand_wrong_rows_is_still_looked_at_row_by_row() -> None:
    text = "kind: sequence\ntitle: kept\nlines:\n" + "- {kind: sampel, method: x}\n" * 1_000
    document = loaded(text)
    assert document.model.title == "kept"
    assert () not in document.broken
    assert "900 further places" in document.problems[-1].message
