"""The shipped boundary tables are what the generator makes, and a changed table is found."""

from __future__ import annotations

import shutil
from pathlib import Path

import numpy as np
import pytest

from methodlint.fluids.mixtures import make_boundary

pytestmark = pytest.mark.long


@pytest.mark.parametrize("name", ["methanol"])
def test_shipped_table_is_reproduced(name: str) -> None:
    assert make_boundary.main(["--check", "--only", name]) == 0


def test_a_changed_table_is_found(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for suffix in (".npz", ".json"):
        shutil.copy(make_boundary.DATA / f"boundary_ethanol{suffix}", tmp_path)
    path = tmp_path / "boundary_ethanol.npz"
    with np.load(path) as stored:
        arrays = dict(stored)
    arrays["upper"][3, 40] *= 1.01
    np.savez_compressed(path, **arrays)
    monkeypatch.setattr(make_boundary, "DATA", tmp_path)
    assert make_boundary.main(["--check", "--only", "ethanol"]) == 1
