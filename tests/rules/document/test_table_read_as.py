"""What was made out of a sample table: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.document.pages import found_in, report_on

RULE = "document.table-read-as"


def _table(*rows: str, how: str = "samples.csv") -> str:
    text = "".join(f"    {row}\n" for row in rows)
    return f"kind: sequence\ntable: {how}\nx-tables:\n  samples.csv: |\n{text}"


@pytest.mark.parametrize("mark", [",", ";", "\t"], ids=["comma", "semicolon", "tab"])
def test_silent_for_the_keys_of_a_line_as_headers(mark: str) -> None:
    rows = (mark.join(row) for row in (("sample", "well", "volume [uL]"), ("wine 01", "A1", "2.0")))
    assert found_in(_table(*rows), RULE) == []


def test_silent_for_a_sequence_without_a_table() -> None:
    assert found_in("kind: sequence\nlines: [{kind: sample, plate: 1, well: A1}]\n", RULE) == []


@pytest.mark.parametrize(
    ("rows", "words"),
    [
        (("Probe,well,volume [uL]", "wine 01,A1,2.0"), "'Probe' as 'sample'"),
        (("Batch of Monday", "sample,well", "wine 01,A1"), "1 row above the header"),
        (("sample;well;volume [uL]", "wine 01;A1;2,5"), "comma"),
    ],
    ids=["a header in other words", "a title row", "decimal commas"],
)
def test_what_was_made_out_is_a_note_and_the_line_is_used(
    rows: tuple[str, ...], words: str
) -> None:
    report = report_on(_table(*rows), RULE)
    (found,) = report.findings
    assert (found.grade, found.at.path[0]) == ("note", "table")
    assert words in found.message
    (line,) = report.documents["page.yaml"].model.lines  # type: ignore[attr-defined]
    assert (line.sample, line.well) == ("wine 01", "A1")


def test_a_comma_is_read_as_the_sign_of_the_decimals() -> None:
    report = report_on(_table("sample;well;volume [uL]", "wine 01;A1;2,5"), RULE)
    (line,) = report.documents["page.yaml"].model.lines  # type: ignore[attr-defined]
    assert line.volume.si == pytest.approx(2.5e-9)
