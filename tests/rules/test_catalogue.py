"""The catalogue in the repository is what the rules' pages say today."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from methodlint.judging.loader import built_in_ids, built_in_rules
from tests import refresh_catalogue
from tests.refresh_catalogue import FILE, catalogue, main


def test_it_is_not_stale() -> None:
    assert main(["--check"]) == 0, "run python -m tests.refresh_catalogue"


def test_it_has_every_rule_once_with_a_link_that_leads_there() -> None:
    text = FILE.read_text(encoding="utf-8")
    found = re.findall(r"^### \[(.+)\]\((.+)\)$", text, re.MULTILINE)
    assert sorted(name for name, _ in found) == sorted(built_in_ids())
    assert all((FILE.parent / place).is_file() for _, place in found)
    assert "*Source:*" in text


def test_a_stale_one_is_found_and_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "CATALOGUE.md"
    monkeypatch.setattr(refresh_catalogue, "FILE", file)
    assert main(["--check"]) == 1
    file.write_text(catalogue(built_in_rules()[1:]), encoding="utf-8")
    assert main(["--check"]) == 1
    assert "python -m tests.refresh_catalogue" in capsys.readouterr().out
    assert main([]) == 0
    assert main(["--check"]) == 0
