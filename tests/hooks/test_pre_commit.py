"""Hooks for pre-commit: the manifest, and a scratch repository that uses it."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import pytest
from ruamel.yaml import YAML

from tests.reports import readers
from tests.reports.scratch_lab import ROOT, change, copy_lab, line_of
from tests.reports.test_change_gate import git

MANIFEST = ROOT / ".pre-commit-hooks.yaml"
CARD = "lab/columns/diol-3um.yaml"


def hooks() -> dict[str, dict[str, object]]:
    return {hook["id"]: hook for hook in YAML(typ="safe").load(MANIFEST.read_text("utf-8"))}


def test_what_has_changed_is_given_as_names_to_one_process() -> None:
    hook = hooks()["methodlint"]
    assert hook["types"] == ["yaml"]
    assert hook["require_serial"] is True
    assert hook["language"] == "python"


@pytest.mark.second_reader
def test_the_manifest_is_valid() -> None:
    program = readers.script("pre-commit", "pre-commit")
    done = subprocess.run(
        [program, "validate-manifest", MANIFEST], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout


@pytest.fixture(scope="module")
def hook_repository(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The package as a repository that hooks are installed from."""
    folder = tmp_path_factory.mktemp("package") / "methodlint-hooks"
    folder.mkdir()
    leave = shutil.ignore_patterns("__pycache__", "*.pyc")
    for name in ("methodlint", "rules"):
        shutil.copytree(ROOT / name, folder / name, ignore=leave)
    for name in ("pyproject.toml", "README.md", "LICENSE", ".pre-commit-hooks.yaml"):
        shutil.copy(ROOT / name, folder)
    git(folder, "init", "-q", "-b", "main")
    git(folder, "add", "-f", ".")
    git(folder, "commit", "-q", "-m", "the package")
    return folder


@pytest.mark.second_reader
def test_a_scratch_repository_uses_the_hook(hook_repository: Path, tmp_path: Path) -> None:
    program = readers.script("pre-commit", "pre-commit")
    lab = copy_lab(tmp_path)
    (lab / "other.yaml").write_text("steps: [build, test]\n", encoding="utf-8")
    (tmp_path / "service.yaml").write_text(
        "kind: Deployment\n---\nkind: Service\n", encoding="utf-8"
    )
    git(tmp_path, "init", "-q", "-b", "main")
    git(tmp_path, "add", ".")
    git(tmp_path, "commit", "-q", "-m", "methods in use")
    # The environment is built once and kept beside the package for both runs.
    environment = {
        **os.environ,
        "PRE_COMMIT_HOME": str(hook_repository.parent / "kept"),
        "PRE_COMMIT_COLOR": "never",
        "GIT_CONFIG_GLOBAL": "/dev/null",
    }

    def hook(*arguments: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [program, "try-repo", hook_repository, *arguments],
            cwd=tmp_path, env=environment, capture_output=True, text=True, timeout=540,
            check=False,
        )  # fmt: skip

    sound = hook("methodlint", "--files", CARD, "lab/other.yaml", "service.yaml")
    assert sound.returncode == 0, sound.stdout + sound.stderr
    assert "Passed" in sound.stdout

    card = tmp_path / CARD
    change(card, "pressure_rating: 400 bar", "pressure_rating: 200 bar")
    git(tmp_path, "add", ".")
    held = hook("methodlint")
    assert held.returncode == 1, held.stdout + held.stderr
    assert "exit code: 1" in held.stdout
    assert f"{CARD}, line {line_of(card, 'pressure_rating')}: pressure_rating" in held.stdout
    assert "flavonoid-aglycones" in held.stdout
    assert "dye-intermediates" in held.stdout
    assert "service.yaml" not in held.stdout
