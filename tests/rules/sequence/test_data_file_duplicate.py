"""Names of data files: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged
from tests.rules.sequence.lines import line, samples, sequence

RULE = "sequence.data-file-duplicate"


def _card(existing: str) -> str:
    return f"kind: instrument\ndata_files: {{existing: {existing}}}\n---\n"


def test_silent_with_the_number_of_the_line() -> None:
    assert findings(sequence(samples(30), data_file="{seq}_{line:03}"), RULE) == []


def test_silent_when_the_instrument_adds_a_suffix() -> None:
    assert findings(_card("suffix") + sequence(samples(3), data_file="{date}"), RULE) == []


def test_silent_without_names() -> None:
    assert findings(sequence(samples(3), data_file=None), RULE) == []


def test_silent_for_several_injections_of_one_line() -> None:
    text = sequence(line("sample", "s", count=5), data_file="{line}")
    assert findings(text, RULE) == []


@pytest.mark.parametrize(("existing", "grade"), [("overwrite", "stop"), ("refuse", "fault")])
def test_class_by_what_the_instrument_does(existing: str, grade: str) -> None:
    (found,) = judged(_card(existing) + sequence(samples(3), data_file="{date}"), RULE).findings
    assert found.grade == grade
    assert "lines 1 and 2 both write '20261124' (3 lines share a name)" in found.message
    assert found.remedy == 'write data_file: "{seq}_{line:03}"'


def test_capitals_and_replaced_characters_make_no_difference() -> None:
    lines = [line("sample", "s", data_file="Run/1"), line("sample", "t", data_file="run_1")]
    (found,) = findings(sequence(lines, data_file=None), RULE)
    assert "both write 'run_1'" in found.message
    assert found.at.path == ("lines", 1, "data_file")


def test_a_pattern_that_cannot_be_filled_in() -> None:
    (found,) = findings(sequence(samples(1), data_file="{operator}"), RULE)
    assert found.grade == "fault"
    assert "'{operator}' is not known" in found.message


def test_a_name_that_is_too_long() -> None:
    text = sequence(line("sample", "s", data_file="n" * 199), data_file=None)
    card = "kind: instrument\ndata_files: {longest_path: 80}\n---\n"
    (found,) = findings(card + text, RULE)
    assert "has 199 characters, the instrument takes 80" in found.message
