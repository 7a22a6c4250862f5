"""JUnit XML as junitparser reads it back."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import junitparser
import pytest

from methodlint.checking.check import check
from methodlint.judging.case import RunCase
from methodlint.judging.finding import Finding
from methodlint.judging.loader import built_in_rules
from methodlint.judging.unjudged import RuleFailed
from methodlint.reports.annotations import annotation_lines
from methodlint.reports.junit import junit_text
from methodlint.reports.prepared import Prepared
from tests.reports.scratch_lab import ROOT, copy_lab, example, example_report, line_of, plain


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
    data = plain(report)
    held = {
        (path, f["rule"])
        for f in data["findings"]
        if f["class"] in grades
        for path in f["raised_for"]
    }
    assert failed == held


def test_methods_that_share_a_finding_all_fail(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One sentence about one place is one finding of the report, and each method's failure."""
    monkeypatch.chdir(copy_lab(tmp_path))

    def judge(case: RunCase) -> Iterator[Finding]:
        if "column" in case.documents:
            at = case.at(case.documents["column"], ("pressure_rating",))
            yield case.finding(at, "stop", "the rating is in doubt")

    rule = replace(built_in_rules()[0], id="pressure.any", subject="run",
                               grades=("stop",), needs=(), judge=judge, applies=lambda case: True)  # fmt: skip
    users = [f"methods/{name}.yaml" for name in ("dye-intermediates", "flavonoid-aglycones")]
    report = check(*users, rules=(rule,))
    assert [f.at.file for f in report.findings] == ["columns/diol-3um.yaml"]
    read = cases(Prepared(report))
    for user in users:
        (failure,) = read[user, "pressure.any"].result
        assert "columns/diol-3um.yaml, line" in failure.text
        assert "in:" not in failure.text, "it is the failure of both"
    assert ("columns/diol-3um.yaml", "pressure.any") not in read
    said = annotation_lines(Prepared(report)).splitlines()
    for user in users:
        line = line_of(Path(user), "column:")
        assert any(text.startswith(f"::error file={user},line={line},") for text in said)


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
