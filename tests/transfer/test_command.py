"""The command: statuses, files, determinism."""

from __future__ import annotations

import json
import os

import pytest

import methodlint
from methodlint.cli import main
from tests.reports.page_read import page_of

from .lab import GRADIENT, make_lab


@pytest.fixture
def lab(tmp_path, monkeypatch):
    file = make_lab(tmp_path)
    monkeypatch.chdir(tmp_path)
    return file


def status(*arguments: str) -> int:
    with pytest.raises(SystemExit) as ended:
        main(["transfer", *arguments])
    return ended.value.code


def test_shows_four_columns_and_writes_nothing(lab, capsys):
    before = sorted(lab.parent.iterdir())
    assert status("methods/assay.yaml", "--to", "there", "--column", "narrow") in (0, 1)
    said = capsys.readouterr().out
    assert "predicted; verify" in said
    for word in ("source", "by geometry alone", "proposed", "why", "2.13 mL/min"):
        assert word in said
    assert sorted(lab.parent.iterdir()) == before


def test_writes_beside_the_method(lab, capsys):
    found = status(
        "methods/assay.yaml", "--to", "there", "--column", "narrow", "-o", "methods/b.yaml"
    )
    assert found in (0, 1)
    names = {path.name for path in lab.parent.iterdir()}
    assert {"b.yaml", "b-transfer.json", "b-verify-source.yaml", "b-verify-target.yaml"} <= names
    page = (lab.parent / "b-transfer.html").read_text(encoding="utf-8")
    assert page_of(page).all("h1")[0].text == "Gradient of the tests"
    record = json.loads((lab.parent / "b-transfer.json").read_text(encoding="utf-8"))
    assert record["feasible"] is True
    capsys.readouterr()


def test_nothing_feasible_is_four_and_writes_nothing(lab, tmp_path, capsys):
    make_lab(tmp_path, GRADIENT, "kind: instrument\nx-name: there\ndwell_volume: 2 mL\n")
    found = status(
        "methods/assay.yaml", "--to", "there", "--column", "narrow", "-o", "methods/b.yaml"
    )
    assert found == 4
    said = capsys.readouterr().out
    assert "NO FEASIBLE TRANSFER" in said
    assert "dwell volume" in said
    assert not (lab.parent / "b.yaml").exists()


@pytest.mark.parametrize(
    "arguments",
    [
        ("methods/none.yaml", "--to", "there"),
        ("methods/assay.yaml", "--to", "nowhere"),
        ("methods/assay.yaml", "--to", "there", "--column", "nothing"),
        ("columns/wide.yaml", "--to", "there"),
        ("methods/assay.yaml", "--to", "there", "--allowances", "lab"),
        ("methods/assay.yaml", "--to", "there", "--column", "narrow", "-o", "methods/assay.yaml"),
    ],
)
def test_what_cannot_be_computed_is_two(lab, arguments, capsys):
    assert status(*arguments) == 2
    assert "Traceback" not in capsys.readouterr().err
    assert lab.read_text(encoding="utf-8") == GRADIENT


def test_the_page_is_shown_and_not_written(lab, capfdbinary):
    before = sorted(lab.parent.iterdir())
    asked = ("methods/assay.yaml", "--to", "there", "--column", "narrow", "--show", "html")
    assert status(*asked) in (0, 1)
    first = capfdbinary.readouterr().out
    assert status(*asked) in (0, 1)
    assert capfdbinary.readouterr().out == first
    page_of(first.decode("utf-8"))
    assert sorted(lab.parent.iterdir()) == before


def test_json_is_the_same_twice(lab, capsys):
    texts = []
    for _ in range(2):
        status("methods/assay.yaml", "--to", "there", "--column", "narrow", "--show", "json")
        texts.append(capsys.readouterr().out)
    assert texts[0] == texts[1]
    assert json.loads(texts[0])["wording"] == "predicted; verify"


def test_from_python(lab):
    result = methodlint.transfer("methods/assay.yaml", to="there", column="narrow")
    assert result.feasible
    assert result.report is not None
    own = [finding for finding in result.remaining if finding.rule.startswith("transfer.")]
    assert all(finding.grade == "caution" for finding in own)


def test_the_allowance_set_says_that_it_is_an_analogy(lab, capsys):
    status(
        "methods/assay.yaml",
        "--to",
        "there",
        "--column",
        "narrow",
        "--allowances",
        "pharmacopoeial",
    )
    said = capsys.readouterr().out
    assert "LC table by analogy (second-hand)" in said
    assert "no allowance found, treat as a change" in " ".join(said.split())


def test_a_folder_that_is_not_there_is_made_and_others_may_read_the_files(lab, tmp_path, capsys):
    before = os.umask(0o022)
    try:
        found = status(
            "methods/assay.yaml", "--to", "there", "--column", "narrow", "-o", "moved/b.yaml"
        )
    finally:
        os.umask(before)
    assert found in (0, 1)
    written = sorted((tmp_path / "moved").iterdir())
    assert len(written) == 5
    assert {file.stat().st_mode & 0o777 for file in written} == {0o644}
    capsys.readouterr()


def test_a_place_where_nothing_can_be_written_is_told_in_words(lab, tmp_path, capsys):
    (tmp_path / "moved").write_text("no folder\n", encoding="utf-8")
    assert status("methods/assay.yaml", "--to", "there", "--column", "narrow", "-o",
                  "moved/b.yaml") == 2  # fmt: skip
    assert "-o: cannot write moved/b.yaml: " in capsys.readouterr().err


def test_allowances_that_the_lab_does_not_declare_are_told_how_to_write(lab, capsys):
    assert status("methods/assay.yaml", "--to", "there", "--allowances", "lab") == 2
    assert "policy: {transfer_allowances: {" in capsys.readouterr().err
