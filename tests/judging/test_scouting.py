"""Scouting matrices: every cell a run of its own, in an order that no column is harmed by."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from methodlint.checking.check import check
from methodlint.checking.given import Given
from methodlint.checking.report import Report
from methodlint.rehearsal.plan.scouting import MatrixCell, in_order
from tests.documents.sample_tables.bench import HEAD, lab

SCOUT = HEAD.replace("method: triazole-enantiomers\n", "").replace("20 h", "90 h")
LINES = (
    "  equilibration: 30 min\n  lines: {kind: sample, sample: r1, plate: 2, well: A1, fill: 1 mL}\n"
)


def report(
    folder: Path, monkeypatch: pytest.MonkeyPatch, matrix: str, *, given: tuple[Given, ...] = ()
) -> Report:
    root = folder / "lab" if (folder / "lab").exists() else lab(folder)
    text = f"{SCOUT}scouting:\n  base: scouting-start\n{matrix}{LINES}"
    (root / "sequences").mkdir(exist_ok=True)
    (root / "sequences" / "screen.yaml").write_text(text, encoding="utf-8")
    monkeypatch.chdir(root)
    return check("sequences/screen.yaml", given=given)


def order(found: Report) -> list[tuple[str, str]]:
    """Kind and method of every line of the sequence."""
    (batch,) = found.batches
    return [(line.line.kind, line.method) for line in batch.batch.lines]


FORBIDDEN = """  columns: [coated-amylose-5um, silica-3um]
  modifiers:
    - {liquid: methanol, line: modifier-1}
    - {liquid: acetone, line: modifier-2}
"""


def test_a_forbidden_pair_is_a_finding_at_its_cell_and_not_in_the_plan(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    found = report(tmp_path, monkeypatch, FORBIDDEN)
    (cell,) = [f for f in found.findings if f.rule == "column.scouting-cell-left-out"]
    assert cell.grade == "caution"
    assert "acetone harms coated-amylose-5um" in cell.message
    text = (tmp_path / "lab/sequences/screen.yaml").read_text(encoding="utf-8").splitlines()
    assert "acetone" in text[cell.at.place.line - 1]
    assert cell.at.file == "sequences/screen.yaml"
    assert [name for kind, name in order(found) if kind == "sample"] == [
        "coated-amylose-5um, methanol",
        "silica-3um, methanol",
        "silica-3um, acetone",
    ]


def test_no_column_meets_what_another_cell_leaves_in_the_lines(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Row by row as written, acetone from the silica would be pushed onto the coated column."""
    matrix = FORBIDDEN.replace(
        "[coated-amylose-5um, silica-3um]", "[silica-3um, coated-amylose-5um]"
    )
    matrix += "  temperatures: [35 degC, 25 degC]\n"
    found = report(tmp_path, monkeypatch, matrix)
    assert [f.message for f in found.findings if f.rule == "column.solvent-forbidden"] == []
    samples = [name for kind, name in order(found) if kind == "sample"]
    assert len(samples) == 6
    assert [name.rpartition(", ")[2] for name in samples] == ["25 degC"] * 3 + ["35 degC"] * 3


