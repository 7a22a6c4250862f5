"""What cannot be judged is not to be run: one answer in every format, with the reasons."""

from __future__ import annotations

import importlib
import json
import xml.etree.ElementTree as Xml
from collections.abc import Callable
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from methodlint.checking.check import check
from methodlint.checking.report import Report
from methodlint.editor.diagnostics import diagnostics
from methodlint.editor.judgement import judge
from methodlint.judging.loader import built_in_rules
from methodlint.many.check_many import check_many
from methodlint.reports.formats import FORMATS, written
from methodlint.reports.prepared import Prepared
from methodlint.reports.report_schema import schema_text
from tests.command import run
from tests.fail_closed.lab import BATCH, METHOD, day_batch
from tests.judging.test_engine import rule
from tests.reports.scratch_lab import change

COLUMN = "columns/amylose-3um.yaml"
Edit = Callable[[Path], None]


def _latin(lab: Path) -> None:
    (lab / "lab.yaml").write_bytes((lab / "lab.yaml").read_bytes() + b"# caf\xe9\n")


def _card(lab: Path) -> None:
    (lab / COLUMN).write_text("length: [", encoding="utf-8")


def _value(lab: Path) -> None:
    change(lab / COLUMN, "length: 100 mm", "length: 100")


def _reference(lab: Path) -> None:
    change(lab / METHOD, "column: amylose-3um", "column: amylose-33um")


EDITS: dict[str, tuple[Edit, str]] = {
    "the lab's own document": (_latin, "lab.yaml"),
    "a card in use": (_card, METHOD),
    "a value of a card in use": (_value, COLUMN),
    "a reference": (_reference, METHOD),
}


def _raises(case: Any) -> Any:
    raise RuntimeError("<b>it broke</b>")


@pytest.fixture
def failing(monkeypatch: pytest.MonkeyPatch) -> None:
    """One more rule comes with the package, and it raises."""
    rules = (*built_in_rules(), rule("made.broken", _raises))
    for name in (
        "checking.check",
        "many.part",
        "many.combine",
        "editor.judgement",
        "transfer.make",
    ):
        module = importlib.import_module(f"methodlint.{name}")
        monkeypatch.setattr(module, "built_in_rules", lambda: rules, raising=False)


def _in_every_format(report: Report, reasons: list[str]) -> None:
    assert report.verdict == "do not run"
    prepared = Prepared(report)
    for name in FORMATS:
        if name == "html" and report.plain_batches:
            continue
        text = " ".join(written(name, prepared).split())
        assert "clear to run" not in text.lower(), name
        assert "do not run" in text.lower() or name == "junit", name
        for reason in reasons:
            assert reason in text, (name, reason)
    data = json.loads(written("json", prepared))
    jsonschema.validate(data, json.loads(schema_text()))
    assert data["unjudged"]
    assert all(item["reason"] and item["subject"] for item in data["unjudged"])
    invocation = json.loads(written("sarif", prepared))["runs"][0]["invocations"][0]
    assert invocation["executionSuccessful"] is False
    assert int(Xml.fromstring(written("junit", prepared)).attrib["errors"]) > 0


@pytest.mark.parametrize("name", EDITS)
def test_a_document_that_cannot_be_used(tmp_path: Path, name: str) -> None:
    lab = day_batch(tmp_path)
    edit, where = EDITS[name]
    edit(lab)
    for report in (check(lab / BATCH), check_many([lab / BATCH])):
        assert report.exit_status() == 2
        (item, *_) = report.unjudged
        assert {one.status for one in report.unjudged} == {2}
        assert any(one.subject.endswith(where) for one in report.unjudged)
        assert item.line >= 1
        _in_every_format(report, [Path(where).name])


@pytest.mark.usefixtures("failing")
def test_a_rule_that_raises(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    for report in (check(lab / BATCH), check_many([lab / BATCH])):
        assert report.exit_status() == 3
        assert {one.status for one in report.unjudged} == {3}
        assert {one.rule for one in report.unjudged} == {"made.broken"}
        _in_every_format(report, ["made.broken"])


def _ends(case: Any) -> Any:
    raise SystemExit(0)


def test_a_rule_that_ends_the_process_is_one_that_failed(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    report = check(lab / METHOD, rules=[rule("made.end", _ends), rule("made.broken", _raises)])
    assert (report.verdict, report.exit_status()) == ("do not run", 3)
    assert {one.rule for one in report.unjudged} == {"made.end", "made.broken"}


def test_silent_where_everything_can_be_judged(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    for report in (check(lab / BATCH), check_many([lab / BATCH])):
        assert report.verdict == "clear to run"
        assert json.loads(written("json", Prepared(report)))["unjudged"] == []
        for name in FORMATS:
            if name != "html" or not report.plain_batches:
                assert "judged:" not in written(name, Prepared(report)), name


def test_the_first_screen_says_why(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    _latin(lab)
    done = run("check", BATCH, cwd=lab)
    assert done.status == 2
    first = done.stdout.splitlines()[:24]
    assert first[0] == "DO NOT RUN"
    assert any("could not be judged" in line for line in first)
    assert any("lab.yaml, line" in line and "UTF-8" in " ".join(first) for line in first)


def test_a_card_that_is_not_to_be_run_says_so_itself(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    assert "DO NOT RUN" not in run("check", BATCH, cwd=lab).stdout
    _latin(lab)
    _, heading, card = run("check", BATCH, cwd=lab).stdout.partition("BENCH CARD")
    assert heading
    assert "DO NOT RUN" in card.split("BENCH\n")[0]


@pytest.mark.usefixtures("failing")
def test_an_editor_marks_the_text_that_could_not_be_judged(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    marks = [
        mark
        for path, mark in diagnostics(judge(lab / METHOD, {}, "utf-16"))
        if path == METHOD and "could not be judged" in mark.message
    ]
    assert [mark.code for mark in marks] == ["made.broken"]


def test_an_editor_marks_a_text_whose_lab_cannot_be_used(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    clean = list(diagnostics(judge(lab / METHOD, {}, "utf-16")))
    assert not [mark for _, mark in clean if "could not be judged" in mark.message]
    _latin(lab)
    marks = [
        mark for path, mark in diagnostics(judge(lab / METHOD, {}, "utf-16")) if path == METHOD
    ]
    assert any("lab.yaml" in mark.message for mark in marks)


def test_a_report_as_a_side_of_a_comparison_keeps_its_status(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    sound, broken = tmp_path / "sound.json", tmp_path / "broken.json"
    run("check", BATCH, "--write", f"json={sound}", cwd=lab)
    assert run("compare", sound, sound, cwd=lab).status == 0
    _latin(lab)
    run("check", BATCH, "--write", f"json={broken}", cwd=lab)
    assert run("compare", broken, broken, cwd=lab).status == 2


@pytest.mark.usefixtures("failing")
def test_a_transfer_whose_check_failed_writes_nothing(tmp_path: Path) -> None:
    from methodlint.transfer.open_transfer import transfer

    lab = day_batch(tmp_path)
    moved = transfer(lab / METHOD, to="bench-b")
    assert moved.exit_status() == 3
    with pytest.raises(ValueError, match=r"made\.broken"):
        moved.write(lab / "methods" / "moved.yaml")
    assert not (lab / "methods" / "moved.yaml").exists()
