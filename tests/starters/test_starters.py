"""A starter asks for nothing but what is left to be filled in, and filled in it is a sound lab."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from methodlint.checking.check import check
from methodlint.commands.new import KINDS as NAMES
from methodlint.documents.library import FOLDERS
from methodlint.documents.loading import KINDS
from methodlint.documents.starters import starter
from tests.command import run

PAGE = Path(__file__).parents[2] / "example_methods" / "README.md"
LEFT = re.compile(r"<([^<>\n]*)>")
FILES = {
    "method": "enantiomers",
    "column": "diol-3um",
    "instrument": "bench-a",
    "supply": "yard-cylinder",
    "solvents": "bench-a-bottles",
    "room": "separations-room",
    "sequence": "day-batch",
    "logbook": "bench-a-log",
}


def test_every_kind_has_one() -> None:
    assert NAMES == KINDS
    assert set(FILES) == set(FOLDERS)


@pytest.mark.parametrize("kind", KINDS)
def test_only_what_is_left_to_be_filled_in_is_found(kind: str, tmp_path: Path) -> None:
    file = tmp_path / f"{kind}.yaml"
    file.write_text(starter(kind), encoding="utf-8")
    report = check(file)
    rules = {f.rule for f in report.findings if f.grade != "note"}
    assert rules == {"document.placeholder-left"}
    assert report.verdict == "do not run"


@pytest.mark.parametrize("kind", KINDS)
def test_everything_left_is_found(kind: str, tmp_path: Path) -> None:
    file = tmp_path / f"{kind}.yaml"
    file.write_text(starter(kind), encoding="utf-8")
    lines = {f.at.place.line for f in check(file).findings if f.rule.endswith("placeholder-left")}
    text = starter(kind).splitlines()
    wanted = {n for n, line in enumerate(text, 1) if LEFT.search(line) and line[0] != "#"}
    assert lines == wanted


def test_filled_in_they_are_a_sound_lab(tmp_path: Path) -> None:
    (tmp_path / "lab.yaml").write_text(LEFT.sub(r"\1", starter("lab")), encoding="utf-8")
    for kind, folder in FOLDERS.items():
        file = tmp_path / folder / f"{FILES[kind]}.yaml"
        file.parent.mkdir(exist_ok=True)
        file.write_text(LEFT.sub(r"\1", starter(kind)), encoding="utf-8")
    report = check(tmp_path)
    reported = [(f.grade, f.rule, f.message) for f in report.findings if f.grade != "note"]
    assert reported == []
    assert [(item.rule, item.missing, item.reason) for item in report.not_checked] == []
    assert report.verdict == "clear to run"


@pytest.mark.parametrize("kind", KINDS)
def test_every_starter_says_what_it_is(kind: str) -> None:
    text = starter(kind)
    assert text.startswith("# ")
    assert f"\nkind: {kind}\n" in text


def test_the_command_prints_or_writes_and_never_over_a_file(tmp_path: Path) -> None:
    assert run("new", "column").stdout == starter("column")
    file = tmp_path / "column.yaml"
    assert run("new", "column", "-o", str(file)).status == 0
    assert file.read_text(encoding="utf-8") == starter("column")
    file.write_text("mine\n", encoding="utf-8")
    again = run("new", "column", "-o", str(file))
    assert again.status == 2
    assert "already" in again.stderr
    assert file.read_text(encoding="utf-8") == "mine\n"


def test_the_commands_of_the_page_begin_a_lab_folder(tmp_path: Path) -> None:
    lines = PAGE.read_text(encoding="utf-8").splitlines()
    commands = [line.split()[1:] for line in lines if re.match(r"methodlint new \w+ -o ", line)]
    assert sorted(command[1] for command in commands) == sorted(KINDS)
    for command in commands:
        done = run(*command, cwd=tmp_path)
        assert (done.status, done.stderr) == (0, "")
        file = tmp_path / command[-1]
        file.write_text(LEFT.sub(r"\1", file.read_text(encoding="utf-8")), encoding="utf-8")
    report = check(tmp_path)
    assert [f.message for f in report.findings if f.grade != "note"] == []
    assert report.verdict == "clear to run"


def test_a_folder_that_cannot_be_made_is_refused_in_words(tmp_path: Path) -> None:
    (tmp_path / "columns").write_text("no folder\n", encoding="utf-8")
    done = run("new", "column", "-o", "columns/diol.yaml", cwd=tmp_path)
    assert done.status == 2
    assert done.stderr.startswith("methodlint: -o: cannot write columns/diol.yaml: ")


@pytest.mark.parametrize("kind", ["", "methods", "../lab", "lab.yaml"])
def test_no_other_file_is_read_as_a_starter(kind: str) -> None:
    with pytest.raises(KeyError):
        starter(kind)
