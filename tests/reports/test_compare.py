"""Two states side by side: figures that move, findings that come and go."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from tests.reports.scratch_lab import change, copy_lab, run


@pytest.fixture
def labs(tmp_path: Path) -> tuple[Path, Path]:
    """A lab before and after the outlet pressure of one method was lowered."""
    old = copy_lab(tmp_path)
    new = tmp_path / "after"
    shutil.copytree(old, new)
    method = new / "methods" / "flame-retardant-isomers.yaml"
    change(method, "outlet_pressure: 120 bar", "outlet_pressure: 105 bar")
    return old, new


def test_two_folders(labs: tuple[Path, Path], tmp_path: Path) -> None:
    done = run("compare", "lab", "after", "--show", "json", cwd=tmp_path)
    data = json.loads(done.stdout)
    assert data["documents"] == [
        {"path": "after/methods/flame-retardant-isomers.yaml", "change": "changed"}
    ]
    moved = {
        subject["subject"]: {key: f for key, f in subject["figures"].items() if f["moves"]}
        for subject in data["subjects"]
    }
    assert [name for name, figures in moved.items() if figures] == [
        "flame-retardant-isomers on bench-a"
    ]
    figures = moved["flame-retardant-isomers on bench-a"]
    outlet = figures["outlet_pressure_at_start"]
    assert (outlet["old"], outlet["new"], outlet["unit"]) == (120.0, 105.0, "bar")
    # A lower outlet pressure makes the mobile phase thinner and brings the boundary nearer.
    density = figures["mean_column_density_at_start"]
    assert density["new"] < density["old"]
    margin = figures["least_boundary_margin"]
    assert 10.0 < margin["old"] - margin["new"] < 20.0


def test_words_name_both_sides_with_units(labs: tuple[Path, Path], tmp_path: Path) -> None:
    done = run("compare", "lab", "after", cwd=tmp_path)
    assert "outlet pressure as set at start     120 bar -> 105 bar (-15 bar)" in done.stdout
    assert "CO2 per run" in done.stdout
    page = run("compare", "lab", "after", "--show", "markdown", cwd=tmp_path).stdout
    row = "| flame-retardant-isomers on bench-a | outlet pressure as set at start | 120 bar | 105 bar | -15 bar |"
    assert row in page


def test_two_files_of_other_names_stand_for_one_another(
    labs: tuple[Path, Path], tmp_path: Path
) -> None:
    old, new = labs
    other = old / "methods" / "lower-outlet.yaml"
    shutil.copy(new / "methods" / "flame-retardant-isomers.yaml", other)
    done = run(
        "compare", "lab/methods/flame-retardant-isomers.yaml", other, "--show", "json", cwd=tmp_path
    )
    (subject,) = json.loads(done.stdout)["subjects"]
    assert subject["only"] == ""
    assert subject["figures"]["outlet_pressure_at_start"]["new"] == 105.0


def test_findings_appear_and_vanish(labs: tuple[Path, Path], tmp_path: Path) -> None:
    _, new = labs
    change(new / "methods" / "leaf-waxes.yaml", "run_length:", "run_lenght:")
    forth = run("compare", "lab", "after", "--show", "json", cwd=tmp_path)
    back = run("compare", "after", "lab", "--show", "json", cwd=tmp_path)
    appearing = json.loads(forth.stdout)["appearing"]
    assert "document.unknown-key" in {mark["rule"] for mark in appearing}
    marks = {mark["fingerprint"] for mark in appearing}
    assert marks == {mark["fingerprint"] for mark in json.loads(back.stdout)["vanishing"]}
    assert forth.returncode >= 1
    assert "APPEARS" in run("compare", "lab", "after", cwd=tmp_path).stdout
    assert "VANISHES" in run("compare", "after", "lab", cwd=tmp_path).stdout


def test_the_same_twice_changes_nothing(labs: tuple[Path, Path], tmp_path: Path) -> None:
    done = run("compare", "lab", "lab", cwd=tmp_path)
    assert done.returncode == 0
    assert "no figure of a run or a sequence changes" in done.stdout
    page = run("compare", "lab", "lab", "--show", "markdown", cwd=tmp_path).stdout
    assert "No figure of a run or a sequence changes." in page


def test_a_report_stands_for_its_folder(labs: tuple[Path, Path], tmp_path: Path) -> None:
    run("check", "lab", "--write", "json=old.json", cwd=tmp_path)
    by_report = run("compare", "old.json", "after", cwd=tmp_path)
    assert by_report.stdout == run("compare", "lab", "after", cwd=tmp_path).stdout


def test_a_document_that_is_removed_is_named(labs: tuple[Path, Path], tmp_path: Path) -> None:
    _, new = labs
    (new / "methods" / "leaf-waxes.yaml").unlink()
    done = run("compare", "lab", "after", cwd=tmp_path)
    assert "leaf-waxes on bench-a: no longer there" in done.stdout
    assert "removed  lab/methods/leaf-waxes.yaml" in done.stdout
    done = run("compare", "after", "lab", cwd=tmp_path)
    assert "leaf-waxes on bench-a: new" in done.stdout


def test_refusals(labs: tuple[Path, Path], tmp_path: Path) -> None:
    for arguments in (("lab", "nowhere"), ("none.json", "lab"), ("lab",)):
        done = run("compare", *arguments, cwd=tmp_path)
        assert done.returncode == 2
        assert "Traceback" not in done.stderr


def test_the_same_bytes_under_any_hash_seed(labs: tuple[Path, Path], tmp_path: Path) -> None:
    for show in ("words", "json", "markdown"):
        seen = {
            run("compare", "lab", "after", "--show", show, cwd=tmp_path, PYTHONHASHSEED=s).stdout
            for s in ("0", "1", "99")
        }
        assert len(seen) == 1
