"""What a lab accepts is always listed, says why, ends, and never changes what a text means."""

from __future__ import annotations

import datetime
import json
import re
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from methodlint.checking.check import check
from methodlint.checking.report import Report
from methodlint.judging.loader import built_in_rules
from methodlint.many.check_many import check_many
from methodlint.reports.formats import FORMATS, written
from methodlint.reports.prepared import Prepared
from methodlint.reports.report_schema import schema_text
from tests.command import ROOT, run
from tests.fail_closed.lab import BATCH, METHOD, day_batch, judged
from tests.judging.test_engine import judged as engine_judged
from tests.judging.test_engine import rule, says
from tests.reports.scratch_lab import change

BLANK = {
    "spaces": "   ",
    "braille": "\u2800\u2800\u2800",
    "zero width": "\u200b\u200b\u200b",
    "no-break": "\xa0\xa0\xa0",
    "Hangul filler": "\u3164\u3164\u3164",
    "joiners": "\u200d\u2060\ufeff",
    "signs": "---",
    "digits": "123",
}
DAY = datetime.date(2026, 11, 24)


def _policy(lab: Path, text: str) -> None:
    with (lab / "lab.yaml").open("a", encoding="utf-8") as stream:
        stream.write(text)


def _classes(name: str, to: str, reason: str = "known and looked after") -> str:
    return f"classes:\n  - {{rule: {name}, to: {to}, reason: {json.dumps(reason)}}}\n"


# Faults of the text itself ----------------------------------------------------------------------

SLIPS = {
    "document.unknown-key": ("run_length: ", "forbiden_liquids: [methanol]\nrun_length: "),
    "document.unit-missing-or-wrong-kind": ("run_length: ", "settling_time: 3\nrun_length: "),
    "document.duplicate-key-or-id": ("run_length: ", "run_length: 3 min\nrun_length: "),
    "document.reference-unresolved": ("runs_on: [bench-a]", "runs_on: [bench-zz]"),
    "document.type-trap": ("purpose: ", "edition: 1e999\npurpose: "),
}


def _slip(lab: Path, name: str) -> None:
    old, new = SLIPS[name]
    file = lab / METHOD
    text = file.read_text(encoding="utf-8")
    if name == "document.unit-missing-or-wrong-kind":
        text = re.sub(r"^settling_time:.*\n", "", text, flags=re.MULTILINE)
    assert old in text
    file.write_text(text.replace(old, new, 1), encoding="utf-8")


@pytest.mark.parametrize("name", SLIPS)
def test_a_fault_of_the_text_cannot_be_lowered(tmp_path: Path, name: str) -> None:
    lab = day_batch(tmp_path)
    _slip(lab, name)
    _policy(lab, _classes(name, "note"))
    verdict, status, report = judged(lab, METHOD)
    assert (verdict, status) == ("do not run", 1 if name == "document.unknown-key" else 2)
    assert {f.grade for f in report.findings if f.rule == name} == {"fault"}
    attempts = [f for f in report.findings if f.rule == "document.class-change-unsound"]
    assert len(attempts) == 1
    assert report.lowered == []


@pytest.mark.parametrize("name", SLIPS)
def test_a_fault_of_the_text_cannot_be_set_aside(tmp_path: Path, name: str) -> None:
    lab = day_batch(tmp_path)
    _slip(lab, name)
    with (lab / METHOD).open("a", encoding="utf-8") as stream:
        stream.write(f"deviations: [{{rule: {name}, reason: known, approved_by: Head}}]\n")
    report = check(lab / METHOD, as_of=DAY)
    assert report.verdict == "do not run"
    assert report.set_aside == []
    told = [f for f in report.findings if f.rule == "document.deviation-unjustified"]
    assert [f.grade for f in told] == ["fault"]


def test_neither_the_rule_on_policies_nor_that_on_deviations_can_be_lowered(
    tmp_path: Path,
) -> None:
    lab = day_batch(tmp_path)
    _policy(
        lab,
        "classes:\n"
        "  - {rule: document.class-change-unsound, to: note, reason: known here}\n"
        "  - {rule: document.deviation-unjustified, to: note, reason: known here}\n"
        "  - {rule: pressure.no-such-rule, to: note, reason: known here}\n",
    )
    verdict, _, report = judged(lab, METHOD)
    assert verdict == "do not run"
    assert {f.moved.grade for f in report.lowered if f.moved is not None} <= {"caution"}


