"""SARIF 2.1.0: the OASIS schema and two programs of other people read what we write."""

from __future__ import annotations

import datetime
import json
import subprocess
from dataclasses import replace
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import jsonschema
import pytest

from methodlint.checking.check import check
from methodlint.checking.report import Report
from methodlint.judging.unjudged import RuleFailed
from methodlint.reports.prepared import Prepared
from methodlint.reports.sarif import sarif_text, uri_of
from tests.reports import readers
from tests.reports.scratch_lab import ROOT, copy_lab, example, example_report, prepared

PARTS = ("sound", "flawed", "unreadable")


@pytest.fixture(autouse=True)
def _at_the_root(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)


def log_of(report: Prepared) -> dict[str, Any]:
    data: dict[str, Any] = json.loads(sarif_text(report))
    return data


def run_of(report: Prepared) -> dict[str, Any]:
    (run,) = log_of(report)["runs"]
    found: dict[str, Any] = run
    return found


def test_every_finding_is_a_result_with_its_place_and_rule() -> None:
    report = example("flawed")
    run = run_of(report)
    assert len(run["results"]) == len(report.report.findings)
    places = {
        (f.rule, f.at.document.path, f.at.place.line, f.at.place.end_column)
        for f in report.report.findings
    }
    seen = set()
    for result in run["results"]:
        assert run["tool"]["driver"]["rules"][result["ruleIndex"]]["id"] == result["ruleId"]
        (location,) = result["locations"]
        where = location["physicalLocation"]
        uri = where["artifactLocation"]["uri"]
        assert run["artifacts"][where["artifactLocation"]["index"]]["location"]["uri"] == uri
        region = where["region"]
        seen.add((result["ruleId"], unquote(uri), region["startLine"], region["endColumn"]))
    assert seen == places
    levels = [result["level"] for result in run["results"]]
    assert levels == sorted(levels, key=["error", "warning", "note"].index), "worst first"
    assert run["columnKind"] == "unicodeCodePoints"
    assert run["invocations"][0]["executionSuccessful"] is True


def test_columns_count_code_points_and_end_behind_the_value(tmp_path: Path) -> None:
    file = tmp_path / "m.yaml"
    text = (
        'kind: method\ntitle: "🧪 é"\nmobile_phase: {modifier: methanol, "🧪": 1, modifierr: x}\n'
    )
    file.write_text(text, encoding="utf-8")
    line = text.splitlines()[2]
    for result in run_of(prepared(file))["results"]:
        region = result["locations"][0]["physicalLocation"]["region"]
        if result["ruleId"] == "document.unknown-key" and "modifierr" in result["message"]["text"]:
            start, end = region["startColumn"], region["endColumn"]
            assert line[start - 1 : end - 1] in ("modifierr", "x")
            return
    pytest.fail("the unknown key was not found")


def test_rules_have_texts_and_no_empty_ones() -> None:
    rules = run_of(example("flawed"))["tool"]["driver"]["rules"]
    assert rules
    for rule in rules:
        for key in ("shortDescription", "fullDescription", "help"):
            assert rule[key]["text"].strip()
        assert rule["defaultConfiguration"]["level"] in ("error", "warning", "note")
        assert rule["name"].isalnum()


def test_what_could_not_be_read_is_no_success() -> None:
    invocation = run_of(example("unreadable"))["invocations"][0]
    assert invocation["executionSuccessful"] is False
    told = invocation["toolExecutionNotifications"]
    assert {n["descriptor"]["id"] for n in told} == {"not-readable"}
    assert any("never-closed" in n["message"]["text"] for n in told)


def test_a_rule_that_failed_is_no_success() -> None:
    failed = [RuleFailed("pressure.some-rule", "leaf-waxes", "KeyError: 'x'", "")]
    report = replace(example_report("sound/leaf-waxes.yaml"), failed=failed)
    invocation = run_of(Prepared(report))["invocations"][0]
    assert invocation["executionSuccessful"] is False
    assert invocation["toolExecutionNotifications"][0]["descriptor"]["id"] == "rule-failed"


