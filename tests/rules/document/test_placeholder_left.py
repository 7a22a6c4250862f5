"""What a template leaves behind: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.document.pages import found_in

RULE = "document.placeholder-left"


@pytest.mark.parametrize(
    "text",
    [
        "title: Copying of oligomers",
        "comment: TBD with the users",
        "x-note: TBD",
        "title: todos of the batch",
        "approval: {by: QA, on: 2026-09-01}",
    ],
)
def test_silent(text: str) -> None:
    assert found_in(f"kind: method\n{text}\n", RULE) == []


@pytest.mark.parametrize(
    "text",
    [
        "title: TBD",
        "title: xxx",
        'title: "???"',
        "title: Copy of triazoles",
        "title: <name of the method>",
        "flow: TBD",
        "purpose: TBD",
        "approval: {by: QA, on: 1970-01-01}",
        "approval: {by: QA, on: 9999-12-31}",
        "approval: {by: tbd, on: 2026-09-01}",
    ],
)
def test_a_fault_in_a_document_that_is_in_use_and_a_caution_in_a_draft(text: str) -> None:
    (found,) = found_in(f"kind: method\n{text}\n", RULE)
    assert found.grade == "fault"
    (found,) = found_in(f"kind: method\nstatus: draft\n{text}\n", RULE)
    assert found.grade == "caution"


@pytest.mark.parametrize("serial", ["SN-0000", "000", "12345", "XXX"])
def test_the_serial_number_of_a_template(serial: str) -> None:
    assert len(found_in(f'kind: column\nserial: "{serial}"\n', RULE)) == 1


def test_a_serial_number_is_none() -> None:
    assert found_in('kind: column\nserial: "QM-0388"\n', RULE) == []
