"""A repository whose settings wish ill: git is asked, and nothing that it brings along is run."""

from __future__ import annotations

import os
import shutil
import stat
import subprocess
from pathlib import Path

import pytest

from methodlint.changes.files import States
from methodlint.changes.git import Git, NoAnswer, TreeEntry
from tests.changes.repositories import CARD, changed, commit, gate, git
from tests.command import run
from tests.reports.scratch_lab import change

HOOKS = ("post-index-change", "post-checkout", "pre-commit", "reference-transaction",
         "fsmonitor-watchman", "post-rewrite", "pre-auto-gc")  # fmt: skip
EVERYTHING = (
    "core.fsmonitor", "core.pager", "core.editor", "core.sshCommand", "core.gitProxy", "diff.external",
    "diff.evil.textconv", "diff.evil.command", "filter.evil.clean", "filter.evil.smudge",
    "filter.evil.process", "merge.evil.driver", "pager.ls-files", "pager.cat-file",
    "alias.ls-files", "alias.rev-parse", "alias.cat-file", "credential.helper", "gpg.program",
    "core.alternateRefsCommand", "remote.origin.uploadpack", "sequence.editor", "interactive.diffFilter",
)  # fmt: skip


@pytest.fixture
def hostile(repository: Path) -> tuple[Path, Path]:
    """A repository in which each setting that names a program names one that leaves a trace."""
    trace = repository.parent / "trace"
    program = repository.parent / "evil"
    program.write_text(f'#!/bin/sh\necho "$0 $*" >> {trace}\ncat\n', encoding="utf-8")
    program.chmod(0o755)
    hooks = repository / ".git" / "evil-hooks"
    hooks.mkdir()
    for name in HOOKS:
        shutil.copy(program, hooks / name)
        shutil.copy(program, repository / ".git/hooks" / name)
    change(repository / CARD, "pressure_rating: 400 bar", "pressure_rating: 200 bar")
    (repository / ".gitattributes").write_text("* diff=evil filter=evil merge=evil\n")
    commit(repository)
    for name in EVERYTHING:
        git(repository, "config", name, str(program))
    git(repository, "config", "core.hooksPath", str(hooks))
    git(repository, "config", "filter.evil.required", "true")
    git(repository, "config", "log.showSignature", "true")
    trace.unlink(missing_ok=True)
    return repository, trace


def test_the_settings_do_run_programs(hostile: tuple[Path, Path]) -> None:
    """The trap is worth something: a careless question springs it."""
    repository, trace = hostile
    (repository / CARD).write_text("kind: column\n", encoding="utf-8")
    with pytest.raises(AssertionError):
        git(repository, "diff", "main")
    assert trace.exists()


def test_nothing_of_a_hostile_repository_is_run(hostile: tuple[Path, Path]) -> None:
    repository, trace = hostile
    done = gate(repository)
    assert done.status == 1, done.stderr
    (repository / CARD).write_text("kind: column\n", encoding="utf-8")
    os.utime(repository / "lab/lab.yaml", (1, 1))
    assert gate(repository).status == 0
    assert not trace.exists()


