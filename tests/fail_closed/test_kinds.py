"""A document that does not say its kind is a fault; YAML of other programs is passed over."""

from __future__ import annotations

import os
import re
from pathlib import Path

import pytest

from methodlint.checking.report import Report
from methodlint.documents.library import FOLDERS
from methodlint.documents.loading import KINDS
from tests.command import run
from tests.fail_closed.lab import METHOD, day_batch, judged
from tests.text_labs import BASE_LAB

EDITS = {
    "misspelt key": "knd: {kind}",
    "key in capitals": "Kind: {kind}",
    "deleted": "# no more",
    "another word for it": "type: {kind}",
    "misspelt kind": "kind: {kind}x",
    "no word of ours": "kind: assay",
    "empty": "kind:",
    "a list": "kind: [{kind}]",
    "twice": "kind: {kind}\nkind: {kind}",
}
# Sound YAML that other programs keep in a repository; one key may happen to be one of ours.
OTHERS = {
    "workflow": "name: build\non: [push]\njobs: {test: {steps: [{run: make}]}}\n",
    "deployment": "apiVersion: v1\nkind: Deployment\nmetadata: {name: web}\nspec: {replicas: 2}\n",
    "volume": "apiVersion: v1\nkind: PersistentVolume\nmetadata: {name: v}\nspec: {capacity: 5}\n",
    "services": "services: {web: {image: x}}\nvolumes: {data: {}}\n",
    "page": "title: Notes\nstatus: draft\ncomment: none\nedition: 2\n",
    "film": "title: A film\nlength: 90\n",
    "contacts": "name: Front desk\nphone: '0100'\n",
    "settings": "flow: fast\ncolour: blue\n",
    "table": "name: {kind: column, type: text}\nage: {kind: column, type: number}\n",
    "list": "- column: a\n  flow: b\n",
    "empty": "",
}


def fault_of(report: Report, name: str) -> str:
    """The one fault of a file, with what to do."""
    (finding,) = (f for f in report.findings if f.at.document.path.endswith(name))
    assert finding.grade == "fault"
    return f"{finding.message}; {finding.remedy}"


@pytest.mark.parametrize("line", EDITS.values(), ids=EDITS)
@pytest.mark.parametrize("kind", sorted(set(KINDS) - {"lab"}))
def test_a_document_of_ours_that_does_not_say_its_kind(
    tmp_path: Path, kind: str, line: str
) -> None:
    lab = day_batch(tmp_path)
    text = (BASE_LAB / f"{kind}.yaml").read_text(encoding="utf-8")
    name = f"{FOLDERS[kind]}/spoilt.yaml"
    (lab / name).parent.mkdir(exist_ok=True)
    (lab / name).write_text(
        re.sub(rf"^kind: {kind}$", line.format(kind=kind), text, count=1, flags=re.MULTILINE),
        encoding="utf-8",
    )
    verdict, status, report = judged(lab)
    assert (verdict, status) == ("do not run", 2)
    if "twice" not in line and line.count("kind: ") < 2:
        assert f"kind: {kind}" in fault_of(report, "spoilt.yaml")


@pytest.mark.parametrize("text", OTHERS.values(), ids=OTHERS)
def test_silent_for_yaml_of_other_programs(tmp_path: Path, text: str) -> None:
    lab = day_batch(tmp_path)
    (lab / "notes").mkdir()
    (lab / "notes" / "other.yaml").write_text(text, encoding="utf-8")
    (lab / "other.yml").write_text(text, encoding="utf-8")
    verdict, status, report = judged(lab)
    assert (verdict, status) == ("clear to run", 0)
    assert not [path for path in report.documents if Path(path).stem == "other"]


def test_two_keys_are_enough_and_need_no_folder_of_the_lab(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    (lab / "a.yaml").write_text("column: amylose-3um\nflow: 3 mL/min\n", encoding="utf-8")
    verdict, status, report = judged(lab)
    assert (verdict, status) == ("do not run", 2)
    assert "kind: method" in fault_of(report, "a.yaml")


@pytest.mark.parametrize("kind", sorted(set(KINDS) - {"lab"}))
def test_a_document_that_is_indented_beneath_a_key(tmp_path: Path, kind: str) -> None:
    lab = day_batch(tmp_path)
    text = (BASE_LAB / f"{kind}.yaml").read_text(encoding="utf-8")
    (lab / "a.yaml").write_text(
        "document:\n" + re.sub("^", "  ", text, flags=re.MULTILINE).rstrip(" "), encoding="utf-8"
    )
    verdict, status, report = judged(lab)
    assert (verdict, status) == ("do not run", 2)
    assert "below 'document'" in fault_of(report, "a.yaml")


def test_the_misspelt_key_is_named_where_it_stands(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    text = (lab / METHOD).read_text(encoding="utf-8")
    (lab / METHOD).write_text(text.replace("kind: method", "knd: method"), encoding="utf-8")
    _, status, report = judged(lab, METHOD)
    assert status == 2
    (finding,) = report.findings
    assert "'knd'" in finding.message
    line = next(n for n, row in enumerate(text.splitlines(), 1) if row == "kind: method")
    assert (finding.at.place.line, finding.at.place.column) == (line, 1)


def test_who_refers_to_it_says_why_it_cannot_be_used(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    text = (lab / METHOD).read_text(encoding="utf-8")
    (lab / METHOD).write_text(text.replace("kind: method", "knd: method"), encoding="utf-8")
    verdict, status, report = judged(lab, "sequences/triazole-day-batch.yaml")
    assert (verdict, status) == ("do not run", 2)
    assert any("'knd'" in finding.message for finding in report.findings)


def test_a_card_of_another_kind_under_the_name_is_told_as_that(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    text = (lab / "columns" / "diol-3um.yaml").read_text(encoding="utf-8")
    (lab / METHOD).write_text(text, encoding="utf-8")
    verdict, status, report = judged(lab, "sequences/triazole-day-batch.yaml")
    assert (verdict, status) == ("do not run", 2)
    assert any("kind: column" in finding.message for finding in report.findings)


@pytest.mark.long
def test_folders_in_folders_are_looked_through_however_deep(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    depth = 1_200
    at = os.open(lab, os.O_RDONLY)
    for _ in range(depth):
        os.mkdir("d", dir_fd=at)
        at = os.open("d", os.O_RDONLY, dir_fd=at)
    with open(os.open("x.yaml", os.O_CREAT | os.O_WRONLY, dir_fd=at), "w") as stream:
        stream.write("name: build\n")
    try:
        done = run("check", ".", "--cache", tmp_path / "cache", cwd=lab)
        assert done.status == 0, done.stderr
        with open(os.open("x.yaml", os.O_WRONLY, dir_fd=at), "w") as stream:
            stream.write("knd: method\n")
        done = run("check", ".", "--cache", tmp_path / "cache", cwd=lab)
        assert done.status == 2, done.stderr
    finally:
        # Whoever cleans up walks by functions that call themselves.
        os.unlink("x.yaml", dir_fd=at)
        for _ in range(depth):
            at = os.open("..", os.O_RDONLY, dir_fd=at)
            os.rmdir("d", dir_fd=at)
