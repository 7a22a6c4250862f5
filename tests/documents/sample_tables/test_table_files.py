"""A table lies beside its sequence or under the lab's root; nothing outside is ever opened."""

from __future__ import annotations

from pathlib import Path

import pytest

from methodlint.checking.check import check
from tests.documents.sample_tables.bench import lab, lines, load, loud, only, write

CSV = b"sample,well\na,A1\n"


@pytest.mark.parametrize(
    "name",
    ["../outside.csv", "/etc/passwd.csv", "~/x.csv", "a/../../outside.csv", "C:\\\\x.csv",
     "$HOME/x.csv", "file:x.csv", ".hidden.csv", "sub/./x.csv"],
)  # fmt: skip
def test_no_name_leads_out_of_the_lab(tmp_path: Path, name: str) -> None:
    (tmp_path / "outside.csv").write_bytes(b"sample,well\nsecret,A1\n")
    inner = tmp_path / "lab"
    inner.mkdir()
    loaded = load(inner, f'table: "{name}"\n')
    assert only(loaded).rule == "document.reference-unresolved"
    assert "secret" not in str(loaded.data)
    assert loaded.tables == ()


def test_a_link_that_leaves_the_lab_is_not_followed(tmp_path: Path) -> None:
    (tmp_path / "outside.csv").write_bytes(b"sample,well\nsecret,A1\n")
    inner = tmp_path / "lab"
    inner.mkdir()
    (inner / "samples.csv").symlink_to(tmp_path / "outside.csv")
    problem = only(load(inner, "table: samples.csv\n"))
    assert "leaves the lab folder" in problem.message


def test_a_table_under_the_root_and_in_a_folder(tmp_path: Path) -> None:
    (tmp_path / "tables").mkdir()
    (tmp_path / "tables" / "may.csv").write_bytes(CSV)
    loaded = load(tmp_path, "table: tables/may.csv\n")
    assert loud(loaded) == []
    assert loaded.tables[0].path == "tables/may.csv"


def test_a_misspelt_name_is_answered_with_the_nearest(tmp_path: Path) -> None:
    problem = only(load(tmp_path, "table: sample.csv\n", samples_csv=CSV))
    assert problem.rule == "document.reference-unresolved"
    assert "'samples.csv'" in problem.remedy
    assert problem.place.line == 14  # the line of `table:` in the sequence


def test_a_file_of_another_kind_is_refused(tmp_path: Path) -> None:
    assert ".xlsx" in only(load(tmp_path, "table: samples.xls\n", samples_xls=CSV)).remedy


def test_lines_and_a_table_at_once_are_refused(tmp_path: Path) -> None:
    source = "lines:\n  - {kind: blank, well: A1}\ntable: samples.csv\n"
    loaded = load(tmp_path, source, samples_csv=CSV)
    assert "lines and from table" in only(loaded).message
    assert lines(loaded) == ()


def test_findings_of_rules_show_the_table_its_row_and_its_cell(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = lab(tmp_path)
    text = (
        "Probe;Platte;Vial;Füllung;Datei\n"
        "a;2;A1;0,5 mL;one\nb;2;A13;0,5 mL;two\nc;2;A3;90 uL;t:o\nd;2;A4;0,5 mL;T_O\n"
    )
    write(folder, "table: samples.csv\n", samples_csv=text.encode("cp1252"))
    monkeypatch.chdir(folder)
    report = check("tonight.yaml")
    found = {f.rule: (f.at.file, f.at.place.line, f.at.place.column, f.at.place.cell)
             for f in report.findings}  # fmt: skip
    assert found["injection.position-invalid"] == ("samples.csv", 3, 5, "cell C3")
    # "t:o" and "T_O" are one name once the disk has replaced the colon and forgotten capitals.
    assert found["sequence.data-file-duplicate"] == ("samples.csv", 5, 15, "cell E5")
    assert [table.path for table in report.tables] == ["samples.csv"]


def test_a_changed_table_concerns_its_sequence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = lab(tmp_path)
    write(folder, "table: samples.csv\n", samples_csv=CSV)
    monkeypatch.chdir(folder)
    assert "tonight.yaml" in check("samples.csv", changed=True).documents
    (folder / "samples.csv").unlink()
    assert "tonight.yaml" in check("samples.csv", changed=True).documents
