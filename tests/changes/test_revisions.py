"""From which commit a change is counted, and what is said where git cannot tell."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from datetime import date
from pathlib import Path

import pytest

from methodlint.changes.git import Git, NoAnswer
from tests.changes.repositories import CARD, OTHER, changed, commit, gate, git, told
from tests.command import run
from tests.reports.scratch_lab import change


def refused(folder: Path, *said: str, revision: str = "main") -> str:
    """The one line on standard error of a gate that cannot be asked."""
    done = gate(folder, revision=revision)
    assert (done.status, done.stdout) == (2, "")
    assert len(done.stderr.splitlines()) == 1
    for words in said:
        assert words in done.stderr
    return done.stderr


def mend(folder: Path, message: str) -> None:
    """Run the command that a message ends with, as somebody would who reads it."""
    command = message.partition("run: ")[2].strip() or message.partition("first: ")[2].strip()
    assert command.startswith("git ")
    git(folder, *(word.strip("'") for word in command.split()[1:]))


@pytest.mark.parametrize(
    "revision", ["origin/main", "no such branch", "main..change", " ", "\U0001f9ea", "x" * 300, "a\nb"]
)  # fmt: skip
def test_a_revision_that_is_not_there(repository: Path, revision: str) -> None:
    refused(repository, "there is no such commit here", revision=revision)


@pytest.mark.parametrize("revision", ["-h", "--help", "--all", "--output=ran", "-"])
def test_a_revision_that_looks_like_an_option_is_refused(repository: Path, revision: str) -> None:
    done = run("check", f"--changed-from={revision}", cwd=repository)
    assert (done.status, done.stdout) == (2, "")
    assert "does not begin with '-'" in done.stderr
    assert not (repository / "ran").exists()


@pytest.mark.parametrize("revision", ["main", "HEAD~1", "main^{commit}", "v1", "@{u}"])
def test_what_git_knows_a_commit_by(repository: Path, revision: str) -> None:
    git(repository, "tag", "-a", "-m", "first", "v1")
    git(repository, "branch", "-q", "-u", "main")
    (repository / CARD).write_text("kind: column\n", encoding="utf-8")
    commit(repository)
    assert changed(repository, revision) == [CARD]
    git(repository, "checkout", "-q", "--detach")
    assert changed(repository, "main") == [CARD]


def test_no_repository(tmp_path: Path) -> None:
    shutil.copytree(Path(__file__).parent, tmp_path / "folder", ignore=shutil.ignore_patterns("*"))
    refused(tmp_path / "folder", "git finds no work tree here", "not a git repository")


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() != 0, reason="only root gives away")
def test_a_repository_of_somebody_else_is_told_how_to_mend_it(
    repository: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Containers that code hosts run jobs in often find the work tree owned by another user."""
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("GIT_CONFIG_NOSYSTEM", "1")
    for path in (repository, *repository.rglob("*")):
        os.chown(path, 54_321, 54_321, follow_symlinks=False)
    said = refused(repository, "dubious ownership", "git config --global --add safe.directory")
    assert str(repository) in said
    git(
        tmp_path,
        "config",
        "--file",
        str(tmp_path / ".gitconfig"),
        "safe.directory",
        str(repository),
    )
    assert gate(repository).status == 0


def test_no_commit_yet(tmp_path: Path) -> None:
    git(tmp_path, "init", "-q", "-b", "main")
    refused(tmp_path, "has no commit yet")


def test_a_bare_repository(repository: Path, tmp_path: Path) -> None:
    git(tmp_path, "clone", "-q", "--bare", str(repository), "bare")
    refused(tmp_path / "bare", "git finds no work tree here")
    refused(repository / ".git", "git finds no work tree here")


def test_no_git(repository: Path, tmp_path: Path) -> None:
    """A `git` of the working folder is not taken for it, whatever the path says."""
    program = repository / "git"
    program.write_text(f"#!/bin/sh\ntouch {tmp_path}/ran\n", encoding="utf-8")
    program.chmod(0o755)
    for path in ("", ".", f":{tmp_path}", f".:lab/..:{tmp_path}"):
        done = run("check", "--changed-from", "main", cwd=repository, env={"PATH": path})
        assert (done.status, done.stdout) == (2, "")
        assert "git is not there" in done.stderr
    assert not (tmp_path / "ran").exists()


def test_histories_that_have_nothing_in_common(repository: Path) -> None:
    git(repository, "checkout", "-q", "--orphan", "other")
    commit(repository)
    refused(repository, "have no commit in common")


def test_the_later_of_several_merge_bases_is_no_way_around(repository: Path) -> None:
    """Two branches that were merged into each other: what differs from a base counts."""
    (repository / CARD).write_text("kind: column\n", encoding="utf-8")
    commit(repository)
    git(repository, "checkout", "-q", "main")
    (repository / OTHER).write_text("kind: method\n", encoding="utf-8")
    commit(repository)
    git(repository, "branch", "-q", "main-before")
    git(repository, "merge", "-q", "-m", "one way", "change")
    git(repository, "checkout", "-q", "change")
    git(repository, "merge", "-q", "-m", "the other way", "main-before")
    assert changed(repository) in ([CARD], [OTHER])


# Clones whose history or contents are cut off -------------------------------------------------


@pytest.fixture
def long_history(repository: Path) -> Path:
    """Some commits on both branches; the card is cut on one of them."""
    for branch in ("main", "change"):
        git(repository, "checkout", "-q", branch)
        for number in range(4):
            (repository / f"{branch}.yaml").write_text(f"a: {number}\n", encoding="utf-8")
            commit(repository)
    git(repository, "mv", CARD, CARD.replace("3um", "3um-b"))
    commit(repository)
    return repository


