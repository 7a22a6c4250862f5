"""Many runs that say the same of one place say it once in the words; other formats keep all."""

from __future__ import annotations

import dataclasses

from methodlint.checking.report import Report
from methodlint.judging.finding import Finding, Measure
from methodlint.reports.prepared import Prepared
from methodlint.reports.text import prepared_text
from tests.rules.harness import judged


def report_of(times: int) -> Report:
    report = judged(
        "kind: method\npressure_limits: {high: 340 bar, low: null}\n", "pressure.low-limit-missing"
    )
    (finding,) = report.findings
    findings: list[Finding] = [
        dataclasses.replace(
            finding,
            message=f"message {number}",
            subject=f"run {number}",
            found=Measure(100.0 + number, "bar"),
            limit=Measure(100.0, "bar"),
        )
        for number in range(times)
    ]
    return dataclasses.replace(report, findings=findings)


def test_two_runs_are_told_one_by_one() -> None:
    text = prepared_text(Prepared(report_of(2)))
    assert "message 0" in text
    assert "message 1" in text
    assert "more" not in text


def test_many_runs_are_told_by_the_worst_and_by_name() -> None:
    text = prepared_text(Prepared(report_of(5)))
    assert "message 4" in text
    assert "message 0" not in text
    assert "the same at this place 4 times more: run 0; run 1; run 2; run 3" in text
    assert "5 cautions" in text