def test_what_is_a_matter_of_judgement_may_be_lowered(tmp_path: Path) -> None:
    """A limit that is left to other guards is a caution that a lab may know better."""
    lab = day_batch(tmp_path)
    change(lab / METHOD, "purpose: regulated\n", "")
    change(lab / METHOD, "{high: 260 bar, low: 165 bar}", "{high: 260 bar, low: null}")
    assert {f.rule for f in check(lab / METHOD).findings if f.grade == "caution"} == {
        "pressure.low-limit-missing"
    }
    _policy(lab, _classes("pressure.low-limit-missing", "note"))
    verdict, status, report = judged(lab, METHOD)
    assert (verdict, status) == ("clear to run", 0)
    assert len(report.lowered) == 1


# What was lowered is listed ---------------------------------------------------------------------


def _lowered(tmp_path: Path) -> Path:
    """A method whose last peak is expected after the end of the run."""
    lab = day_batch(tmp_path)
    change(lab / METHOD, "retention_time: 1.6 min", "retention_time: 4.6 min")
    return lab


def _found_class(lab: Path) -> tuple[str, str]:
    (finding, *_) = [f for f in check(lab / METHOD).findings if f.grade in ("caution", "fault")]
    return finding.rule, finding.grade


def test_what_is_lowered_is_listed_in_every_format(tmp_path: Path) -> None:
    lab = _lowered(tmp_path)
    name, grade = _found_class(lab)
    assert "LOWERED" not in written("words", Prepared(check(lab / METHOD)))
    _policy(lab, _classes(name, "note", "the interlock of the bench stands for it"))
    for report in (check(lab / METHOD), check_many([lab / METHOD])):
        assert [finding.rule for finding in report.lowered] == [name]
        prepared = Prepared(report)
        for form in FORMATS:
            if form == "html" and report.plain_runs:
                continue
            text = " ".join(written(form, prepared).split())
            assert "the interlock of the bench stands for it" in text, form
            assert name in text, form
        data = json.loads(written("json", prepared))
        jsonschema.validate(data, json.loads(schema_text()))
        (item,) = data["lowered"]
        assert (item["from"], item["to"]) == (grade, "note")
        assert item["path"].endswith("lab.yaml")


def test_a_stop_set_aside_stands_on_the_card_itself() -> None:
    made = rule("made.stop", says("stop", "sequence.instrument"), subject="batch")
    text = (
        "kind: sequence\ndeviations:\n  - {rule: made.stop, reason: measured, "
        "approved_by: Head, until: 2026-12-31}\n"
    )
    report = engine_judged(text, made)
    assert len(report.set_aside) == 1
    _, _, card = written("words", Prepared(report)).partition("BENCH CARD")
    assert "a stop of made.stop is accepted by deviation" in card.split("BENCH\n")[0]
    for form in FORMATS:
        assert "measured" in written(form, Prepared(report)), form


# Reasons and names ------------------------------------------------------------------------------


@pytest.mark.parametrize("blank", BLANK.values(), ids=BLANK)
def test_a_reason_without_letters_lowers_nothing(tmp_path: Path, blank: str) -> None:
    lab = _lowered(tmp_path)
    name, _ = _found_class(lab)
    _policy(lab, _classes(name, "note", blank))
    verdict, status, report = judged(lab, METHOD)
    assert (verdict, status) == ("do not run", 2)
    assert report.lowered == []


@pytest.mark.parametrize("blank", BLANK.values(), ids=BLANK)
@pytest.mark.parametrize("key", ["reason", "approved_by"])
def test_a_deviation_without_a_reason_or_a_name_is_not_in_force(key: str, blank: str) -> None:
    parts = {"reason": "measured", "approved_by": "Head", "until": "2026-12-31", key: blank}
    report = _deviating(parts)
    assert report.set_aside == []
    assert report.verdict == "do not run"


@pytest.mark.parametrize("name", ["李", "Ж", "Ann O.", "Head of lab 2", "Ω"])
def test_silent_for_names_of_any_script(name: str) -> None:
    report = _deviating({"reason": "已测量", "approved_by": name, "until": "2026-12-31"})
    assert len(report.set_aside) == 1


@pytest.mark.parametrize("blank", BLANK.values(), ids=BLANK)
def test_an_approval_and_an_operator_need_a_name(tmp_path: Path, blank: str) -> None:
    lab = day_batch(tmp_path)
    text = (lab / BATCH).read_text(encoding="utf-8")
    assert "\noperator:" in text
    text = re.sub(r"^operator:.*\n", "", text, flags=re.MULTILINE)
    text += f"operator: {json.dumps(blank, ensure_ascii=False)}\n"
    (lab / BATCH).write_text(text, encoding="utf-8")
    assert judged(lab, BATCH)[:2] == ("do not run", 2)


def _deviating(parts: dict[str, Any], **options: Any) -> Report:
    inner = ", ".join(f"{key}: {json.dumps(value)}" for key, value in parts.items())
    text = f"kind: method\ndeviations:\n  - {{rule: made.stop, {inner}}}\n"
    return engine_judged(text, rule("made.stop", says("stop")), **options)


