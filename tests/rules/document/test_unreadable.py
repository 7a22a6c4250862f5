"""What is YAML and what is not: YAML Ain't Markup Language 1.2.2; section numbers beside the cases."""

from __future__ import annotations

import pytest

from tests.rules.document.pages import found_in, report_on

RULE = "document.unreadable"


@pytest.mark.parametrize(
    "text",
    [
        "title: a #b",  # 6.6: a comment needs a blank before its sign
        'title: "a: b"',  # 7.3.1
        "title: 50 % of a",  # 7.3.3: a percent sign inside is plain
        "title: |\n  first: line\n  second",  # 8.1.2
        "title:",  # 7.2: a value may be empty
        "programme: [{time: 0 min},]",  # 7.4.1: a comma may come last
    ],
)
def test_silent_for_what_looks_odd_and_is_yaml(text: str) -> None:
    assert found_in(f"kind: method\n{text}\n", RULE) == []


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("programme: [{time: 0 min}", (2, 12)),  # 7.4.1: opened and not closed
        ("title: 'a", (2, 8)),  # 7.3.2
        ("title: a: b", (2, 9)),  # 7.3.3: a colon and a blank end a plain key
        (" flow: 1 mL/min", (2, 2)),  # 8.2.2: keys of one mapping stand below each other
        ("\tflow: 1 mL/min", (2, 1)),  # 6.1: no tabs to indent
        ("flow: *nowhere", (2, 7)),  # 7.1: an alias needs its anchor
        ("title: @a", (2, 8)),  # 5.3: reserved
        ("title: %a", (2, 8)),  # 7.3.3
        ("---\nkind: column", (2, 1)),  # 9.2: another document
    ],
)
def test_the_finding_stands_where_the_slip_is(text: str, place: tuple[int, int]) -> None:
    (found,) = found_in(f"kind: method\n{text}\n", RULE)
    assert found.grade == "fault"
    assert (found.at.place.line, found.at.place.column) == place
    assert found.remedy


def test_an_empty_document_is_none() -> None:
    (found,) = found_in("", RULE)
    assert (found.at.place.line, found.at.place.column) == (1, 1)


def test_nothing_of_what_cannot_be_read_is_judged() -> None:
    report = report_on(
        "kind: method\nflow: 2\nprogramme: [{\n", RULE, "document.unit-missing-or-wrong-kind"
    )
    assert {one.rule for one in report.findings} == {RULE}
    assert report.verdict == "do not run"
