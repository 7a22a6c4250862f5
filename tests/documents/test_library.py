"""References resolve under the lab's root and nowhere else."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from methodlint.documents.library import LabFolder, lab_root
from methodlint.documents.loading import Loaded
from methodlint.documents.not_found import NotFound

COLUMN = "kind: column\nlength: 100 mm\n"


@pytest.fixture
def lab(tmp_path: Path) -> Path:
    root = tmp_path / "lab"
    for folder in ("columns", "methods", "deep/er"):
        (root / folder).mkdir(parents=True)
    (root / "lab.yaml").write_text("kind: lab\n")
    (root / "columns" / "chiral-03.yaml").write_text(COLUMN)
    (root / "columns" / "chiral-08.yaml").write_text(COLUMN)
    (root / "deep" / "er" / "method.yaml").write_text("kind: method\n")
    (tmp_path / "columns").mkdir()
    (tmp_path / "columns" / "outside.yaml").write_text(COLUMN)
    return root


def opened(root: Path) -> tuple[LabFolder, Loaded]:
    folder = LabFolder(root, root)
    method = folder.open(root / "deep" / "er" / "method.yaml")
    assert method is not None
    return folder, method


def test_a_name_is_found_in_the_folder_of_its_kind(lab: Path) -> None:
    folder, method = opened(lab)
    found = folder.find("column", "chiral-03", method)
    assert isinstance(found, Loaded)
    assert found.path == "columns/chiral-03.yaml"


def test_a_card_beside_the_document_is_found(lab: Path) -> None:
    (lab / "deep" / "er" / "own.yaml").write_text(COLUMN)
    folder, method = opened(lab)
    assert isinstance(folder.find("column", "own", method), Loaded)


def test_a_name_found_twice_is_not_guessed(lab: Path) -> None:
    (lab / "deep" / "er" / "chiral-03.yaml").write_text(COLUMN)
    folder, method = opened(lab)
    found = folder.find("column", "chiral-03", method)
    assert isinstance(found, NotFound)
    assert "more than once" in found.reason


def test_the_nearest_names_are_offered_with_their_distance(lab: Path) -> None:
    folder, method = opened(lab)
    found = folder.find("column", "chirl-03", method)
    assert isinstance(found, NotFound)
    assert found.near[0] == ("chiral-03", 1)


@pytest.mark.parametrize(
    "name",
    [
        "../../columns/outside",
        "/etc/passwd",
        "~/columns/outside",
        "$HOME/x",
        "C:\\columns\\outside",
        "file:///etc/passwd",
        "..",
        ".hidden",
        "a/../../b",
        "columns/chiral-03",
        "x\x00y",
        "",
    ],
)
def test_a_name_never_leads_out_of_the_lab(lab: Path, name: str) -> None:
    folder, method = opened(lab)
    assert isinstance(folder.find("column", name, method), NotFound)
    assert not any("outside" in str(file) for file in folder.reads)


def test_a_link_that_leaves_the_lab_is_not_opened(lab: Path) -> None:
    link = lab / "columns" / "linked.yaml"
    link.symlink_to(lab.parent / "columns" / "outside.yaml")
    folder, method = opened(lab)
    found = folder.find("column", "linked", method)
    assert isinstance(found, NotFound)
    assert "leaves the lab folder" in found.reason
    assert link not in folder.reads


def test_a_link_loop_is_one_finding(lab: Path) -> None:
    (lab / "columns" / "loop.yaml").symlink_to(lab / "columns" / "loop.yaml")
    folder, method = opened(lab)
    assert isinstance(folder.find("column", "loop", method), NotFound)


def test_a_pipe_does_not_hang(lab: Path) -> None:
    os.mkfifo(lab / "columns" / "pipe.yaml")
    folder, method = opened(lab)
    assert isinstance(folder.find("column", "pipe", method), NotFound)


def test_the_root_is_the_nearest_folder_with_a_lab_document(lab: Path) -> None:
    assert lab_root(lab / "deep" / "er" / "method.yaml") == lab
    assert lab_root(lab.parent / "columns") == lab.parent / "columns"


def test_a_document_is_read_once(lab: Path) -> None:
    folder, method = opened(lab)
    first = folder.find("column", "chiral-03", method)
    assert folder.find("column", "chiral-03", method) is first


def test_what_to_write_where_there_is_no_such_card(lab: Path) -> None:
    folder, method = opened(lab)
    found = folder.find("column", "polysaccharide", method)
    assert isinstance(found, NotFound)
    assert found.near == ()
    assert found.remedy == (
        "write it under columns/ (methodlint new column), or name one that is there: chiral-03, "
        "chiral-08"
    )
    nothing = folder.find("room", "hall", method)
    assert isinstance(nothing, NotFound)
    assert nothing.remedy == "write it under rooms/ (methodlint new room)"


@pytest.mark.parametrize(
    "written", ["columns/chiral-03.yaml", "chiral-03.yaml/", "..\\columns\\chiral-03.yml"]
)
def test_a_path_in_place_of_a_name_is_told_the_name(lab: Path, written: str) -> None:
    folder, method = opened(lab)
    found = folder.find("column", written, method)
    assert isinstance(found, NotFound)
    wanted = "write the name of the card alone" if written.endswith("/") else "write chiral-03"
    assert found.remedy == wanted


def test_without_a_lab_document_it_is_told_where_cards_are_looked_for(lab: Path) -> None:
    (lab / "lab.yaml").unlink()
    file = lab / "deep" / "er" / "method.yaml"
    assert lab_root(file) == file.parent
    folder = LabFolder(lab_root(file), lab)
    method = folder.open(file)
    assert method is not None
    found = folder.find("column", "chiral-03", method)
    assert isinstance(found, NotFound)
    assert "put a lab.yaml" in found.remedy
    assert "looked for in deep/er alone" in found.remedy