# The end of a deviation -------------------------------------------------------------------------

FULL = {"reason": "measured", "approved_by": "Head"}


def _with_deviation(lab: Path, until: str) -> None:
    """A method whose outlet has no low limit, and a deviation from that."""
    with (lab / METHOD).open("a", encoding="utf-8") as stream:
        stream.write(
            "deviations:\n  - {rule: made.stop, reason: measured, approved_by: Head, "
            f"until: {until}}}\n"
        )


@pytest.mark.parametrize(
    ("until", "as_of", "holds"),
    [
        ("2026-12-31", None, False),
        ("2026-12-31", DAY, True),
        ("2026-12-31", datetime.date(2026, 12, 31), True),
        ("2026-12-31", datetime.date(2027, 1, 1), False),
        ("2026-11-23", None, False),
    ],
)
def test_a_method_alone_shows_by_as_of_that_a_deviation_holds(
    tmp_path: Path, until: str, as_of: datetime.date | None, holds: bool
) -> None:
    lab = day_batch(tmp_path)
    _with_deviation(lab, until)
    report = check(lab / METHOD, as_of=as_of, rules=[rule("made.stop", says("stop"))])
    assert bool(report.set_aside) is holds
    assert report.verdict == ("run with care" if holds else "do not run")


def test_a_method_alone_asks_for_the_day(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    _with_deviation(lab, "2026-12-31")
    report = check(lab / METHOD, rules=[*built_in_rules(), rule("made.stop", says("stop"))])
    assert report.verdict == "do not run"
    (item,) = [i for i in report.not_checked if i.rule == "document.deviation-unjustified"]
    assert "--as-of" in item.missing[0]
    assert "today" in item.missing[0]


def test_the_run_has_to_begin_before_the_deviation_ends() -> None:
    """The sound sequence begins on 2026-11-24, whenever it is looked at."""
    early = datetime.date(2026, 11, 20)
    assert len(_deviating({**FULL, "until": "2026-11-24"}, as_of=early).set_aside) == 1
    assert _deviating({**FULL, "until": "2026-11-23"}, as_of=early).set_aside == []
    late = datetime.date(2026, 11, 30)
    assert _deviating({**FULL, "until": "2026-11-29"}, as_of=late).set_aside == []


def test_as_of_takes_today(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    today = datetime.date.today().isoformat()
    done = run("check", METHOD, "--as-of", "today", "--show", "json", cwd=lab)
    assert done.status == 0
    assert json.loads(done.stdout)["as_of"] == today
    assert f"judged as of {today}" in run("check", METHOD, "--as-of", "today", cwd=lab).stdout
    assert json.loads(run("check", METHOD, "--show", "json", cwd=lab).stdout)["as_of"] is None
    refused = run("check", METHOD, "--as-of", "tomorrow", cwd=lab)
    assert refused.status == 2
    assert "or today" in refused.stderr


def test_hooks_judge_as_of_today() -> None:
    text = (ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8")
    entries = re.findall(r"entry: (.*)", text)
    assert len(entries) == 4
    assert all("--as-of today" in entry for entry in entries)


# Where a deviation is written -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("kind", "where", "holds"),
    [
        ("column", "method.flow", False),
        ("column", "column.pressure_rating", True),
        ("instrument", "column.pressure_rating", False),
        ("room", "supply.net_mass", False),
        ("solvents", "method.flow", False),
        ("method", "column.pressure_rating", True),
        ("sequence", "column.pressure_rating", True),
    ],
)
def test_a_deviation_holds_in_what_is_judged_and_in_the_card_concerned(
    kind: str, where: str, holds: bool
) -> None:
    made = rule("made.stop", says("stop", where))
    text = (
        f"kind: {kind}\ndeviations:\n  - {{rule: made.stop, reason: measured, "
        "approved_by: Head, until: 2026-12-31}\n"
    )
    report = engine_judged(text, made)
    assert bool(report.set_aside) is holds


def test_a_deviation_in_a_card_that_is_not_concerned_is_told() -> None:
    (justified,) = (r for r in built_in_rules() if r.id == "document.deviation-unjustified")
    made = rule("made.stop", says("stop", "method.flow"))
    text = (
        "kind: column\ndeviations:\n  - {rule: made.stop, reason: measured, "
        "approved_by: Head, until: 2026-12-31}\n"
    )
    report = engine_judged(text, made, justified)
    told = [f for f in report.findings if f.rule == justified.id]
    assert [f.grade for f in told] == ["caution"]
    assert "does not concern this document" in told[0].message
