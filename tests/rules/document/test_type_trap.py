"""What older readers take for a number, a flag or a time: the types of YAML 1.1 (from memory) and
YAML Ain't Markup Language 1.2.2, section 10.3.2.
"""

from __future__ import annotations

import pytest

from tests.rules.document.pages import found_in, report_on

RULE = "document.type-trap"


def _well(text: str) -> str:
    return f"kind: sequence\nlines:\n  - {{kind: sample, plate: 1, well: {text}}}\n"


@pytest.mark.parametrize("text", ["A1", "A01", "E1", '"1E2"'])
def test_silent_for_wells_that_every_reader_takes_for_text(text: str) -> None:
    assert found_in(_well(text), RULE) == []


@pytest.mark.parametrize(
    "text",
    [
        "kind: method\ntitle: No 5\n",
        "kind: instrument\noven: {cooled: true}\n",
        "kind: sequence\nbegins: 2026-11-24T08:00\n",
        'kind: room\nstaffed: {begins: "08:00", ends: "18:00"}\n',
        "kind: method\nrun_length: 1.5 min\n",
    ],
    ids=["a title", "a flag", "a date", "a quoted time of day", "a decimal point"],
)
def test_silent_for_what_is_what_it_looks_like(text: str) -> None:
    assert found_in(text, RULE) == []


@pytest.mark.parametrize(
    ("text", "number"), [("1E2", "100"), ("1e5", "100000"), ("0123", "123"), ("007", "7")]
)
def test_a_name_that_is_read_as_a_number_is_offered_in_quotation_marks(
    text: str, number: str
) -> None:
    (found,) = found_in(f"kind: column\nserial: {text}\n", RULE)
    assert (found.grade, found.at.path) == ("fault", ("serial",))
    assert f"the number {number}" in found.message
    assert f'"{text}"' in found.remedy


@pytest.mark.parametrize(
    ("text", "instead"),
    [("1:30", "2 min"), ("1,5 min", '"1.5 min"'), ("1_2 min", '"12 min"')],
    ids=["base 60", "a comma", "an underscore"],
)
def test_a_number_that_is_read_in_two_ways_is_not_used(text: str, instead: str) -> None:
    report = report_on(f"kind: method\nrun_length: {text}\n", RULE)
    (found,) = report.findings
    assert found.grade == "fault"
    assert instead in found.remedy
    assert report.documents["page.yaml"].model.run_length is None  # type: ignore[attr-defined]


def test_no_is_a_flag_to_some_where_a_list_is_wanted() -> None:
    (found,) = found_in("kind: method\ndetectors: no\n", RULE)
    assert (found.grade, found.at.path) == ("fault", ("detectors",))
