"""A remedy changes methods and sequences; a card states what is fitted, and is edited afterwards."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import Any

import pytest

from methodlint.checking.report import Report
from methodlint.documents.text.places import path_text
from methodlint.editor.changes import solved_findings
from methodlint.reports.fingerprint import Fingerprints
from methodlint.reports.json_report import report_data
from methodlint.reports.prepared import Prepared
from methodlint.reports.sarif import sarif_text
from tests.fault_injection.remedied import Screen, labs, screen
from tests.judging.applied_remedies import lab_of
from tests.judging.test_every_remedy import UNSOUND
from tests.judging.test_nearest import assert_limits_in_order
from tests.text_labs import TextLab, base_lab, everything

# What no work at the bench alters for the better: a rating, a limit of a part, a high-pressure stop.
NEVER = re.compile(r"rating|temperature_limit|high_pressure|co2_alarm|tested|count|last_|weighed")


def edits(report: Report) -> Iterator[str]:
    """Files that the machine-readable forms of a report offer to change."""
    for one in flat(report_data(report, Fingerprints(report))["findings"]):
        yield from (change["path"] for remedy in one["remedies"] for change in remedy["changes"])
    log = json.loads(sarif_text(Prepared(report)))
    for result in log["runs"][0]["results"]:
        for fix in result.get("fixes", ()) if not result["ruleId"].startswith("document.") else ():
            yield from (one["artifactLocation"]["uri"] for one in fix["artifactChanges"])
    for _, candidate in solved_findings(report.findings):
        yield from (change.at.document.path for change in candidate.changes)


def flat(findings: list[dict[str, Any]]) -> Iterator[dict[str, Any]]:
    for finding in findings:
        yield finding
        yield from flat(finding["because"])


def of_cards(report: Report) -> list[str]:
    return [one for one in edits(report) if not re.search("methods/|sequences/", one)]


def test_a_relief_is_advice_and_no_edit() -> None:
    """`relief` written into the card would clear the stop with nothing fitted."""
    sections = [{"name": "cylinder valve to filter", "pressure_rating": "300 bar"}]
    report = base_lab().changed("supply.line_sections", sections).judged()
    [finding] = [one for one in report.findings if one.rule == "safety.trapped-liquid"]
    assert finding.remedy.startswith("fit a relief")
    assert finding.solutions, "it was tried"
    [data] = [
        one
        for one in report_data(report, Fingerprints(report))["findings"]
        if one["rule"] == "safety.trapped-liquid"
    ]
    assert data["remedies"] == []
    assert [one["text"] for one in data["bench_work"]] == [finding.remedy]
    assert of_cards(report) == []


def test_a_setting_is_an_edit() -> None:
    report = base_lab().changed("method.oven_temperature", "95 degC").judged()
    assert any("methods/" in one for one in edits(report))


@pytest.mark.long
def test_no_lab_is_offered_what_is_unsound() -> None:
    """No edit of a card, no low limit above the high one, nothing that fails when all is done."""
    offered: dict[str, list[str]] = {}
    altered: dict[str, str] = {}
    unsound: dict[str, Screen] = {}
    for name, lab in _all_labs():
        report = lab.judged()
        assert_limits_in_order(report.findings)
        # An example of a rule's page has what is wrong at once, and not one lab's report.
        if name not in PAGES and not (together := screen(lab, report)).sound:
            unsound[name] = together
        if found := of_cards(report):
            offered[name] = found
        for finding in everything(report.findings):
            for candidate in finding.candidates:
                for change in candidate.changes:
                    where = path_text(change.at.path)
                    if candidate.at_bench and NEVER.search(where):
                        altered[f"{name}: {finding.rule}"] = where
    assert offered == {}
    assert altered == {}
    assert unsound == {}


PAGES = frozenset(one.rule for one in UNSOUND)


def _all_labs() -> Iterator[tuple[str, TextLab]]:
    yield from labs()
    yield from ((one.rule, lab_of(one)) for one in UNSOUND)