def test_git_is_asked_by_lists_of_arguments_that_only_read(
    repository: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[tuple[list[str], dict[str, object]]] = []
    real = subprocess.run

    def watched(arguments: list[str], **options: object) -> object:
        asked.append((arguments, options))
        return real(arguments, **options)  # type: ignore[call-overload]

    monkeypatch.setattr(subprocess, "run", watched)
    (repository / CARD).write_text("kind: column\n", encoding="utf-8")
    assert run("check", CARD, "--dependents", cwd=repository).status == 0
    assert asked == [], "no other check starts a process"
    gate(repository, revision="main~0")
    commands = set()
    for arguments, options in asked:
        assert os.path.isabs(arguments[0])
        assert not options.get("shell")
        environment = options["env"]
        assert isinstance(environment, dict)
        assert environment["GIT_NO_LAZY_FETCH"] == environment["GIT_NO_REPLACE_OBJECTS"] == "1"
        commands.add(next(a for a in arguments[1:] if not a.startswith("-") and "=" not in a))
    assert commands == {"rev-parse", "merge-base", "ls-tree", "ls-files", "cat-file"}


def test_the_index_and_the_repository_are_left_alone(hostile: tuple[Path, Path]) -> None:
    repository, _ = hostile

    def state() -> dict[str, tuple[int, int]]:
        files = [file for file in (repository / ".git").rglob("*") if file.is_file()]
        return {str(f): (f.stat().st_mtime_ns, stat.S_IMODE(f.stat().st_mode)) for f in files}

    before = state()
    os.utime(repository / "lab/lab.yaml", (1, 1))
    gate(repository)
    assert state() == before


def test_the_environment_says_nothing_about_the_repository(
    hostile: tuple[Path, Path], tmp_path: Path
) -> None:
    """A hook runs with `GIT_DIR` and others set; so may whoever wishes ill."""
    repository, trace = hostile
    program = repository.parent / "evil"
    other = tmp_path / "other"
    other.mkdir()
    git(other, "init", "-q", "-b", "main")
    names = {
        "GIT_DIR": str(other / ".git"), "GIT_WORK_TREE": str(other), "GIT_EXTERNAL_DIFF": str(program),
        "GIT_INDEX_FILE": str(other / "index"), "GIT_PAGER": str(program), "GIT_SSH": str(program),
        "GIT_CONFIG_COUNT": "1", "GIT_CONFIG_KEY_0": "core.fsmonitor", "GIT_OBJECT_DIRECTORY": "/x",
        "GIT_CONFIG_VALUE_0": str(program), "GIT_EXEC_PATH": str(other), "GIT_TRACE": "1",
        "GIT_REPLACE_REF_BASE": "refs/heads/", "GIT_LITERAL_PATHSPECS": "0", "PAGER": str(program),
        "GIT_TEMPLATE_DIR": str(other), "GIT_NAMESPACE": "x", "GIT_CEILING_DIRECTORIES": str(repository),
    }  # fmt: skip
    done = run("check", "--changed-from", "main", cwd=repository, env=names)
    assert (done.status, done.stderr) == (1, "")
    assert not trace.exists()


def test_an_object_that_replaces_another_is_not_heeded(repository: Path) -> None:
    """With it, the base would already hold the weaker column."""
    change(repository / CARD, "pressure_rating: 400 bar", "pressure_rating: 200 bar")
    commit(repository)
    assert changed(repository) == [CARD]
    old, new = (git(repository, "rev-parse", f"{name}:{CARD}").strip() for name in ("main", "HEAD"))
    git(repository, "replace", old, new)
    tree, other = (
        git(repository, "rev-parse", f"{name}^{{tree}}").strip() for name in ("main", "HEAD")
    )
    git(repository, "replace", tree, other)
    assert changed(repository) == [CARD]
    assert gate(repository).status == 1


def test_a_folder_that_looks_like_a_repository_is_none(repository: Path) -> None:
    """A change may bring a folder with HEAD, objects and refs; its settings are not read."""
    trap = repository / "lab/trap"
    git(repository, "init", "-q", "--bare", str(trap))
    trace = repository.parent / "trace"
    git(trap, "config", "core.fsmonitor", f"touch {trace}")
    git(trap, "config", "core.worktree", str(repository))
    git(trap, "config", "core.bare", "false")
    done = gate(trap)
    assert done.status == 2
    assert "git finds no work tree here" in done.stderr
    assert not trace.exists()


def test_a_work_tree_elsewhere_is_refused(repository: Path, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    git(repository, "config", "core.worktree", str(tmp_path / "elsewhere"))
    assert gate(repository).status == 2


@pytest.mark.parametrize(
    "name", ["../out.yaml", ".git/x.yaml", ".GIT", "/tmp/x.yaml", "a//b.yaml", "./c.yaml", ".."]
)
def test_no_name_of_a_commit_leads_out_of_the_folder(repository: Path, name: str) -> None:
    """No commit that git itself makes holds such a name; one made by hand may."""
    card = git(repository, "rev-parse", f"main:{CARD}").strip()
    raw = b"100644 " + name.encode() + b"\0" + bytes.fromhex(card)
    make = ("hash-object", "-t", "tree", "-w", "--literally", "--stdin")
    tree = git(repository, *make, text=raw).strip()
    odd = git(repository, "commit-tree", "-m", "odd", "-p", "main", tree).strip()
    git(repository, "branch", "-f", "odd", odd)
    git(repository, "reset", "-q", "--soft", odd)
    done = gate(repository, revision="odd")
    assert done.status == 2
    assert "a name that is none of a file" in done.stderr
    assert not (repository.parent / "out.yaml").exists()


def test_nothing_is_written_through_a_link_of_the_base(repository: Path, tmp_path: Path) -> None:
    asked = Git(repository)
    states = States(asked.root, owners={"": asked})
    card = git(repository, "rev-parse", f"main:{CARD}").strip()
    outside = tmp_path / "outside"
    outside.mkdir()
    link = git(repository, "hash-object", "-w", "--stdin", text=os.fsencode(outside)).strip()
    states.before = {"lab/a": TreeEntry("120000", link), "lab/a/b.yaml": TreeEntry("100644", card)}
    folder = tmp_path / "before"
    folder.mkdir()
    with pytest.raises(NoAnswer, match="cannot be written"):
        states.write_before(["lab/a/b.yaml"], folder)
    assert list(outside.iterdir()) == []
