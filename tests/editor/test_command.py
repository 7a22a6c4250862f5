"""The command that starts the server."""

from __future__ import annotations

import importlib.machinery
import importlib.util

import pytest

from methodlint.cli import main
from tests.command import run


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


def test_an_editor_that_goes_away_ends_the_server() -> None:
    done = run("editor")
    assert (done.status, done.out, done.err) == (0, b"", b"")
