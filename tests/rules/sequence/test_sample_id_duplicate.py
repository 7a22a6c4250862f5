"""One name for one sample: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings
from tests.rules.sequence.lines import line, sequence

RULE = "sequence.sample-id-duplicate"
FIRST = line("sample", "extract 1", well="D1")


def test_silent_for_a_marked_replicate() -> None:
    text = sequence(FIRST, line("sample", "extract 1", well="D2", replicate=True))
    assert findings(text, RULE) == []


def test_silent_for_another_injection_from_the_same_place() -> None:
    assert findings(sequence(FIRST, line("sample", "extract 1", well="d01")), RULE) == []


def test_silent_for_standards_which_stand_in_many_vials() -> None:
    lines = [line("control", "QC", well=well) for well in ("C1", "C2")]
    assert findings(sequence(lines), RULE) == []


def test_another_place() -> None:
    (found,) = findings(sequence(FIRST, line("sample", "extract 1", well="D2")), RULE)
    assert found.grade == "caution"
    assert "lines 1 and 2 differ" in found.message


def test_another_dilution() -> None:
    lines = [line("sample", "extract 1", well="D1", dilution=d) for d in (1, 10)]
    assert len(findings(sequence(lines), RULE)) == 1


@pytest.mark.parametrize(("names", "told"), [(1, ""), (2, "; 1 other"), (3, "; 2 other")])
def test_other_names_are_counted(names: int, told: str) -> None:
    lines = [
        line("sample", f"extract {n}", well=well) for n in range(names) for well in ("D1", "D2")
    ]
    (found,) = findings(sequence(lines), RULE)
    assert found.message.endswith(f"{told} names as well" if told else "dilution")
