"""Files of the working folder are never imported, whatever they are called."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.lab_rules.labs import lab
from tests.test_cli import ROOT


@pytest.mark.parametrize("name", ["click", "numpy", "pydantic", "ruamel", "rules"])
def test_a_module_beside_the_documents_is_not_imported(tmp_path: Path, name: str) -> None:
    sequence = lab(tmp_path, "name: A lab")
    (tmp_path / f"{name}.py").write_text(
        "open('trace.txt', 'w').write('it ran')\n", encoding="utf-8"
    )
    # The package itself comes from where it is installed, here from the checkout.
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    done = subprocess.run(
        [sys.executable, "-m", "methodlint", "check", sequence.name],
        cwd=tmp_path,
        env=environment,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    assert not (tmp_path / "trace.txt").exists()
