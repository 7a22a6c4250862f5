"""JUnit XML as junitparser reads it back."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import junitparser
import pytest

from methodlint.judging.engine import RuleFailed
from methodlint.reports.junit import junit_text
from methodlint.reports.prepared import Prepared
from tests.reports.scratch_lab import ROOT, example, example_report, plain


@pytest.fixture(autouse=True)
def _at_the_root(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)


def read_back(report: Prepared) -> junitparser.JUnitXml:
    return junitparser.JUnitXml.fromstring(junit_text(report).encode("utf-8"))


def cases(report: Prepared) -> dict[tuple[str, str], junitparser.TestCase]:
    return {(suite.name, case.name): case for suite in read_back(report) for case in suite}


def test_a_suite_for_each_document_and_a_case_for_each_rule() -> None:
    report = example("flawed")
    suites = read_back(report)
    assert {suite.name for suite in suites} == set(report.report.documents)
    for suite in suites:
        names = [case.name for case in suite]
        assert names == sorted(set(names)), "each rule once"
        assert suite.tests == len(names)
        assert suite.failures == sum(_kind(case) == "Failure" for case in suite)
        assert suite.skipped == sum(_kind(case) == "Skipped" for case in suite)
    assert suites.tests == sum(suite.tests for suite in suites)
    made = {(path, rule) for path, rules in report.report.made.items() for rule in rules}
    assert made <= set(cases(report)), "what passed is there too"


def _kind(case: junitparser.TestCase) -> str:
    return type(case.result[0]).__name__ if case.result else ""


@pytest.mark.parametrize(
    ("hold_at", "grades"),
    [
        ("stop", {"stop"}),
        ("fault", {"stop", "fault"}),
        ("caution", {"stop", "fault", "caution"}),
        ("not-checked", {"stop", "fault", "caution", "note"}),
    ],
)
def test_failures_are_the_findings_that_are_held(hold_at: str, grades: set[str]) -> None:
    report = example("flawed", hold_at=hold_at)
    failed = {key for key, case in cases(report).items() if _kind(case) == "Failure"}
    held = {(f["path"], f["rule"]) for f in plain(report)["findings"] if f["class"] in grades}
    assert failed == held


def test_findings_of_one_rule_are_joined_in_one_failure() -> None:
    report = example("unreadable")
    data = plain(report)
    by_case: dict[tuple[str, str], list[str]] = {}
    for finding in data["findings"]:
        by_case.setdefault((finding["path"], finding["rule"]), []).append(finding["message"])
    several = {key: texts for key, texts in by_case.items() if len(texts) > 1}
    assert several
    read = cases(report)
    for key, texts in several.items():
        (result,) = read[key].result
        assert all(text in result.text for text in texts)
        assert len(result.text.strip().splitlines()) == len(texts)


def test_an_error_of_the_tool_is_an_error() -> None:
    failed = [RuleFailed("pressure.some-rule", "leaf-waxes", "KeyError: 'x'", "")]
    report = Prepared(replace(example_report("sound/leaf-waxes.yaml"), failed=failed))
    case = cases(report)["methodlint itself", "pressure.some-rule"]
    assert _kind(case) == "Error"
    assert "KeyError" in case.result[0].text
    assert read_back(report).errors == 1


def test_the_line_of_the_finding_is_given() -> None:
    path = "example_methods/flawed/terpenoids-hot-and-low.yaml"
    case = cases(example("flawed/terpenoids-hot-and-low.yaml"))[path, "phase.two-phase-at-outlet"]
    assert case._elem.get("file") == path
    line = int(case._elem.get("line"))
    assert Path(path).read_text(encoding="utf-8").splitlines()[line - 1].startswith("outlet_press")
