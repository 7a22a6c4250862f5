"""The README's script gates a change of a scratch repository as the README says."""

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

from tests.reports.scratch_lab import EXAMPLES, ROOT, change, copy_lab, line_of
from tests.reports.test_change_gate import CARD, RULE, git

OLD = "terpenoids-hot-and-low.yaml"
README = (ROOT / "README.md").read_text(encoding="utf-8")
pytestmark = pytest.mark.skipif(shutil.which("bash") is None, reason="the script is for bash")


@pytest.fixture
def repository(tmp_path: Path) -> Path:
    """A repository with sound and flawed documents, and a branch to change it on."""
    found = re.search(r"<!-- gate -->\n```bash\n(.*?)```", README, re.DOTALL)
    assert found
    (tmp_path / "gate.sh").write_text(found.group(1), encoding="utf-8")
    folder = tmp_path / "work"
    folder.mkdir()
    lab = copy_lab(folder)
    # Something is wrong in the base already.
    shutil.copy(EXAMPLES / "flawed" / OLD, lab / "methods")
    git(folder, "init", "-q", "-b", "main")
    git(folder, "add", ".")
    git(folder, "commit", "-q", "-m", "methods in use")
    git(folder, "checkout", "-q", "-b", "change")
    return folder


def gate(repository: Path, show: str = "words") -> subprocess.CompletedProcess[str]:
    tools = repository.parent / "bin"
    tools.mkdir(exist_ok=True)
    command = tools / "methodlint"
    command.write_text(f'#!/bin/sh\nexec {sys.executable} -m methodlint "$@"\n', encoding="utf-8")
    command.chmod(0o755)
    environment = {
        **os.environ,
        "PATH": f"{tools}{os.pathsep}{os.environ['PATH']}",
        "PYTHONPATH": str(ROOT),
        "GIT_CONFIG_GLOBAL": "/dev/null",
    }
    return subprocess.run(
        ["bash", repository.parent / "gate.sh", "main", show],
        cwd=repository, env=environment, capture_output=True, text=True, timeout=120, check=False,
    )  # fmt: skip


def commit(repository: Path) -> None:
    git(repository, "add", "-A")
    git(repository, "commit", "-q", "-m", "a change")


def test_a_harmless_change_passes_although_something_was_wrong_before(repository: Path) -> None:
    old = repository / "lab/methods" / OLD
    old.write_text("# looked at again\n" + old.read_text("utf-8"), encoding="utf-8")
    change(repository / CARD, "title:", "\n# the same card\ntitle:")
    commit(repository)
    done = gate(repository)
    assert done.returncode == 0, done.stdout + done.stderr
    assert done.stdout.startswith("DO NOT RUN")
    assert "AGAINST THE BASE REPORT 0 new, 0 worse" in done.stdout


def test_a_card_edit_fails_and_says_where(repository: Path) -> None:
    change(repository / CARD, "pressure_rating: 400 bar", "pressure_rating: 200 bar")
    commit(repository)
    done = gate(repository, "annotations")
    assert done.returncode != 0
    line = line_of(repository / CARD, "pressure_rating")
    user = "lab/methods/dye-intermediates.yaml"
    own = line_of(repository / user, "column:")
    assert f"::error file={user},line={own}," in done.stdout
    assert f"where: {CARD}, line {line}: pressure_rating" in done.stdout
    sarif = json.loads((repository / "methods.sarif").read_text("utf-8"))
    results = [r for r in sarif["runs"][0]["results"] if r["ruleId"] == RULE]
    assert {r["baselineState"] for r in results} == {"new"}
    assert f"`{CARD}`, line {line}" in (repository / "methods.md").read_text("utf-8")
    suites = junitparser.JUnitXml.fromfile(str(repository / "methods.xml"))
    assert any(case.name == RULE and case.result for suite in suites for case in suite)


@pytest.mark.long
def test_a_removed_card_fails(repository: Path) -> None:
    (repository / CARD).unlink()
    commit(repository)
    done = gate(repository)
    assert done.returncode != 0
    assert "document.reference-unresolved" in done.stdout


@pytest.mark.long
def test_a_change_of_nothing_that_is_ours_passes(repository: Path) -> None:
    (repository / "notes").write_text("no method\n", encoding="utf-8")
    commit(repository)
    assert gate(repository).returncode == 0


def test_the_yaml_of_the_readme_is_yaml_and_names_our_hooks() -> None:
    blocks = re.findall(r"```yaml\n(.*?)```", README, re.DOTALL)
    read = [YAML(typ="safe").load(block) for block in blocks]
    (hooks,) = [data["repos"][0]["hooks"] for data in read if "repos" in (data or {})]
    known = {
        hook["id"]
        for hook in YAML(typ="safe").load((ROOT / ".pre-commit-hooks.yaml").read_text("utf-8"))
    }
    assert {hook["id"] for hook in hooks} <= known
    assert "methodlint-all" in known
