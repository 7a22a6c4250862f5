"""The command of DEVELOPERS.md gates a change of a scratch repository as it says there."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import junitparser
import pytest
from ruamel.yaml import YAML

from tests.changes.repositories import CARD, OTHER, RATING, USERS, commit, git
from tests.command import ROOT
from tests.reports.scratch_lab import change, line_of

PAGE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
HOOKS = YAML(typ="safe").load((ROOT / ".pre-commit-hooks.yaml").read_text("utf-8"))
pytestmark = pytest.mark.skipif(shutil.which("bash") is None, reason="the command is for a shell")


def the_gate() -> str:
    found = re.search(r"<!-- gate -->\n```bash\n(.*?)```", PAGE, re.DOTALL)
    assert found
    return found.group(1)


def gate(repository: Path) -> subprocess.CompletedProcess[str]:
    """Run its text as a shell does, with `main` as the branch of a code host."""
    git(repository, "update-ref", "refs/remotes/origin/main", "main")
    tools = repository.parent / "bin"
    tools.mkdir(exist_ok=True)
    command = tools / "methodlint"
    command.write_text(f'#!/bin/sh\nexec {sys.executable} -m methodlint "$@"\n', encoding="utf-8")
    command.chmod(0o755)
    environment = {
        **os.environ,
        "PATH": f"{tools}{os.pathsep}{os.environ['PATH']}",
        "PYTHONPATH": str(ROOT),
    }
    return subprocess.run(
        ["bash", "-euo", "pipefail", "-c", the_gate()],
        cwd=repository, env=environment, capture_output=True, text=True, timeout=120, check=False,
    )  # fmt: skip


def test_the_gate_is_two_lines() -> None:
    assert len(the_gate().splitlines()) == 2
    assert the_gate().startswith("methodlint check --changed-from origin/main --hold-new")


def test_a_harmless_change_passes(repository: Path) -> None:
    change(repository / CARD, "title:", "\n# the same card\ntitle:")
    commit(repository)
    done = gate(repository)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "AGAINST THE BASE REPORT 0 new, 0 worse" in done.stdout


def test_a_card_edit_fails_and_says_where(repository: Path) -> None:
    change(repository / CARD, "pressure_rating: 400 bar", "pressure_rating: 200 bar")
    commit(repository)
    done = gate(repository)
    assert done.returncode == 1
    line = line_of(repository / CARD, "pressure_rating")
    assert f"{CARD}, line {line}: pressure_rating" in done.stdout
    sarif = json.loads((repository / "methods.sarif").read_text("utf-8"))
    results = [r for r in sarif["runs"][0]["results"] if r["ruleId"] == RATING]
    assert {r["baselineState"] for r in results} == {"new"}
    assert f"`{CARD}`, line {line}" in (repository / "methods.md").read_text("utf-8")
    suites = junitparser.JUnitXml.fromfile(str(repository / "methods.xml"))
    failed = {s.name for s in suites for case in s if case.name == RATING and case.result}
    assert failed == set(USERS)


@pytest.mark.long
def test_a_removed_card_fails(repository: Path) -> None:
    (repository / CARD).unlink()
    commit(repository)
    done = gate(repository)
    assert done.returncode == 2
    assert "document.reference-unresolved" in done.stdout


@pytest.mark.long
def test_a_change_of_nothing_that_is_ours_passes(repository: Path) -> None:
    (repository / "notes").write_text("no method\n", encoding="utf-8")
    commit(repository)
    assert gate(repository).returncode == 0


def test_the_yaml_of_the_page_is_yaml_and_names_our_hooks() -> None:
    blocks = re.findall(r"```yaml\n(.*?)```", PAGE, re.DOTALL)
    read = [YAML(typ="safe").load(block) for block in blocks]
    (hooks,) = [data["repos"][0]["hooks"] for data in read if "repos" in (data or {})]
    known = {hook["id"] for hook in HOOKS}
    assert {hook["id"] for hook in hooks} <= known
    assert {"methodlint-all", "methodlint-change"} <= known


def hook(name: str, repository: Path, *files: str) -> subprocess.CompletedProcess[str]:
    """Run a hook's entry as the program does that hooks are installed with."""
    (entry,) = [hook for hook in HOOKS if hook["id"] == name]
    words = [*entry["entry"].split(), *entry.get("args", []), *files]
    return subprocess.run(
        [sys.executable, "-m", *words], cwd=repository, env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True, text=True, timeout=120, check=False,
    )  # fmt: skip


def test_no_name_that_a_hook_is_given_is_an_option(repository: Path) -> None:
    """A change may bring such files, and the hook is given their names."""
    change(repository / CARD, "pressure_rating: 400 bar", "pressure_rating: 200 bar")
    names = ["--given=column.pressure_rating=900 bar.yaml", "--help.yaml", "--hold-at=stop.yaml"]
    for name in names:
        (repository / name).write_text("a: 1\n", encoding="utf-8")
    assert all(h["entry"].endswith(" --") for h in HOOKS if h.get("pass_filenames", True))
    done = hook("methodlint", repository, *names, CARD)
    assert done.returncode == 1, done.stdout + done.stderr
    assert RATING in done.stdout


def test_hooks_judge_dates_by_today(repository: Path) -> None:
    assert all("--as-of today" in h["entry"] for h in HOOKS)
    change(repository / CARD, "pressure_rating: 400 bar", "pressure_rating: 200 bar")
    text = (
        f"deviations:\n  - {{rule: {RATING}, reason: tried at the bench, approved_by: A. Head, "
        "until: 2020-12-31}\n"
    )
    for user in USERS:
        with (repository / user).open("a", encoding="utf-8") as stream:
            stream.write(text)
    assert hook("methodlint", repository, *USERS).returncode == 1


@pytest.mark.long
def test_the_hook_for_a_whole_change_sees_what_is_removed(repository: Path) -> None:
    git(repository, "rm", "-q", CARD)
    done = hook("methodlint-change", repository)
    assert done.returncode == 2
    assert f"{USERS[0]}, line" in done.stdout
    git(repository, "reset", "-q", "--hard")
    git(repository, "rm", "-q", OTHER)
    done = hook("methodlint-change", repository)
    assert done.returncode == 0
    assert "LOOSENED BY THIS CHANGE" in done.stdout
