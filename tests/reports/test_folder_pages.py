"""A folder written as linked pages, and a comparison as a page."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from methodlint.reports.html.folder_pages import INDEX, folder_pages
from methodlint.reports.overview import overview_rows, row_verdict
from tests.command import ROOT, run
from tests.reports.page_read import page_of
from tests.reports.scratch_lab import copy_lab, example


@pytest.fixture(scope="module")
def pages() -> dict[str, str]:
    return folder_pages(example("flawed", notes=True))


def test_every_link_leads_to_a_page_and_back(pages: dict[str, str]) -> None:
    links = [link.attributes["href"] for link in page_of(pages[INDEX]).all("a")]
    assert sorted(links) == sorted(pages.keys() - {INDEX})
    for name in links:
        assert [link.attributes["href"] for link in page_of(pages[name]).all("a")] == [INDEX]


def test_a_page_has_the_verdict_of_its_row(pages: dict[str, str]) -> None:
    report = example("flawed").report
    told = {}
    for row in page_of(pages[INDEX]).all("tbody")[0].all("tr"):
        (link,) = row.all("a")
        told[link.text] = row.all("td")[1].text, link.attributes["href"]
    for row in overview_rows(report):
        verdict, name = told[row.path]
        assert verdict == row_verdict(report, row)
        banner = page_of(pages[name]).all("strong")[0].text
        # A method without its bench is not cleared; its page says what is missing.
        assert banner == ("RUN WITH CARE" if verdict == "judged in part" else verdict.upper())


def test_no_finding_is_lost(pages: dict[str, str]) -> None:
    everything = [page_of(text).text for text in pages.values()]
    for finding in example("flawed").report.findings:
        assert any(finding.rule in text for text in everything), finding.rule


def test_names_of_files_that_differ_by_case_alone_are_told_apart(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    text = (lab / "methods" / "flavonoid-aglycones.yaml").read_bytes()
    (lab / "methods" / "Flavonoid-Aglycones.yaml").write_bytes(text)
    (lab / "methods" / "flavonoid aglycones.yaml").write_bytes(text)
    done = run("check", "methods", "--write", "html=pages/", cwd=lab)
    written = {file.name.lower() for file in (lab / "pages").iterdir()}
    assert len(written) == len(list((lab / "pages").iterdir()))
    assert len(written) == len(list((lab / "methods").iterdir())) + 1
    assert done.status in (0, 1)


def test_written_twice_and_never_over_what_others_wrote(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    command = ("check", "methods/flavonoid-aglycones.yaml", "--write", "html=pages/")
    assert run(*command, cwd=lab).status == 0
    assert run(*command, cwd=lab).status == 0
    (lab / "pages" / INDEX).write_text("mine", encoding="utf-8")
    done = run(*command, cwd=lab)
    assert done.status == 2
    assert "index.html" in done.stderr
    assert (lab / "pages" / INDEX).read_text(encoding="utf-8") == "mine"


def test_a_folder_that_cannot_be_made_is_said(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    (lab / "taken").write_text("a file", encoding="utf-8")
    done = run("check", "methods/flavonoid-aglycones.yaml", "--write", "html=taken/pages/", cwd=lab)
    assert done.status == 2
    assert "taken" in done.stderr
    assert len(done.stderr.splitlines()) == 1


def test_a_comparison_as_a_page() -> None:
    method = "example_methods/methods/triazole-enantiomers.yaml"
    command = ("compare", method, "--with", "oven_temperature=50 degC", "--show")
    done = run(*command, "html", cwd=ROOT)
    words = run(*command, "words", cwd=ROOT).stdout
    page = page_of(done.stdout)
    assert "CLEAR TO RUN -> DO NOT RUN" in page.text
    assert "column.temperature-exceeded" in page.text
    figures = {
        row.all("th")[0].text: [cell.text for cell in row.all("td")]
        for row in page.all("tbody")[0].all("tr")
    }
    old, new = figures["highest pump pressure"][:2]
    assert f"{old} -> {new}" in re.sub(r"\s+", " ", words)
