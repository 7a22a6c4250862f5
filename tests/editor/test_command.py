"""The command that starts the server, and who does not import it."""

from __future__ import annotations

import importlib.machinery
import importlib.util
import subprocess
import sys
from pathlib import Path

import pytest

from methodlint.cli import main
from tests.reports.scratch_lab import ROOT


def test_without_the_extra_one_line_tells_what_to_install(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    find = importlib.util.find_spec

    def lacking(name: str, package: str | None = None) -> importlib.machinery.ModuleSpec | None:
        return None if name == "pygls" else find(name, package)

    monkeypatch.setattr(importlib.util, "find_spec", lacking)
    with pytest.raises(SystemExit) as ended:
        main(["editor"])
    assert ended.value.code == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.count("\n") == 1
    assert "pip install 'methodlint[editor]'" in told.err


def test_an_editor_that_goes_away_ends_the_server(tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "methodlint", "editor"],
        input=b"",
        capture_output=True,
        cwd=ROOT,
        timeout=60,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout == b""


@pytest.mark.parametrize(
    "arguments",
    [
        ["check", "example_methods/methods/triazole-enantiomers.yaml", "--cache", "off"],
        ["rules"],
        ["schema", "method"],
        ["editor", "--help"],
    ],
)
def test_no_other_command_imports_it(arguments: list[str]) -> None:
    script = (
        "import sys\nfrom methodlint.cli import main\n"
        f"try:\n    main({arguments!r})\nexcept SystemExit: pass\n"
        "names = {n for n in sys.modules if n.split('.')[0] in ('pygls', 'lsprotocol', 'asyncio')}\n"
        "names |= {n for n in sys.modules if n.startswith('methodlint.editor')}\n"
        "print(sorted(names), file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, cwd=ROOT, check=True
    )
    assert done.stderr.strip().splitlines()[-1] == "[]"
