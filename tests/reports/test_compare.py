"""Two states side by side: figures that move, findings that come and go.

A state is a folder, or the report that a check of it has written; most tests take the reports,
which are written once.
"""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from tests.command import Done, run
from tests.reports.scratch_lab import change, copy_lab

CHANGED = "methods/flame-retardant-isomers.yaml"


@pytest.fixture(scope="module")
def states(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with states of a lab that no test changes, and with their reports.

    `after` has a lower outlet pressure in one method than `lab`, `misspelt` has a key that is not
    known besides, and from `fewer` a method was removed.
    """
    folder = tmp_path_factory.mktemp("states")
    lab = copy_lab(folder)
    for name in ("after", "misspelt", "fewer"):
        shutil.copytree(lab, folder / name)
    for name in ("after", "misspelt"):
        change(folder / name / CHANGED, "outlet_pressure: 120 bar", "outlet_pressure: 105 bar")
    change(folder / "misspelt" / "methods" / "leaf-waxes.yaml", "run_length:", "run_lenght:")
    (folder / "fewer" / "methods" / "leaf-waxes.yaml").unlink()
    for name in ("lab", "after", "misspelt", "fewer"):
        run("check", name, "--write", f"json={name}.json", cwd=folder)
    return folder


def compare(states: Path, old: str, new: str, show: str = "words") -> Done:
    """Compare two reports."""
    return run("compare", f"{old}.json", f"{new}.json", "--show", show, cwd=states)


def test_two_folders(states: Path) -> None:
    done = run("compare", "lab", "after", "--show", "json", cwd=states)
    data = json.loads(done.stdout)
    assert data["documents"] == [{"path": f"after/{CHANGED}", "change": "changed"}]
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


def test_a_report_stands_for_its_folder(states: Path) -> None:
    for show in ("json", "words", "markdown"):
        folders = run("compare", "lab", "after", "--show", show, cwd=states).out
        assert folders
        assert compare(states, "lab", "after", show).out == folders
    mixed = run("compare", "lab.json", "after", cwd=states).out
    assert mixed == compare(states, "lab", "after").out


def test_words_name_both_sides_with_units(states: Path) -> None:
    said = compare(states, "lab", "after").stdout
    assert "outlet pressure as set at start     120 bar -> 105 bar (-15 bar)" in said
    assert "CO2 per run" in said
    page = compare(states, "lab", "after", "markdown").stdout
    row = "| flame-retardant-isomers on bench-a | outlet pressure as set at start | 120 bar | 105 bar | -15 bar |"
    assert row in page


def test_two_files_of_other_names_stand_for_one_another(tmp_path: Path) -> None:
    old = copy_lab(tmp_path) / CHANGED
    new = old.with_name("lower-outlet.yaml")
    shutil.copy(old, new)
    change(new, "outlet_pressure: 120 bar", "outlet_pressure: 105 bar")
    done = run("compare", old, new, "--show", "json", cwd=tmp_path)
    (subject,) = json.loads(done.stdout)["subjects"]
    assert subject["only"] == ""
    assert subject["figures"]["outlet_pressure_at_start"]["new"] == 105.0


def test_findings_appear_and_vanish(states: Path) -> None:
    forth = compare(states, "lab", "misspelt", "json")
    back = compare(states, "misspelt", "lab", "json")
    appearing = json.loads(forth.stdout)["appearing"]
    assert "document.unknown-key" in {mark["rule"] for mark in appearing}
    marks = {mark["fingerprint"] for mark in appearing}
    assert marks == {mark["fingerprint"] for mark in json.loads(back.stdout)["vanishing"]}
    assert forth.status == 1
    assert run("compare", "lab", "misspelt", cwd=states).status >= 1
    assert "APPEARS" in compare(states, "lab", "misspelt").stdout
    assert "VANISHES" in compare(states, "misspelt", "lab").stdout


def test_the_same_twice_changes_nothing(states: Path) -> None:
    done = run("compare", "lab", "lab", cwd=states)
    assert done.status == 0
    assert "no figure of a run or a sequence changes" in done.stdout
    page = compare(states, "lab", "lab", "markdown").stdout
    assert "No figure of a run or a sequence changes." in page


def test_a_document_that_is_removed_is_named(states: Path) -> None:
    said = compare(states, "lab", "fewer").stdout
    assert "leaf-waxes on bench-a: no longer there" in said
    assert "removed  lab/methods/leaf-waxes.yaml" in said
    assert "leaf-waxes on bench-a: new" in compare(states, "fewer", "lab").stdout


def test_refusals(states: Path) -> None:
    for arguments in (("lab", "nowhere"), ("none.json", "lab"), ("lab",)):
        done = run("compare", *arguments, cwd=states)
        assert done.status == 2
        assert "Traceback" not in done.stderr
