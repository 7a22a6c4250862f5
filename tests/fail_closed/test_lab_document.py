"""Present but unusable is not absent: without its lab.yaml a lab has the defaults, with one that
cannot be used nothing is cleared."""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from pathlib import Path

import pytest

import methodlint
from tests.command import run
from tests.fail_closed.lab import BATCH, METHOD, day_batch, judged

Edit = Callable[[Path], object]


def _moved_out(file: Path) -> None:
    outside = file.parent.parent / "outside.yaml"
    file.rename(outside)
    file.symlink_to(outside)


def _circle(file: Path) -> None:
    file.unlink()
    file.symlink_to(file)


def _folder(file: Path) -> None:
    file.unlink()
    file.mkdir()


def _nowhere(file: Path) -> None:
    file.unlink()
    file.symlink_to(file.parent / "gone.yaml")


EDITS: dict[str, Edit] = {
    "a byte of Latin-1": lambda file: file.write_bytes(file.read_bytes() + b"# caf\xe9\n"),
    "a tab": lambda file: file.write_bytes(file.read_bytes() + b"classes:\n\t- x\n"),
    "no kind": lambda file: file.write_bytes(file.read_bytes().replace(b"kind: lab\n", b"")),
    "misspelt kind": lambda file: file.write_bytes(file.read_bytes().replace(b"kind:", b"knd:")),
    "kind of another": lambda file: file.write_bytes(
        file.read_bytes().replace(b"kind: lab", b"kind: method")
    ),
    "empty": lambda file: file.write_bytes(b""),
    "a list": lambda file: file.write_bytes(b"- kind: lab\n"),
    "over 2 MiB": lambda file: file.write_bytes(file.read_bytes() + b"#" * (2 << 20)),
    "two documents": lambda file: file.write_bytes(file.read_bytes() + b"---\nkind: lab\n"),
    "a link out of the lab": _moved_out,
    "a link in a circle": _circle,
    "a link to nowhere": _nowhere,
    "a folder": _folder,
}


@pytest.mark.parametrize("edit", EDITS.values(), ids=EDITS)
@pytest.mark.parametrize("name", [".", BATCH, METHOD, "columns/diol-3um.yaml"])
def test_nothing_is_cleared_under_a_lab_document_that_cannot_be_used(
    tmp_path: Path, edit: Edit, name: str
) -> None:
    lab = day_batch(tmp_path)
    edit(lab / "lab.yaml")
    verdict, status, report = judged(lab, name)
    assert (verdict, status) == ("do not run", 2)
    assert any(finding.at.file.endswith("lab.yaml") for finding in report.findings)
    assert not report.failed


@pytest.mark.parametrize("name", [".", BATCH, METHOD, "columns/diol-3um.yaml"])
def test_silent_for_one_that_says_no_more_than_its_kind(tmp_path: Path, name: str) -> None:
    lab = day_batch(tmp_path)
    (lab / "lab.yaml").write_text("kind: lab\n", encoding="utf-8")
    assert judged(lab, name)[:2] == ("clear to run", 0)


def test_silent_without_one_where_the_cards_lie_beside_the_document(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    flat = tmp_path / "flat"
    flat.mkdir()
    for file in lab.glob("*/*.yaml"):
        (flat / file.name).write_bytes(file.read_bytes())
    assert judged(flat, Path(BATCH).name)[:2] == ("clear to run", 0)


def test_a_link_inside_the_lab_is_read(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    (lab / "lab.yaml").rename(lab / "policy.txt")
    (lab / "lab.yaml").symlink_to(lab / "policy.txt")
    assert judged(lab, BATCH)[:2] == ("clear to run", 0)


@pytest.mark.skipif(os.name == "nt" or os.geteuid() == 0, reason="everything may be read here")
def test_one_that_may_not_be_read(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    (lab / "lab.yaml").chmod(0)
    assert judged(lab, BATCH)[:2] == ("do not run", 2)


def test_a_transfer_is_refused_with_the_reason(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    (lab / "lab.yaml").write_bytes(b"kind: lab\n# caf\xe9\n")
    with pytest.raises(ValueError, match=r"lab\.yaml"):
        methodlint.transfer(lab / METHOD, to="bench-b")
    (lab / "lab.yaml").write_bytes(b"kind: lab\n")
    assert methodlint.transfer(lab / METHOD, to="bench-b").entry("flow")


def test_the_answer_that_is_remembered_is_not_that_of_the_usable_one(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    cache = tmp_path / "cache"
    asked = ("check", ".", "--cache", cache, "--show", "json")
    assert run(*asked, cwd=lab).status == 0
    _nowhere(lab / "lab.yaml")
    done = run(*asked, cwd=lab)
    assert done.status == 2
    assert json.loads(done.stdout)["verdict"] == "do not run"
