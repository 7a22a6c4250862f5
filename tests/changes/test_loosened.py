"""What a change loosens is listed first, whatever else there is; what it does not is not."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.changes.repositories import CARD, OTHER, USERS, commit, gate, git, told
from tests.reports.scratch_lab import change

DRAFT = "the status goes from none to draft"
DEVIATION = """deviations:
  - rule: pressure.low-limit-missing
    reason: leak sensor and CO2 alarm stop the pumps
    approved_by: head of the laboratory
    until: 2026-12-31
"""


def found(folder: Path, *options: str) -> list[tuple[str, str]]:
    """Rule and file of what the gate lists as loosened."""
    data = told(folder, *options)
    return [(f["rule"], f["path"]) for f in data["findings"] if f["rule"].startswith("change.")]


def in_main(folder: Path, path: str, text: str) -> None:
    """Write a file in main, and begin the branch there."""
    git(folder, "checkout", "-q", "main")
    (folder / path).parent.mkdir(parents=True, exist_ok=True)
    (folder / path).write_text(text, encoding="utf-8")
    commit(folder)
    git(folder, "checkout", "-q", "-B", "change")


def write(folder: Path, path: str, text: str) -> None:
    (folder / path).parent.mkdir(parents=True, exist_ok=True)
    (folder / path).write_text(text, encoding="utf-8")


def added(folder: Path, path: str, text: str) -> None:
    write(folder, path, (folder / path).read_text("utf-8") + text)


# What loosens nothing ----------------------------------------------------------------------


def test_ordinary_work_loosens_nothing(repository: Path) -> None:
    change(repository / CARD, "title:", "# seen\ntitle:")
    added(repository, OTHER, "x-seen: yes\nstatus: approved\n")
    write(repository, "lab/methods/new.yaml", (repository / OTHER).read_text("utf-8"))
    added(repository, "lab/lab.yaml", "x-seen: yes\n")
    (repository / "notes.yaml").write_text("a: 1\n", encoding="utf-8")
    assert found(repository) == []


def test_moving_documents_loosens_nothing(repository: Path) -> None:
    in_main(repository, OTHER, (repository / OTHER).read_text("utf-8") + DEVIATION)
    git(repository, "mv", OTHER, "lab/methods/renamed.yaml")
    (repository / "lab/archive").mkdir()
    git(repository, "mv", CARD, "lab/archive/diol.yaml")
    assert found(repository) == []
    git(repository, "checkout", "-q", "-f", "change")
    git(repository, "mv", "lab", "laboratory")
    assert found(repository) == [], "the whole lab, with its policy"


def test_a_lab_that_loses_its_own_document_to_a_folder_of_it_is_told(repository: Path) -> None:
    git(repository, "mv", "lab/lab.yaml", "lab/methods/lab.yaml")
    listed = found(repository)
    assert ("change.document-leaves-lab", "lab/lab.yaml") in listed
    assert ("change.document-leaves-lab", "lab/methods/lab.yaml") in listed


def test_yaml_of_others_may_come_and_go(repository: Path) -> None:
    in_main(repository, "lab/values.yaml", "steps: [build]\n")
    (repository / "lab/values.yaml").unlink()
    assert found(repository) == []


# Documents -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text", [None, "title: no kind any more\n", "kind: nothing of ours\n", "kind: [\n", ""]
)
def test_a_document_that_is_none_any_more(repository: Path, text: str | None) -> None:
    if text is None:
        (repository / OTHER).unlink()
    else:
        write(repository, OTHER, text)
    assert found(repository) == [("change.document-leaves-lab", OTHER)]
    first = next(line for line in gate(repository).stdout.splitlines() if line.isupper())
    assert first.startswith(("RUN WITH CARE", "DO NOT RUN"))


def test_the_gate_of_a_method_that_goes_is_held_by_who_wants_it(repository: Path) -> None:
    (repository / OTHER).unlink()
    assert gate(repository).status == 0
    assert gate(repository, "--hold-at", "caution").status == 1


def test_a_document_that_is_moved_out_of_sight(repository: Path) -> None:
    (repository / "lab/.old").mkdir()
    git(repository, "mv", OTHER, "lab/.old/sulfonamides.yaml")
    assert found(repository) == [("change.document-leaves-lab", OTHER)]


def test_a_document_that_is_moved_and_changed_is_another(repository: Path) -> None:
    git(repository, "mv", OTHER, "lab/methods/other.yaml")
    added(repository, "lab/methods/other.yaml", "x-seen: yes\n")
    assert found(repository) == [("change.document-leaves-lab", OTHER)]


def test_a_document_that_becomes_another_kind(repository: Path) -> None:
    write(repository, OTHER, "kind: column\nlength: 100 mm\n")
    assert ("change.document-leaves-lab", OTHER) in found(repository)


def test_documents_under_a_new_lab(repository: Path) -> None:
    write(repository, "lab/methods/lab.yaml", "kind: lab\n")
    data = told(repository)
    (told_of,) = (f for f in data["findings"] if f["rule"] == "change.document-leaves-lab")
    assert told_of["path"] == "lab/methods/lab.yaml"
    assert f"{USERS[0]} and 2 others" in told_of["message"]
    assert data["status"] == 2, "they look for their cards there"
    (repository / "lab/methods/lab.yaml").unlink()
    write(repository, "other-lab/lab.yaml", "kind: lab\n")
    write(repository, "other-lab/methods/a.yaml", "kind: method\n")
    assert found(repository) == [], "a new lab beside it takes nobody away"


def test_a_lab_whose_own_document_goes(repository: Path) -> None:
    (repository / "lab/lab.yaml").unlink()
    data = told(repository)
    assert ("change.document-leaves-lab", "lab/lab.yaml") in found(repository)
    assert data["status"] == 2


# Deviations and classes ----------------------------------------------------------------------


def test_a_deviation_that_comes_with_a_new_document(repository: Path) -> None:
    write(repository, "lab/rooms/one.yaml", f"kind: room\n{DEVIATION}")
    assert found(repository) == [("change.deviation-added", "lab/rooms/one.yaml")]


def test_no_deviation_and_no_class_hides_what_is_loosened(repository: Path) -> None:
    names = ("document-leaves-lab", "status-lowered", "policy-loosened", "deviation-added")
    classes = [f"{{rule: change.{name}, to: note, reason: unseen}}" for name in names]
    write(repository, "lab/lab.yaml", f"kind: lab\nclasses: [{', '.join(classes)}]\n")
    aside = "".join(f"  - {{rule: change.{n}, reason: unseen, approved_by: me}}\n" for n in names)
    added(repository, OTHER, f"status: draft\ndeviations:\n{aside}")
    data = told(repository)
    listed = [f for f in data["findings"] if f["rule"].startswith("change.")]
    assert {f["class"] for f in listed} == {"caution"}
    assert [f["rule"] for f in listed].count("change.deviation-added") == len(names)
    assert sum("goes from caution to note" in f["message"] for f in listed) == len(names)
    assert "change.status-lowered" in {f["rule"] for f in listed}


def test_a_lab_may_take_it_more_seriously(repository: Path) -> None:
    text = "kind: lab\nclasses:\n  - {rule: change.status-lowered, to: fault, reason: controlled}\n"
    in_main(repository, "lab/lab.yaml", text)
    added(repository, OTHER, "status: draft\n")
    assert gate(repository).status == 1


# Where it is listed --------------------------------------------------------------------------


def test_it_stands_before_stops_in_every_format(repository: Path) -> None:
    change(repository / CARD, "pressure_rating: 400 bar", "pressure_rating: 200 bar")
    added(repository, OTHER, "status: draft\n")
    names = ("words", "markdown", "annotations", "sarif", "html", "json")
    gate(repository, *(o for name in names for o in ("--write", f"{name}=../out.{name}")))
    texts = {name: (repository.parent / f"out.{name}").read_text("utf-8") for name in names}
    for name in ("words", "markdown", "annotations", "sarif", "html"):
        body = texts[name].partition('"results"')[2] if name == "sarif" else texts[name]
        assert body.index(DRAFT) < body.index("it is rated"), name
        assert texts[name].count(DRAFT) == 1, name
    assert texts["words"].splitlines()[3] == "LOOSENED BY THIS CHANGE"
    data = json.loads(texts["json"])
    (listed,) = (f for f in data["findings"] if f["rule"].startswith("change."))
    assert listed["fingerprint"] not in data["known_from_base"], "it is always new"
