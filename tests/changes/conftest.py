"""A repository for each test, copied from one that is made once."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from tests.changes.repositories import make


@pytest.fixture(scope="session")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The repository that no test changes."""
    return make(tmp_path_factory.mktemp("kept") / "repository")


@pytest.fixture
def repository(kept: Path, tmp_path: Path) -> Path:
    """A copy to change."""
    return shutil.copytree(kept, tmp_path / "repository", symlinks=True)
