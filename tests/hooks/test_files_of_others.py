"""A hook passes whatever YAML a change touches: what is not ours is passed over, ours never."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.command import run
from tests.reports.scratch_lab import copy_lab

# Forms of YAML that other programs keep in a repository.
OTHERS = {
    "two documents": "kind: Deployment\nmetadata: {name: web}\n---\nkind: Service\n",
    "a kind of its own": "apiVersion: v1\nkind: Pod\nspec: {}\n",
    "a kind that is short": "kind: Job\n",
    "a template": "{{- if .Values.on }}\nkind: {{ .Values.kind }}\n{{- end }}\n",
    "tags of its own": "A: !Ref B\nC: &c {x: 1}\nD: {<<: *c}\n",
    "a list": "- a\n- b\n",
    "nothing": "",
    "no kind": "steps: [build, test]\n",
    "no YAML": "key: [\n",
    "other bytes": "\x00\x01\x02",
}
OURS = {
    "broken": "kind: column\nlength: [",
    "two documents": "kind: method\n---\nkind: column\n",
    "a misspelt kind": "kind: methd\n",
    "capitals": "kind: Method\n",
    "quotes": '"kind": "sequence"\nlines: [',
}


@pytest.mark.parametrize("how", ["changed", "folder"])
def test_yaml_of_others_is_passed_over(tmp_path: Path, how: str) -> None:
    lab = copy_lab(tmp_path)
    for number, text in enumerate(OTHERS.values()):
        (lab / f"other{number}.yaml").write_text(text, encoding="utf-8")
    names = [f"lab/other{number}.yaml" for number in range(len(OTHERS))]
    paths = ["--dependents", *names] if how == "changed" else ["lab"]
    done = run("check", *paths, "--show", "json", cwd=tmp_path)
    assert done.status == 0, done.stdout
    data = json.loads(done.stdout)
    assert not [f for f in data["findings"] if "other" in f["path"]]


@pytest.mark.parametrize("text", OURS.values(), ids=OURS)
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_ours_is_never_passed_over(tmp_path: Path, text: str, encoding: str) -> None:
    (tmp_path / "a.yaml").write_text(text, encoding=encoding)
    done = run("check", "--dependents", "a.yaml", cwd=tmp_path)
    assert done.status == 2, done.stdout
    assert "a.yaml, line" in done.stdout


def test_a_broken_text_in_a_labs_folder_is_ours_whatever_it_says(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    (lab / "columns" / "new.yaml").write_text("length: [", encoding="utf-8")
    done = run("check", "--dependents", "lab/columns/new.yaml", cwd=tmp_path)
    assert done.status == 2
    assert "lab/columns/new.yaml, line" in done.stdout


def test_many_names_of_files_some_of_which_are_gone(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    names = []
    for number in range(2_000):
        name = f"lab/values-{number}.yaml"
        if number % 10:
            (tmp_path / name).write_text(f"values: {number}\n", encoding="utf-8")
        names.append(name)
    names.append("lab/columns/diol-3um.yaml")
    done = run("check", "--dependents", *names, "--show", "json", cwd=tmp_path)
    assert done.status == 0, done.stderr
    subjects = {r["subject"] for r in json.loads(done.stdout)["runs"]}
    assert "flavonoid-aglycones on bench-a" in subjects
    assert not (lab / "values-0.yaml").exists()
