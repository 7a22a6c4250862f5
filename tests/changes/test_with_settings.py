"""`compare METHOD --with KEY=VALUE` says what editing a copy would, and writes nothing unasked."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from tests.command import ROOT, run

GRADIENT = "methods/scouting-start.yaml"
# Read from the example itself: what stands there now, and what is asked about.
EDITS = {
    "oven_temperature": ("30 degC", "50 degC"),
    "outlet_pressure": ("130 bar", "90 bar"),
    "programme[1].modifier_share": ("{time: 5 min, modifier_share: 40 % v/v}",
                                    "{time: 5 min, modifier_share: 60 % v/v}"),
}  # fmt: skip


@pytest.fixture(scope="module")
def lab(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return Path(shutil.copytree(ROOT / "example_methods", tmp_path_factory.mktemp("with") / "lab"))


def snapshot(lab: Path) -> dict[str, bytes]:
    return {str(p): p.read_bytes() for p in lab.rglob("*") if p.is_file()}


def test_says_what_editing_a_copy_says(lab: Path) -> None:
    text = (lab / GRADIENT).read_text(encoding="utf-8")
    before = snapshot(lab)
    said = {}
    for key, (_, new) in EDITS.items():
        value = new if key.startswith("o") else "60 % v/v"
        done = run("compare", GRADIENT, "--with", f"{key}={value}", "--show", "json", cwd=lab)
        said[key] = done.status, json.loads(done.stdout)
    assert snapshot(lab) == before, "nothing is written"
    for key, (old, new) in EDITS.items():
        assert text.count(old) >= 1
        copy = lab / "methods" / "scouting-copy.yaml"
        copy.write_text(text.replace(old, new, 1), encoding="utf-8")
        done = run("compare", GRADIENT, str(copy), "--show", "json", cwd=lab)
        copy.unlink()
        status, data = said[key]
        by_copy = json.loads(done.stdout)
        figures = [subject["figures"] for subject in data["subjects"]]
        assert figures == [subject["figures"] for subject in by_copy["subjects"]], key
        rules = [(mark["rule"], mark["class"]) for mark in data["appearing"]]
        assert rules == [(mark["rule"], mark["class"]) for mark in by_copy["appearing"]], key
        assert (status, data["verdict"]) == (done.status, by_copy["verdict"]), key


def test_writes_the_changed_document_where_it_is_asked_to(lab: Path) -> None:
    target = lab / "methods" / "scouting-warm.yaml"
    done = run(
        "compare", GRADIENT, "--with", "oven_temperature=34 degC", "-o", str(target), cwd=lab
    )
    text = (lab / GRADIENT).read_text(encoding="utf-8")
    assert (done.status, done.stderr) == (0, "")
    assert target.read_text(encoding="utf-8") == text.replace("30 degC", "34 degC")
    again = run("compare", GRADIENT, "--with", "oven_temperature=34 degC", "-o", GRADIENT, cwd=lab)
    assert again.status == 2
    assert (lab / GRADIENT).read_text(encoding="utf-8") == text, "what a person wrote is kept"
    target.unlink()


def test_a_card_may_change_and_a_tolerance_stays(lab: Path) -> None:
    with_card = run("compare", GRADIENT, "--with", "instrument.dwell_volume=2 mL", cwd=lab)
    assert "changed  instruments/bench-a.yaml" in with_card.stdout
    assert "highest drop over the columns" in with_card.stdout
    method = lab / "methods" / "with-tolerance.yaml"
    text = (lab / GRADIENT).read_text(encoding="utf-8")
    wide = text.replace("30 degC", "{value: 30 degC, tolerance: 2 degC}")
    method.write_text(wide, encoding="utf-8")
    done = run("compare", str(method), "--with", "oven_temperature=34 degC", "-o", "-", cwd=lab)
    method.unlink()
    assert done.stdout == wide.replace("value: 30 degC", "value: 34 degC")


def test_what_cannot_be_asked_is_refused_with_its_reason(lab: Path) -> None:
    cases = {
        (GRADIENT, "--with", "oven=50 degC"): "did you mean 'oven_temperature'",
        (GRADIENT, "--with", "oven_temperature=50"): "has no unit",
        (GRADIENT, "--with", "oven_temperature="): "is not KEY=VALUE",
        (GRADIENT, "--with", "oven_temperature"): "is not KEY=VALUE",
        (GRADIENT, "--with", "=50 degC"): "is not KEY=VALUE",
        (GRADIENT, "--with", "flow=[1"): "cannot be read",
        (GRADIENT, "--with", "flow=1 mL/min\nkind: column"): "cannot be read",
        (GRADIENT, "--with", "flow=1 mL/min", "--with", "flow=2 mL/min"): "given twice",
        (GRADIENT, "--with", "programme[9].flow=1 mL/min"): "no place for programme[9].flow",
        (GRADIENT, "--with", "flow.value.value=1 mL/min"): "flow",
        (GRADIENT, "--with", "supply.net_mass=9 kg"): "one supply has to take part; here: none",
        (GRADIENT, "--with", "instrument.dwell_volume=1 mL", "-o", "new.yaml"): "leave out",
        (GRADIENT,): "give a NEW document, or --with",
        (GRADIENT, GRADIENT, "--with", "flow=1 mL/min"): "give a NEW document, or --with",
        (GRADIENT, GRADIENT, "-o", "new.yaml"): "there is none",
        ("methods", "--with", "flow=1 mL/min"): "not one document",
        ("nowhere.yaml", "--with", "flow=1 mL/min"): "there is no file",
    }  # fmt: skip
    before = snapshot(lab)
    wrong = {}
    for arguments, reason in cases.items():
        done = run("compare", *arguments, cwd=lab)
        if done.status != 2 or reason not in done.stderr or "Traceback" in done.stderr:
            wrong[arguments] = done.status, done.stderr
    assert wrong == {}
    assert snapshot(lab) == before
