"""Fitted columns (common practice, no source)."""

from __future__ import annotations

import pytest

from methodlint.checking.check import judge_documents
from methodlint.judging.loader import built_in_rules
from methodlint.rulebook.examples import _library, lab_with
from tests.rules.harness import findings, judged

RULE = "column.not-the-one-fitted"


def fitted(text: str) -> str:
    return f"kind: instrument\nfitted_columns: {text}\n"


def test_silent_where_the_method_lists_an_equivalent() -> None:
    other = fitted('{"1": diol-b, "2": empty}') + "---\nkind: method\n{}\n"
    assert findings(other.replace("{}", "equivalent_columns: [diol-b]"), RULE) == []
    assert len(findings(other.replace("{}", "equivalent_columns: [diol-c]"), RULE)) == 1


@pytest.mark.parametrize("name", ["column", "Column", "QM-0388"])
def test_silent_for_the_card_s_name_or_serial(name: str) -> None:
    assert findings(fitted(f'{{"2": {name}}}'), RULE) == []


def test_another_column_or_an_empty_position() -> None:
    (finding,) = findings(fitted('{"1": amylose-3um, "2": empty}'), RULE)
    assert finding.grade == "fault"
    assert "column (serial QM-0388), fitted are 1: amylose-3um, 2: empty" in finding.message
    assert finding.also[0].path == ("column",)


def test_not_checked_where_the_card_does_not_say() -> None:
    report = judged("kind: instrument\nfitted_columns: null\n", RULE)
    assert report.findings == []
    assert report.not_checked[0].missing == ("instrument.fitted_columns",)


def test_silent_for_a_method_checked_without_a_sequence() -> None:
    """What is fitted is the state of a bench on a day; a method alone is not asked."""
    documents = lab_with(fitted('{"1": amylose-3um, "2": empty}'))
    rules = tuple(rule for rule in built_in_rules() if rule.id == RULE)
    report = judge_documents(_library(documents), [documents["method"]], rules)
    assert report.findings == []
    assert report.not_checked == []
