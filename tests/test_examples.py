"""The example lab: sound documents are clear, flawed ones are found, broken ones are told apart."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from methodlint.checking.check import check
from tests.pictures import pictures
from tests.refresh_expected import documents, expected_of, report_of

ROOT = Path(__file__).resolve().parent.parent
SOUND = sorted((ROOT / "example_methods" / "sound").glob("*.yaml"))
FLAWED = documents()


@pytest.fixture(autouse=True)
def _at_the_root(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)


def test_examples_were_found() -> None:
    assert len(SOUND) >= 6
    assert len(FLAWED) >= 10


@pytest.mark.parametrize("file", SOUND, ids=lambda f: f.stem)
def test_a_sound_document_is_clear_to_run(file: Path) -> None:
    report = check(file.relative_to(ROOT))
    reported = [(f.rule, f.message) for f in report.findings if f.grade != "note"]
    assert reported == []
    assert [(n.rule, n.missing) for n in report.unchecked_stops] == []
    assert report.verdict == "clear to run"
    assert report.exit_status() == 0


@pytest.mark.parametrize("file", FLAWED, ids=lambda f: f.stem)
def test_a_flawed_document_gets_the_report_beside_it(file: Path) -> None:
    assert report_of(file) == expected_of(file).read_text(encoding="utf-8")


def test_the_flawed_folder_is_not_to_be_run() -> None:
    report = check("example_methods/flawed")
    assert report.verdict == "do not run"
    assert not report.unreadable, "every reference of a flawed document resolves"
    assert report.exit_status() == 1


def test_the_unreadable_folder_could_not_be_judged() -> None:
    report = check("example_methods/unreadable")
    assert report.exit_status() == 2
    paths = {finding.at.document.path for finding in report.findings}
    files = sorted((ROOT / "example_methods" / "unreadable").glob("*.yaml"))
    assert paths == {file.relative_to(ROOT).as_posix() for file in files}


def test_the_pictures_show_what_comes_out() -> None:
    for file, text in pictures().items():
        assert file.read_text(encoding="utf-8") == text, f"{file.name} is stale"
        assert file.relative_to(ROOT).as_posix() in (ROOT / "README.md").read_text("utf-8")


def test_the_readme_is_read_in_one_go_and_its_links_lead_somewhere() -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    assert len(text.encode()) <= 8_000
    links = re.findall(r"\]\(([^)#]+)[^)]*\)", text)
    assert [link for link in links if not (ROOT / link).exists()] == []
