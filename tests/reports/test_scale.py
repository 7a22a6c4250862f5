"""A thousand findings, and thirty thousand: caps are kept, and the work grows in proportion."""

from __future__ import annotations

import functools
import gzip
import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import junitparser
import pytest

from methodlint.checking.check import check
from methodlint.checking.report import Report
from methodlint.judging.unjudged import RuleFailed
from methodlint.reports.annotations import annotation_lines
from methodlint.reports.base_report import standing
from methodlint.reports.formats import FORMATS, written
from methodlint.reports.junit import junit_text
from methodlint.reports.markdown import markdown_report
from methodlint.reports.prepared import Prepared
from methodlint.reports.sarif import MOST_BYTES, MOST_RESULTS, sarif_text
from tests.reports import readers
from tests.work_done import calls_of

DOCUMENTS = 20
PER_DOCUMENT = 50


@pytest.fixture(scope="module")
def many(tmp_path_factory: pytest.TempPathFactory) -> Report:
    """Judge 20 sequences with 50 misspelt keys each; one of them also lacks what it names."""
    return _judged(tmp_path_factory.mktemp("many"), DOCUMENTS, PER_DOCUMENT)


@pytest.fixture(scope="module")
def fewer(tmp_path_factory: pytest.TempPathFactory) -> Report:
    """Judge a tenth of them."""
    return _judged(tmp_path_factory.mktemp("fewer"), DOCUMENTS // 10, PER_DOCUMENT)


@pytest.fixture(scope="module")
def thirty_thousand(tmp_path_factory: pytest.TempPathFactory) -> Report:
    """Judge 300 sequences with 100 misspelt keys each."""
    return _judged(tmp_path_factory.mktemp("thousands"), 300, 100)


def _judged(folder: Path, documents: int, per_document: int) -> Report:
    for number in range(documents):
        rows = "".join(f"  - {{kind: sample, samplee: s{row}}}\n" for row in range(per_document))
        instrument = "instrument: none-such\n" if number == 13 else ""
        text = f"kind: sequence\n{instrument}lines:\n{rows}"
        (folder / f"s{number:03}.yaml").write_text(text, encoding="utf-8")
    report = check(folder)
    misspelt = sum(f.rule == "document.unknown-key" for f in report.findings)
    assert misspelt == documents * per_document
    return report


@pytest.mark.parametrize("name", FORMATS)
def test_a_format_of_ten_times_as_many_is_ten_times_the_work(
    many: Report, fewer: Report, name: str
) -> None:
    written(name, Prepared(fewer))
    few, all_of_them = (
        calls_of(functools.partial(written, name, Prepared(report))) for report in (fewer, many)
    )
    assert all_of_them <= 12 * few


def _told_cut(run: Any) -> list[str]:
    """What a SARIF run says about results that were cut."""
    return [
        notification["message"]["text"]
        for notification in run["invocations"][0]["toolExecutionNotifications"]
        if notification["descriptor"]["id"] == "results-cut"
    ]


def test_sarif_keeps_the_worst_and_says_how_many_were_cut(
    many: Report, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("methodlint.reports.sarif.MOST_RESULTS", 300)
    (run,) = json.loads(sarif_text(Prepared(many)))["runs"]
    assert len(run["results"]) == 300
    (told,) = _told_cut(run)
    assert told.startswith(f"{len(many.findings) - 300} of {len(many.findings)} results")


def test_sarif_keeps_below_a_size_by_cutting_more(
    many: Report, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("methodlint.reports.sarif.MOST_BYTES", 4_000)
    text = sarif_text(Prepared(many))
    assert len(gzip.compress(text.encode("utf-8"))) <= 4_000
    kept = len(json.loads(text)["runs"][0]["results"])
    assert 20 < kept < len(many.findings)


def test_the_page_and_the_annotations_stay_small(many: Report) -> None:
    page = markdown_report(Prepared(many))
    assert len(page) < 65_536
    assert " more" in page
    lines = annotation_lines(Prepared(many)).splitlines()
    assert sum(line.startswith("::error") for line in lines) <= 10
    assert sum(line.startswith("::warning") for line in lines) <= 10


def test_junit_holds_a_case_for_each_document(many: Report) -> None:
    suites = junitparser.JUnitXml.fromstring(junit_text(Prepared(many)).encode("utf-8"))
    failed = [case for suite in suites for case in suite if case.name == "document.unknown-key"]
    assert len(failed) == DOCUMENTS
    assert all(len(case.result) == 1 for case in failed)


def test_a_base_of_that_size_is_compared_in_proportion(many: Report, fewer: Report) -> None:
    data, less = Prepared(many).data, Prepared(fewer).data
    base, less_base = (json.loads(json.dumps(each)) for each in (data, less))
    assert len(standing(data, base).known) == len(many.findings)
    few = calls_of(lambda: standing(less, less_base))
    assert calls_of(lambda: standing(data, base)) <= 12 * few


def test_every_one_of_them_has_a_fingerprint_of_its_own(many: Report) -> None:
    prepared = Prepared(many)
    assert len({prepared.marks.of(f) for f in many.findings}) == len(many.findings)


def test_the_worst_is_kept_wherever_it_stands(many: Report) -> None:
    last = max(many.findings, key=lambda f: (f.at.document.path, f.at.place))
    stop = replace(last, grade="stop", message="the last of all")
    report = replace(many, findings=[*many.findings[:-1], stop])
    (run,) = json.loads(sarif_text(Prepared(report)))["runs"]
    assert "the last of all" in run["results"][0]["message"]["text"]
    assert "the last of all" in markdown_report(Prepared(report))
    assert "the last of all" in annotation_lines(Prepared(report)).splitlines()[0]


def test_a_rule_that_fails_everywhere_is_told_once(many: Report) -> None:
    failed = [RuleFailed("pressure.a-rule", f"s{n}", "KeyError: 'x'", "") for n in range(500)]
    prepared = Prepared(replace(many, failed=failed))
    said = "rule pressure.a-rule failed on s0 and 499 more: KeyError: 'x'"
    assert annotation_lines(prepared).splitlines()[0] == f"::error::error of this tool: {said}"
    assert markdown_report(prepared).count("a-rule") == 1
    told = json.loads(sarif_text(prepared))["runs"][0]["invocations"][0]
    assert len(told["toolExecutionNotifications"]) <= 3


# As many as a host takes, and more ----------------------------------------------------------------


@pytest.mark.long
def test_more_than_any_host_takes_is_cut_to_its_limits(thirty_thousand: Report) -> None:
    prepared = Prepared(thirty_thousand)
    text = sarif_text(prepared)
    assert len(gzip.compress(text.encode("utf-8"))) <= MOST_BYTES
    (run,) = json.loads(text)["runs"]
    assert len(run["results"]) == MOST_RESULTS < len(thirty_thousand.findings)
    assert len(_told_cut(run)) == 1
    assert len(markdown_report(prepared)) < 65_536
    data = prepared.data
    base = json.loads(json.dumps(data))
    assert len(standing(data, base).known) == len(thirty_thousand.findings)


@pytest.mark.long
@pytest.mark.second_reader
def test_the_multitool_reads_the_cut_log(thirty_thousand: Report, tmp_path: Path) -> None:
    file = tmp_path / "many.sarif"
    file.write_text(sarif_text(Prepared(thirty_thousand)), encoding="utf-8")
    assert readers.complaints_of_multitool(file) == []