def cloned(repository: Path, *options: str) -> Path:
    to = repository.parent / "clone"
    git(repository.parent, "clone", "-q", *options, f"file://{repository}", str(to))
    return to


@pytest.mark.parametrize(
    "options",
    [
        ("--depth", "1", "--branch", "change"),
        ("--depth", "2", "--branch", "change", "--no-single-branch"),
    ],
)
def test_a_shallow_clone_is_told_how_to_mend_it(
    long_history: Path, options: tuple[str, ...]
) -> None:
    clone = cloned(long_history, *options)
    message = refused(clone, "this clone is shallow", revision="origin/main")
    mend(clone, message)
    data = told(clone, revision="origin/main")
    assert data["status"] == 2
    assert "document.reference-unresolved" in {f["rule"] for f in data["findings"]}


def test_a_shallow_clone_that_holds_the_base_will_do(long_history: Path) -> None:
    """What code hosts check out for a change: its merge, and the two commits that it joins."""
    git(long_history, "checkout", "-q", "--detach", "main")
    git(long_history, "merge", "-q", "--no-ff", "-m", "as it would be merged", "change")
    git(long_history, "branch", "merged")
    clone = cloned(long_history, "--depth", "2", "--branch", "merged")
    assert Git(clone).is_shallow
    assert CARD in changed(clone, "HEAD^1")


def test_a_shallow_clone_that_ends_between_the_base_and_a_tip_is_refused(
    repository: Path,
) -> None:
    """An older common commit is within reach where the nearest one is cut off."""
    git(repository, "checkout", "-q", "main")
    nearest = commit(repository, "nearest")
    git(repository, "checkout", "-q", "change")
    git(repository, "merge", "-q", "--no-ff", "-m", "take it in", "main")
    commit(repository, "on")
    git(repository, "checkout", "-q", "main")
    commit(repository, "on")
    first = git(repository, "rev-list", "--max-parents=0", "HEAD").strip()
    asked = Git(repository)
    tips = [git(repository, "rev-parse", branch).strip() for branch in ("main", "change")]
    assert asked.merge_base(*tips) == nearest
    (repository / ".git/shallow").write_text(f"{tips[0]}\n", encoding="ascii")
    assert asked.merge_base(*tips) is None
    (repository / ".git/shallow").write_text(f"{first}\n", encoding="ascii")
    assert asked.merge_base(*tips) == nearest


def test_a_branch_that_was_not_fetched_is_told_how_to(long_history: Path) -> None:
    clone = cloned(long_history, "--single-branch", "--branch", "change")
    message = refused(clone, "there is no such commit here", revision="origin/main")
    mend(clone, message)
    assert CARD in changed(clone, "origin/main")


def test_a_clone_without_contents_fetches_none_and_is_told_how_to(long_history: Path) -> None:
    git(long_history, "config", "uploadpack.allowFilter", "true")
    change(long_history / OTHER, "title:", "x-more: 1\ntitle:")
    commit(long_history)
    clone = cloned(long_history, "--filter=blob:none", "--branch", "change")
    git(clone, "config", "remote.origin.uploadpack", f"touch {clone}/ran; git-upload-pack")
    message = refused(clone, "does not hold all earlier contents", revision="origin/main")
    assert not (clone / "ran").exists()
    git(clone, "config", "--unset", "remote.origin.uploadpack")
    mend(clone, message)
    assert told(clone, revision="origin/main")["status"] == 2


def test_days_of_commits(repository: Path) -> None:
    asked = Git(repository)
    for day, expected in (
        ("2026-06-01T23:30:00+0200", date(2026, 6, 1)),
        ("2026-06-01T23:30:00-1100", date(2026, 6, 1)),
        ("2026-06-01T00:30:00+1400", date(2026, 6, 1)),
        ("1970-01-01T00:00:00Z", date(1970, 1, 1)),
    ):
        assert asked.day(commit(repository, day=day)) == expected
    # git itself writes no such date; whoever makes commits by hand does.
    tree = git(repository, "rev-parse", "HEAD^{tree}").strip()
    for stamp in ("-5 +0000", "99999999999999 +0000", "x +0000"):
        text = f"tree {tree}\nauthor a <a> 0 +0000\ncommitter a <a> {stamp}\n\ncommitter b <b> 1 +0000\n"
        odd = git(repository, "hash-object", "-t", "commit", "-w", "--literally", "--stdin",
                  text=text.encode())  # fmt: skip
        with pytest.raises(NoAnswer, match="--as-of DATE"):
            asked.day(odd.strip())


def test_the_fingerprint_of_a_content_is_gits_own(tmp_path: Path) -> None:
    """Both hashes that git names contents by."""
    for name in ("sha1", "sha256"):
        folder = tmp_path / name
        folder.mkdir()
        git(folder, "init", "-q", "-b", "main", f"--object-format={name}")
        (folder / "a.yaml").write_text("a: 1\n", encoding="utf-8")
        commit(folder)
        assert changed(folder) == []
        (folder / "a.yaml").write_text("a: 2\n", encoding="utf-8")
        assert changed(folder) == ["a.yaml"]


def test_the_readme_and_the_help_name_the_option() -> None:
    done = subprocess.run(["git", "--version"], capture_output=True, text=True, check=True)
    assert re.match(r"git version \d+\.", done.stdout)
    assert "--changed-from REVISION" in run("check", "--help").stdout
