"""Names that wish a gate ill: each is judged as the document that it names, and nothing else."""

from __future__ import annotations

import json
import os
import shutil
from pathlib import Path

import pytest

from tests.changes.repositories import OTHER, changed, commit, gate, git, make
from tests.command import run

NAMES = (
    "--help", "--version", "-", "--", "-h", "--allow-rules=our-rules", "--given=supply.net_mass=1 kg",
    "--hold-at=stop", "--changed-from", "--output=x", "-c", "-Onull", "@{u}", "HEAD", "main",
    ":(glob)**", ":!methods", ":(top)", "*", "?", "[a-z]", "a b", " a", "a ", "a\nb", "\na", "a\tb",
    "a\rb", "a\\b", 'a"b', "a'b", "$(touch ran)", "`touch ran`", "a;touch ran", "|touch ran",
    "%s%n", "é", "e\u0301", "分離", "\u202eabc", "\x1b[2Jx", "::error::x", "a\udcffb", "\udc80",
    "~root", "C:x", "..a", "x" * 240,
)  # fmt: skip


def test_there_are_enough_of_them() -> None:
    assert len(set(NAMES)) >= 40


@pytest.fixture(scope="module")
def crowd(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A repository in which every such name is that of a method, changed since main."""
    folder = make(tmp_path_factory.mktemp("crowd") / "repository")
    text = (folder / OTHER).read_text("utf-8")
    git(folder, "checkout", "-q", "main")
    for name in NAMES:
        (folder / "lab/methods" / f"{name}.yaml").write_text(text, encoding="utf-8")
    commit(folder)
    git(folder, "checkout", "-q", "-B", "change")
    for name in NAMES:
        (folder / "lab/methods" / f"{name}.yaml").write_text(f"{text}flow_: 1\n", encoding="utf-8")
    commit(folder)
    return folder


def test_git_tells_every_name_as_it_is(crowd: Path) -> None:
    assert changed(crowd) == sorted(f"lab/methods/{name}.yaml" for name in NAMES)


@pytest.mark.long
def test_every_one_is_judged_and_none_acts(crowd: Path) -> None:
    done = gate(crowd, "--show", "json", "--write", "sarif=out", "--write", "annotations=said")
    assert done.status == 1
    assert done.err == b""
    assert not (crowd / "ran").exists()
    data = json.loads(done.out)
    found = [f for f in data["findings"] if f["rule"] == "document.unknown-key"]
    assert len(found) == len(NAMES)
    assert len({f["path"] for f in found}) == len(NAMES)
    shown = run("check", "--changed-from", "main", cwd=crowd).out.decode()
    assert all(character.isprintable() or character == "\n" for character in shown)
    lines = (crowd / "said").read_text("utf-8").splitlines()
    assert all(line.startswith(("::", "written by methodlint")) for line in lines)


@pytest.mark.parametrize(
    "name", [n for n in NAMES if n in ("--help", "a\nb", ":(glob)**", "a\udcffb", "\x1b[2Jx", "$(touch ran)")],
    ids=ascii,
)  # fmt: skip
def test_a_name_alone_is_judged(repository: Path, name: str) -> None:
    file = repository / "lab/methods" / f"{name}.yaml"
    shutil.copy(repository / OTHER, file)
    with file.open("a", encoding="utf-8") as stream:
        stream.write("flow_: 1\n")
    done = gate(repository, "--write", "junit=out.xml", "--write", "html=out.html")
    assert done.status == 1
    assert "flow_" in done.stdout
    assert all(character.isprintable() or character == "\n" for character in done.stdout)
    assert not (repository / "ran").exists()
    assert not (repository / "lab" / "ran").exists()


@pytest.mark.parametrize("end", ["\0", "\n"], ids=["NUL", "newline"])
@pytest.mark.parametrize("source", ["-", "list"])
def test_names_of_a_list_are_paths(crowd: Path, tmp_path: Path, end: str, source: str) -> None:
    names = [f"{name}.yaml" for name in ("--help", ":(glob)**", "a'b", "é", "a\udcffb")]
    text = os.fsencode(end.join(names) + end)
    (tmp_path / "list").write_bytes(text)
    done = run(
        "check", "--paths-from", "-" if source == "-" else tmp_path / "list", "--show", "json",
        cwd=crowd / "lab/methods", stdin=text if source == "-" else b"",
    )  # fmt: skip
    assert done.status == 1
    data = json.loads(done.out)
    found = [f for f in data["findings"] if f["rule"] == "document.unknown-key"]
    assert len(found) == len(names)


def test_a_list_is_read_to_its_end_whatever_its_lines_end_with(crowd: Path) -> None:
    folder = crowd / "lab/methods"
    done = run("check", "--paths-from", "-", cwd=folder, stdin=b"--.yaml\r\n-h.yaml\r\n")
    assert done.status == 1
    assert "--.yaml, line" in done.stdout
    assert "-h.yaml, line" in done.stdout
    done = run("check", "--paths-from", "-", cwd=folder, stdin=b"a\nb.yaml\0")
    assert done.status == 1
    assert r"a\nb.yaml, line" in done.stdout
    done = run("check", "--paths-from", "-", cwd=folder, stdin=b"gone.yaml\n")
    assert done.status == 2
    assert "gone.yaml" in done.stderr
    done = run("check", "--paths-from", "-", cwd=folder, stdin=b"")
    assert done.status == 2, "an empty list names nothing"
    done = run("check", "--dependents", "--paths-from", "-", cwd=folder, stdin=b"")
    assert done.status == 0, "but nothing may have changed"
    assert run("check", "--paths-from", "no-list", cwd=folder).status == 2
    assert run("check", cwd=folder).status == 2


def test_removed_names_of_a_list_are_heeded(repository: Path) -> None:
    (repository / "lab/columns/diol-3um.yaml").unlink()
    names = b"lab/columns/diol-3um.yaml\0--gone.yaml\0"
    done = run("check", "--dependents", "--paths-from", "-", cwd=repository, stdin=names)
    assert done.status == 2
    assert "dye-intermediates.yaml" in done.stdout


def test_an_option_behind_the_dashes_is_no_silent_path(repository: Path) -> None:
    done = run("check", "--dependents", "--", "lab/lab.yaml", "--hold-at", "stop", cwd=repository)
    assert done.status == 2
    assert "--hold-at" in done.stderr
