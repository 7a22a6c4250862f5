"""What was there before is told from what is new, and excuses nothing that can hurt somebody."""

from __future__ import annotations

import contextlib
import copy
import datetime
import json
from pathlib import Path
from typing import Any

import pytest

from methodlint.checking.check import check
from methodlint.reports.base_report import BaseUnusable, read_base, standing
from methodlint.reports.prepared import Prepared
from tests.command import run
from tests.reports.scratch_lab import change, copy_lab, plain, prepared


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """The report of the lab with its flawed documents; no test changes it."""
    folder = tmp_path_factory.mktemp("kept")
    with contextlib.chdir(folder):
        return plain(prepared(copy_lab(folder, sound=False)))


@pytest.fixture
def lab(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A lab to change, which lies in the working folder."""
    monkeypatch.chdir(tmp_path)
    return copy_lab(tmp_path, sound=False)


def test_nothing_is_new_against_itself(kept: dict[str, Any]) -> None:
    data = kept
    how = standing(data, data)
    assert (how.new, how.worse, how.gone, how.elsewhere) == (frozenset(), frozenset(), (), ())
    assert how.known == {finding["fingerprint"] for finding in data["findings"]}


def test_new_gone_and_unchanged(lab: Path, kept: dict[str, Any]) -> None:
    base = kept
    mended = lab / "methods" / "terpenoids-hot-and-low.yaml"
    change(mended, "outlet_pressure: 90 bar", "outlet_pressure: 150 bar")
    change(mended, "low: 100 bar", "low: 130 bar")
    broken = lab / "methods" / "flame-retardant-overnight.yaml"
    change(broken, "run_length: 14 min", "run_length: 14")
    now = prepared(lab, base=base)
    how = now.standing
    assert how is not None
    assert "phase.two-phase-at-outlet" in {mark.rule for mark in how.gone}
    new = [f for f in now.report.findings if now.state(f) == "new"]
    told = {(f.rule, f.at.document.name) for f in new}
    assert ("document.unit-missing-or-wrong-kind", "flame-retardant-overnight") in told
    assert {name for _, name in told} <= {"flame-retardant-overnight", "terpenoids-hot-and-low"}
    assert len(how.known) + len(how.new) + len(how.worse) == len(now.report.findings)
    assert now.data["known_from_base"] == sorted(how.known)
    gone = {item["fingerprint"] for item in now.data["gone_from_base"]}
    assert gone == {mark.fingerprint for mark in how.gone}


def test_a_known_finding_in_a_worse_class_counts_as_new(kept: dict[str, Any]) -> None:
    now, base = kept, copy.deepcopy(kept)
    fault = next(f for f in base["findings"] if f["class"] == "fault")
    fault["class"] = "caution"
    how = standing(now, base)
    assert how.worse == {fault["fingerprint"]}
    assert how.state(fault["fingerprint"]) == "worse"


def test_what_was_not_looked_at_is_not_gone(lab: Path, kept: dict[str, Any]) -> None:
    now = prepared(lab / "methods" / "terpenoids-hot-and-low.yaml", base=kept)
    how = now.standing
    assert how is not None
    assert how.gone == ()
    assert how.elsewhere
    assert not how.new


def test_a_sentence_that_two_runs_share_stays_the_same_finding(kept: dict[str, Any]) -> None:
    """Of two like sentences at one place the first is told; putting it right unveils the other."""
    now, base = kept, copy.deepcopy(kept)
    finding = base["findings"][0]
    finding["fingerprint"] = "0" * 32 + ":1"
    how = standing(now, base)
    assert how.new == frozenset()
    assert how.gone == ()


def test_only_what_is_new_counts_when_asked(lab: Path, tmp_path: Path) -> None:
    file = lab / "methods" / "terpenoids-hot-and-low.yaml"
    assert run("check", file, "--write", "json=base.json", cwd=tmp_path).status == 1
    assert run("check", file, "--against", "base.json", cwd=tmp_path).status == 1
    for hold_at in ("fault", "caution", "note", "not-checked"):
        arguments = ("--against", "base.json", "--hold-new", "--hold-at", hold_at)
        done = run("check", file, *arguments, cwd=tmp_path)
        assert done.status == 0, (hold_at, done.stdout)


def test_a_stop_counts_always(lab: Path, tmp_path: Path) -> None:
    file = lab / "methods" / "dye-rich-end-too-fast.yaml"
    run("check", file, "--write", "json=base.json", cwd=tmp_path)
    done = run("check", file, "--against", "base.json", "--hold-new", cwd=tmp_path)
    assert "STOP" in done.stdout
    assert "0 new" in done.stdout
    assert done.status == 1


def test_what_could_not_be_judged_is_no_pass(lab: Path, tmp_path: Path) -> None:
    file = lab / "methods" / "terpenoids-hot-and-low.yaml"
    change(file, "column: wide-silica-3um", "column: wide-silica-9um")
    run("check", file, "--write", "json=base.json", cwd=tmp_path)
    done = run("check", file, "--against", "base.json", "--hold-new", cwd=tmp_path)
    assert done.status == 2


def test_a_deviation_that_is_taken_away_makes_its_finding_new(lab: Path) -> None:
    file = lab / "methods" / "terpenoids-hot-and-low.yaml"
    text = file.read_text(encoding="utf-8")
    deviation = "deviations:\n  - {rule: phase.two-phase-at-outlet, reason: a trial, "
    deviation += "approved_by: head of the laboratory, until: 2099-12-31}\n"
    file.write_text(text + deviation, encoding="utf-8")
    day = datetime.date(2026, 11, 24)
    base = plain(Prepared(check(file, as_of=day)))
    assert base["deviations"]
    file.write_text(text, encoding="utf-8")
    now = Prepared(check(file, as_of=day), base=base)
    rules = {f.rule for f in now.report.findings if now.state(f) == "new"}
    assert "phase.two-phase-at-outlet" in rules
    file.write_text(text + deviation, encoding="utf-8")
    again = Prepared(check(file, as_of=day), base=base)
    assert again.standing is not None
    assert again.standing.gone == ()


_WHOLE: dict[str, Any] = {
    "edition": 1, "documents": [], "findings": [], "not_checked": [], "deviations": [],
    "runs": [], "batches": [],
}  # fmt: skip


@pytest.mark.parametrize(
    "content",
    [
        "",
        "not JSON",
        "[]",
        "{}",
        "[" * 100_000,
        '{"findings": 3, "edition": 1}',
        json.dumps({**_WHOLE, "edition": 2}),
        json.dumps({**_WHOLE, "findings": [{"rule": "a.b"}]}),
        json.dumps({**_WHOLE, "findings": [3]}),
        json.dumps({**_WHOLE, "documents": [{"path": "a"}]}),
        json.dumps({**_WHOLE, "runs": [{"path": 3}]}),
        json.dumps({**_WHOLE, "not_checked": {"a": 1}}),
        "\x00\xff",
    ],
)
def test_a_base_that_is_none_is_refused_in_one_line(tmp_path: Path, content: str) -> None:
    base = tmp_path / "base.json"
    base.write_text(content, encoding="latin-1")
    with pytest.raises(BaseUnusable) as refused:
        read_base(str(base))
    assert "\n" not in str(refused.value)


def test_refusals_of_the_command_line(lab: Path, tmp_path: Path) -> None:
    file = lab / "methods" / "terpenoids-hot-and-low.yaml"
    for arguments, said in (
        (("--against", "none.json"), "cannot be opened"),
        (("--hold-new",), "--against"),
    ):
        done = run("check", file, *arguments, cwd=tmp_path)
        assert done.status == 2
        assert said in done.stderr
        assert done.stderr.count("\n") == 1
    run("check", file, "--write", "json=base.json", cwd=tmp_path)
    kept = (tmp_path / "base.json").read_bytes()
    done = run("check", file, "--against", "base.json", "--write", "json=base.json", cwd=tmp_path)
    assert done.status == 2
    assert (tmp_path / "base.json").read_bytes() == kept
