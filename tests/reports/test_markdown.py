"""The markdown page: order, standing against a base, caps."""

from __future__ import annotations

import pytest

from methodlint.reports.markdown import MOST_CHARACTERS, Page, markdown_report
from methodlint.reports.markdown_text import inert
from tests.reports.scratch_lab import ROOT, plain, prepared


@pytest.fixture(autouse=True)
def _at_the_root(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)


def headings(page: str) -> list[str]:
    return [line.removeprefix("### ") for line in page.splitlines() if line.startswith("### ")]


def test_worst_first_without_a_base() -> None:
    page = markdown_report(prepared("example_methods/flawed"))
    assert page.startswith("## Do not run\n")
    assert headings(page)[0] == "Findings"
    items = page.partition("### Findings")[2].partition("###")[0].splitlines()
    grades = [line.split("**")[1] for line in items if line.startswith("- **")]
    assert grades == sorted(grades, key=["stop", "fault", "caution", "note"].index)
    assert "note" not in grades


def test_against_a_base_new_comes_first_and_unchanged_last() -> None:
    whole = plain(prepared("example_methods/flawed"))
    base = {**whole, "findings": whole["findings"][1:]}
    page = markdown_report(prepared("example_methods/flawed", base=base))
    assert "Against the base: 1 new, 0 worse," in page
    assert headings(page)[:2] == ["New", "Unchanged"]
    assert "No figure of a run or a sequence changes." in page


def test_a_clear_report_is_short() -> None:
    page = markdown_report(prepared("example_methods/sound/flame-retardant-isomers.yaml"))
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