def test_a_deviation_is_a_suppression(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    file = copy_lab(tmp_path, sound=False) / "methods" / "terpenoids-hot-and-low.yaml"
    deviation = "deviations:\n  - {rule: phase.two-phase-at-outlet, reason: a trial, "
    deviation += "approved_by: head of the laboratory, until: 2099-12-31}\n"
    file.write_text(file.read_text(encoding="utf-8") + deviation, encoding="utf-8")
    judged = Prepared(check(file, as_of=datetime.date(2026, 11, 24)))
    aside = [r for r in run_of(judged)["results"] if "suppressions" in r]
    assert [r["ruleId"] for r in aside] == ["phase.two-phase-at-outlet"]
    (suppression,) = aside[0]["suppressions"]
    assert "a trial, approved by head of the laboratory" in suppression["justification"]
    assert suppression["kind"] == "inSource"


@pytest.mark.parametrize(
    ("path", "uri"),
    [
        ("methods/a b.yaml", "methods/a%20b.yaml"),
        ("methods/é#?%.yaml", "methods/%C3%A9%23%3F%25.yaml"),
        ("javascript:x.yaml", "javascript%3Ax.yaml"),
        ("/srv/lab/a.yaml", "file:///srv/lab/a.yaml"),
        ("a\\b\n.yaml", "a%5Cb%0A.yaml"),
        ("\udcff.yaml", "%FF.yaml"),
    ],
)
def test_paths_are_percent_encoded(path: str, uri: str) -> None:
    """RFC 3986, section 2.1; a colon in the first segment would read as a scheme (4.2)."""
    assert uri_of(path) == uri


def test_an_empty_report_is_a_log_too() -> None:
    assert run_of(Prepared(Report(documents={})))["results"] == []


@pytest.mark.second_reader
def test_the_oasis_schema_accepts_it() -> None:
    schema = readers.sarif_schema()
    validator = jsonschema.Draft7Validator(schema)
    for part in PARTS:
        assert list(validator.iter_errors(log_of(example(part)))) == []


@pytest.mark.second_reader
@pytest.mark.parametrize("part", PARTS)
def test_the_multitool_has_nothing_against_it(part: str, tmp_path: Path) -> None:
    file = tmp_path / "out.sarif"
    file.write_text(sarif_text(example(part)), encoding="utf-8")
    assert readers.complaints_of_multitool(file) == []


@pytest.mark.second_reader
def test_sarif_tools_counts_the_same_results(tmp_path: Path) -> None:
    program = readers.script("sarif", "sarif-tools")
    report = example("flawed")
    file = tmp_path / "out.sarif"
    file.write_text(sarif_text(report), encoding="utf-8")
    done = subprocess.run(
        [program, "summary", file], capture_output=True, text=True, timeout=120, check=True
    )
    counts = report.report.counts
    expected = {
        "error": counts["stop"] + counts["fault"],
        "warning": counts["caution"],
        "note": counts["note"],
    }
    for level, count in expected.items():
        assert f"{level}: {count}" in done.stdout


def _after_fix(lab: Path, result: dict[str, Any], number: int = 0) -> None:
    """Write a fix into the files, as a program would that knows SARIF only."""
    for change in result["fixes"][number]["artifactChanges"]:
        file = lab.parent / change["artifactLocation"]["uri"]
        lines = file.read_text(encoding="utf-8").split("\n")
        for made in change["replacements"]:
            region = made["deletedRegion"]
            assert region["startLine"] == region["endLine"]
            text = lines[region["startLine"] - 1]
            before, after = text[: region["startColumn"] - 1], text[region["endColumn"] - 1 :]
            lines[region["startLine"] - 1] = before + made["insertedContent"]["text"] + after
        file.write_text("\n".join(lines), encoding="utf-8")


def test_a_fix_can_be_applied_and_resolves_its_finding(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lab = copy_lab(tmp_path, sound=False)
    monkeypatch.chdir(tmp_path)
    file = "lab/methods/terpenoids-hot-and-low.yaml"

    def results() -> list[dict[str, Any]]:
        log = json.loads(sarif_text(Prepared(check(file))))
        return list(log["runs"][0]["results"])

    found = [result for result in results() if "fixes" in result]
    assert found, "at least one remedy replaces a value that is written"
    _after_fix(lab, found[0])
    assert found[0]["ruleId"] not in {result["ruleId"] for result in results()}


def test_what_was_meant_is_a_fix(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    lab = copy_lab(tmp_path)
    monkeypatch.chdir(tmp_path)
    file = lab / "methods" / "flavonoid-aglycones.yaml"
    text = file.read_text(encoding="utf-8")
    file.write_text(text.replace("outlet_pressure:", "outlet_presure:"), encoding="utf-8")
    log = json.loads(sarif_text(Prepared(check("lab/methods/flavonoid-aglycones.yaml"))))
    (slip,) = (r for r in log["runs"][0]["results"] if r["ruleId"] == "document.unknown-key")
    _after_fix(lab, slip)
    assert file.read_text(encoding="utf-8") == text
