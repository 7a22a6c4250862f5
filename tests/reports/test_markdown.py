"""The markdown page: order, standing against a base, caps."""

from __future__ import annotations

from dataclasses import replace

import pytest

from methodlint.judging.unjudged import RuleFailed
from methodlint.reports.base_report import Mark
from methodlint.reports.consequences import RUN_QUANTITIES
from methodlint.reports.consequences_compared import (
    ComparedConsequences,
    FigureChange,
    SubjectChange,
)
from methodlint.reports.markdown import MOST_CHARACTERS, Page, markdown_comparison, markdown_report
from methodlint.reports.markdown_text import inert
from methodlint.reports.prepared import Prepared
from tests.reports.scratch_lab import ROOT, example, plain


@pytest.fixture(autouse=True)
def _at_the_root(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)


def headings(page: str) -> list[str]:
    return [line.removeprefix("### ") for line in page.splitlines() if line.startswith("### ")]


def test_worst_first_without_a_base() -> None:
    page = markdown_report(example("flawed"))
    assert page.startswith("## Do not run\n")
    assert headings(page)[0] == "Findings"
    items = page.partition("### Findings")[2].partition("###")[0].splitlines()
    grades = [line.split("**")[1] for line in items if line.startswith("- **")]
    assert grades == sorted(grades, key=["stop", "fault", "caution", "note"].index)
    assert "note" not in grades


def test_against_a_base_new_comes_first_and_unchanged_last() -> None:
    whole = plain(example("flawed"))
    base = {**whole, "findings": whole["findings"][1:]}
    page = markdown_report(example("flawed", base=base))
    assert "Against the base: 1 new, 0 worse," in page
    assert headings(page)[:2] == ["New", "Unchanged"]
    assert "No figure of a run or a sequence changes." in page


def test_a_clear_report_is_short() -> None:
    page = markdown_report(example("sound/flame-retardant-isomers.yaml"))
    assert page.startswith("## Clear to run\n")
    assert "Findings" not in page


@pytest.mark.parametrize(
    "text",
    [
        "the column inlet reaches 415 bar (band 61 bar) at 9.29 min with 90 % modifier in it",
        "margin -11.2 bar; store 19.0 degC to 21.0 degC, 5-25 % 2-propanol, +-20 %",
        "8.5 mL/min, 1.5 × 10 cm²/s, 35 °C",
    ],
)
def test_ordinary_sentences_stay_as_they_are(text: str) -> None:
    assert inert(text).replace("`", "") == text
    assert inert(text).count("`") <= 2


def test_a_page_that_is_full_says_how_much_is_left_out() -> None:
    page = Page(1_000)
    page.section("Many", (f"- item {number}" for number in range(500)))
    page.section("More", ["- one"])
    text = page.text()
    shown = text.count("- item")
    assert 0 < shown < 500
    assert f"- and {500 - shown} more" in text
    assert "More: left out." in text
    assert len(text) < 1_300 < MOST_CHARACTERS


def _mark(**more: object) -> Mark:
    given = {"rule": "pressure.too-high", "grade": "fault", "message": "too high", "path": "a.yaml", "lab_path": "a.yaml", "subject": "",
             "line": 3, "fingerprint": "f"}  # fmt: skip
    return Mark(**{**given, **more})  # type: ignore[arg-type]


def _comparison(*subjects: SubjectChange, **more: object) -> ComparedConsequences:
    empty = {"documents": (), "appearing": (), "worse": (), "vanishing": (), "staying": 2}
    given = {"verdicts": ("clear to run", "do not run"), "subjects": subjects, **empty, **more}
    return ComparedConsequences(**given)  # type: ignore[arg-type]


def _figures(old: float | None, new: float | None) -> tuple[FigureChange, ...]:
    quantity = next(q for q in RUN_QUANTITIES if q.key == "highest_pump_pressure")
    return (FigureChange(quantity, old, new),)


def test_a_comparison_names_what_comes_and_goes() -> None:
    page = markdown_comparison(
        _comparison(
            documents=(("b.yaml", "changed"),),
            appearing=(_mark(message="new *one*"),),
            vanishing=(_mark(message="old one", grade="stop"),),
        )
    )
    assert page.startswith("## Clear to run -> do not run\n")
    assert headings(page) == ["Documents", "Appearing", "Vanishing"]
    assert "- changed: b.yaml" in page
    assert "- **stop** old one (`a.yaml`, line 3; `pressure.too-high`)" in page
    # Nothing of a document can act as markdown.
    assert "*one*" not in page.replace("`*one*`", "")
    assert "2 findings unchanged." in page


def test_a_comparison_sets_figures_side_by_side() -> None:
    page = markdown_comparison(_comparison(SubjectChange("m on i", "", _figures(250.0, 260.0))))
    [row] = [line for line in page.splitlines() if line.startswith("| m on i")]
    cells = [text.strip() for text in row.strip("|").split("|")]
    assert cells[2:] == ["250 bar", "260 bar", "+10 bar"]


@pytest.mark.parametrize(
    ("subject", "words"),
    [
        (SubjectChange("m on i", "old"), "no longer there"),
        (SubjectChange("m on i", "new"), "new, could not be rehearsed"),
        (SubjectChange("m on i", "", why="not rehearsed | before"), "not rehearsed `\\|` before"),
    ],
)
def test_a_run_without_figures_says_why(subject: SubjectChange, words: str) -> None:
    page = markdown_comparison(_comparison(subject))
    assert [line for line in page.splitlines() if line.startswith("| m on i")] == [
        f"| m on i | {words} | | | |"
    ]


def test_a_new_run_has_nothing_before() -> None:
    page = markdown_comparison(_comparison(SubjectChange("m on i", "new", _figures(None, 260.0))))
    [row] = [line for line in page.splitlines() if line.startswith("| m on i")]
    assert [text.strip() for text in row.strip("|").split("|")][2:] == ["", "260 bar", ""]


def test_figures_that_stay_are_one_sentence_and_none_are_none() -> None:
    same = markdown_comparison(_comparison(SubjectChange("m on i", "", _figures(250.0, 250.0))))
    assert "No figure of a run or a sequence changes." in same
    assert "Consequences" not in markdown_comparison(_comparison())


def test_many_failures_of_the_tool_are_counted() -> None:
    sound = example("sound/flame-retardant-isomers.yaml").report
    failed = [RuleFailed(f"made.r{n}", "a run", "it broke", "") for n in range(14)]
    ready = Prepared(replace(sound, failed=failed))
    page = markdown_report(ready)
    assert page.count("rule made.r") == 10
    assert "- and 4 more" in page
