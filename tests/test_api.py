"""What Python users call: names, one-line representations, plain data and files."""

from __future__ import annotations

import inspect
import json
from html.parser import HTMLParser
from pathlib import Path

import pytest

import methodlint
from tests.command import ROOT

FLAWED = "example_methods/flawed/terpenoids-hot-and-low.yaml"
METHOD = "example_methods/methods/triazole-enantiomers.yaml"


@pytest.fixture(scope="module")
def report() -> methodlint.Report:
    return methodlint.check(ROOT / FLAWED)


def test_tab_completion_lists_the_public_names() -> None:
    names = [name for name in dir(methodlint) if not name.startswith("_")]
    assert names == sorted(name for name in methodlint.__all__ if not name.startswith("_"))
    assert all(inspect.getdoc(getattr(methodlint, name)) for name in names)


def test_a_report_prints_in_one_line(report: methodlint.Report) -> None:
    assert isinstance(report, methodlint.Report)
    assert repr(report).startswith("<Report: do not run; 1 fault")
    assert "\n" not in repr(report)


def test_a_report_shows_in_a_notebook_and_nothing_acts() -> None:
    seen: list[str] = []

    class Tags(HTMLParser):
        def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
            seen.append(tag)

    folder = ROOT / "example_methods" / "unreadable"
    text = methodlint.check(folder)._repr_html_()
    Tags().feed(text)
    assert set(seen) <= {"div", "p", "strong", "table", "thead", "tbody", "tr", "th", "td"}
    assert seen.count("tr") > 3


def test_a_report_is_plain_data_and_writes_every_format(
    report: methodlint.Report, tmp_path: Path
) -> None:
    report.write("json", tmp_path / "report.json")
    assert json.loads((tmp_path / "report.json").read_text("utf-8")) == report.to_dict()
    report.write("html", tmp_path / "report.html")
    report.write("html", tmp_path / "report.html")  # over its own
    with pytest.raises(ValueError, match="'pdf' is none of words, json"):
        report.write("pdf", tmp_path / "report.pdf")


def test_nothing_else_is_written_over(report: methodlint.Report, tmp_path: Path) -> None:
    notes = tmp_path / "notes.json"
    notes.write_text("mine\n", encoding="utf-8")
    with pytest.raises(FileExistsError):
        report.write("json", notes)
    assert notes.read_text("utf-8") == "mine\n"


def test_many_documents_give_the_same_report() -> None:
    one, many = methodlint.check(ROOT / METHOD), methodlint.check_many([ROOT / METHOD])
    assert one.to_dict() == many.to_dict()
    assert repr(one) == repr(many)


def test_a_run_and_a_transfer_print_in_one_line() -> None:
    run = methodlint.rehearse(ROOT / METHOD)
    assert repr(run).startswith("<Rehearsal of triazole-enantiomers: ")
    assert "regulator" in run._repr_html_()
    moved = methodlint.transfer(ROOT / METHOD, to="bench-b")
    assert repr(moved).startswith("<Transfer of triazole-enantiomers to bench-b: feasible, ")
    assert "<td>oven temperature</td>" in moved._repr_html_()