def test_a_pair_left_out_on_purpose_is_silent(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    matrix = FORBIDDEN + "  leave_out: [{column: coated-amylose-5um, modifier: acetone}]\n"
    found = report(tmp_path, monkeypatch, matrix)
    assert [f for f in found.findings if f.rule == "column.scouting-cell-left-out"] == []
    assert sum(kind == "sample" for kind, _ in order(found)) == 3


def test_a_cell_too_hot_for_its_column_is_left_out(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The amylose card bears 40 °C, the diol card 60 °C."""
    matrix = "  columns: [amylose-3um, diol-3um]\n  temperatures:\n    - 30 degC\n    - 50 degC\n"
    found = report(tmp_path, monkeypatch, matrix)
    (cell,) = [f for f in found.findings if f.rule == "column.scouting-cell-left-out"]
    assert "amylose-3um is rated to 40 °C, the cell is at 50 °C" in cell.message
    assert cell.at.path == ("scouting", "temperatures", 1)
    assert sum(kind == "sample" for kind, _ in order(found)) == 3
    assert not any(f.rule == "column.temperature-exceeded" for f in found.findings)


def test_cells_that_no_order_reaches_are_told() -> None:
    """Column 0 bears modifier 0 alone, column 1 bears modifier 1 alone."""
    visits, apart = in_order([MatrixCell(0, 0, 0), MatrixCell(0, 1, 1)], [298.15])
    assert [visit.cell for visit in visits] == [MatrixCell(0, 0, 0), MatrixCell(0, 1, 1)]
    assert apart == [MatrixCell(0, 1, 1)]


def test_each_cell_is_judged_by_itself_with_the_places_of_both_documents(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """5 mL/min from the command line reaches every cell that the columns bear."""
    matrix = "  columns: [silica-3um, diol-3um]\n  temperatures:\n    - 30 degC\n    - 95 degC\n"
    flow = Given("method.flow", "5 mL/min")
    found = report(tmp_path, monkeypatch, matrix, given=(flow,))
    assert {round(float(run.run.set_flow[0]) * 6e7, 6) for run in found.runs} == {5.0}
    said = [f for f in found.findings if f.at.document.name == "diol-3um, 30 degC"]
    assert "methods/scouting-start.yaml" in {f.at.file for f in said}
    assert {f.subject for f in said} == {"diol-3um, 30 degC on bench-a"}


def test_a_value_that_the_matrix_sets_is_shown_in_the_sequence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    found = report(tmp_path, monkeypatch, "  temperatures:\n    - 30 degC\n    - 25 degC\n")
    (cold,) = [f for f in found.findings if f.rule == "temperature.subcritical"
               and f.at.document.name == "25 degC"]  # fmt: skip
    text = (tmp_path / "lab/sequences/screen.yaml").read_text(encoding="utf-8").splitlines()
    assert cold.at.file == "sequences/screen.yaml"
    assert text[cold.at.place.line - 1].strip() == "- 25 degC"


@pytest.mark.parametrize(
    ("matrix", "rule"),
    [
        ("  columns: [amylose-3umm]\n", "document.reference-unresolved"),
        ("  modifiers: [{liquid: methanol, lin: modifier-1}]\n", "document.unknown-key"),
        ("  temperatures: [30]\n", "document.unit-missing-or-wrong-kind"),
        ("  before: [nobody]\n", "document.reference-unresolved"),
        (f"  columns: [{', '.join(['silica-3um'] * 1001)}]\n", "document.too-large"),
    ],
    ids=["no-such-column", "unknown-key", "no-unit", "no-such-line", "too-many-cells"],
)
def test_what_is_wrong_with_a_matrix_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, matrix: str, rule: str
) -> None:
    found = report(tmp_path, monkeypatch, matrix)
    assert rule in {f.rule for f in found.findings}
    assert not found.failed


@pytest.mark.parametrize(
    ("column", "path"), [("nobody", ("column",)), ("[silica-3um, nobody]", ("column", 1))]
)
def test_a_column_of_the_base_method_that_leads_nowhere_is_told_where_it_is_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, column: str, path: tuple[str | int, ...]
) -> None:
    file = lab(tmp_path) / "methods" / "scouting-start.yaml"
    text, count = re.subn(r"(?m)^column:.*$", f"column: {column}", file.read_text("utf-8"))
    assert count == 1
    file.write_text(text, encoding="utf-8")
    found = report(tmp_path, monkeypatch, "  temperatures: [30 degC, 35 degC]\n")
    (astray,) = [f for f in found.findings if f.rule == "document.reference-unresolved"]
    assert (astray.at.file, astray.at.path) == ("methods/scouting-start.yaml", path)


def test_lines_beside_a_matrix_are_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    found = report(tmp_path, monkeypatch, "  columns: [diol-3um]\n" + LINES + "lines: []\nx-a:\n")
    assert "from scouting and from lines" in " ".join(f.message for f in found.findings)


CELLS = st.sets(st.tuples(st.integers(0, 2), st.integers(0, 3), st.integers(0, 3)), max_size=48)


@settings(max_examples=300, deadline=None)
@given(CELLS)
def test_every_order_keeps_the_rules_of_the_bench(spots: set[tuple[int, int, int]]) -> None:
    """Each allowed cell once, coldest first, and no column meets a liquid that it is not run with."""
    allowed = [MatrixCell(*spot) for spot in sorted(spots)]
    temperatures = [310.0, 298.0, 305.0]
    visits, apart = in_order(allowed, temperatures)
    assert sorted(visit.cell for visit in visits if visit.injects) == allowed
    assert {visit.cell for visit in visits} == set(allowed)
    heat = [temperatures[visit.cell.temperature] for visit in visits]
    assert heat == sorted(heat)
    borne = {(cell.column, cell.modifier) for cell in allowed}
    for before, after in pairwise(visits):
        if after.cell in apart:
            continue
        assert (after.cell.column, before.cell.modifier) in borne
