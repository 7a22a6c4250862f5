"""Real git repositories with a small lab, for the tests of what a change touches."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from pathlib import Path
from typing import Any

from methodlint.changes.files import States
from methodlint.changes.git import Git
from tests.command import Done, run
from tests.reports.scratch_lab import EXAMPLES

CARD = "lab/columns/diol-3um.yaml"
USERS = ("lab/methods/dye-intermediates.yaml", "lab/methods/flavonoid-aglycones.yaml")
OTHER = "lab/methods/sulfonamides-in-honey.yaml"
RATING = "pressure.column-rating-exceeded"
LOST = "document.reference-unresolved"
DAY = "2026-06-01T12:00:00+0200"


def git(folder: Path, *arguments: str, day: str = DAY, text: bytes = b"") -> str:
    """Run git as its user does, without the settings of this machine."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith("GIT_")}
    settings = {"GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_SYSTEM": os.devnull}
    for role in ("AUTHOR", "COMMITTER"):
        settings[f"GIT_{role}_NAME"] = "separations laboratory"
        settings[f"GIT_{role}_EMAIL"] = "lab@example.org"
        settings[f"GIT_{role}_DATE"] = day
    done = subprocess.run(
        ["git", "-c", "protocol.file.allow=always", *arguments],
        cwd=folder, env=kept | settings, input=text, capture_output=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr.decode(errors="replace")
    return os.fsdecode(done.stdout)


def make(folder: Path, lab: str = "lab") -> Path:
    """Make a repository whose branch `main` holds a small lab, on a branch `change`."""
    folder.mkdir(parents=True)
    for name in (
        "lab.yaml", "columns/diol-3um.yaml", "columns/silica-3um.yaml", "instruments/bench-a.yaml",
        "sound/dye-intermediates.yaml", "sound/flavonoid-aglycones.yaml",
        "sound/sulfonamides-in-honey.yaml",
    ):  # fmt: skip
        to = folder / lab / name.replace("sound/", "methods/")
        to.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(EXAMPLES / name, to)
    git(folder, "init", "-q", "-b", "main")
    commit(folder, "methods in use")
    git(folder, "checkout", "-q", "-b", "change")
    return folder


def commit(folder: Path, why: str = "a change", day: str = DAY) -> str:
    """Commit everything that lies in the work tree."""
    git(folder, "add", "-A", "-f", "--", ".")
    git(folder, "commit", "-q", "--allow-empty", "-m", why, day=day)
    return git(folder, "rev-parse", "HEAD").strip()


def gate(folder: Path, *options: str, revision: str = "main") -> Done:
    """Gate a change as the README's script does."""
    return run("check", "--changed-from", revision, "--hold-new", *options, cwd=folder)


def told(folder: Path, *options: str, revision: str = "main") -> dict[str, Any]:
    """The gate's report, with its exit status."""
    done = gate(folder, "--show", "json", *options, revision=revision)
    assert done.stdout, done.stderr
    data: dict[str, Any] = json.loads(done.stdout)
    data["status"] = done.status
    return data


def places(data: dict[str, Any], rule: str) -> set[str]:
    """Files in which a rule has found something."""
    return {finding["path"] for finding in data["findings"] if finding["rule"] == rule}


def changed(folder: Path, revision: str = "main") -> list[str]:
    """What differs from the last common commit with a revision, without judging it."""
    asked = Git(folder)
    tip, head = asked.commit(revision), asked.commit("HEAD")
    assert tip is not None
    assert head is not None
    base = asked.merge_base(tip, head)
    assert base is not None
    states = States(asked.root)
    states.add(asked, base)
    return states.changed()
