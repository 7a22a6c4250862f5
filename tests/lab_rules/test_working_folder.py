"""Files of the working folder are never imported, whatever they are called."""

from __future__ import annotations

from pathlib import Path

from tests.command import process
from tests.lab_rules.labs import lab


def test_a_module_beside_the_documents_is_not_imported(tmp_path: Path) -> None:
    sequence = lab(tmp_path, "name: A lab")
    for name in ("click", "json", "numpy", "pydantic", "ruamel", "rules"):
        (tmp_path / f"{name}.py").write_text(
            f"open('trace-{name}.txt', 'w').write('it ran')\n", encoding="utf-8"
        )
    # The package itself comes from where it is installed, here from the checkout.
    done = process("check", sequence.name, cwd=tmp_path)
    assert [trace.name for trace in tmp_path.glob("trace-*")] == []
    assert done.status == 0, done.stderr
