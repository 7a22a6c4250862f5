"""Which bottles are known for what they are there for: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings

RULE = "solvent.bottle-without-role"
MODIFIER = "  - {line: modifier-1, liquid: methanol, fill: 900 mL, dead_volume: 60 mL}\n"


def _bottle(text: str) -> str:
    return f"kind: solvents\nbottles:\n{MODIFIER}  - {{{text}, liquid: acetone, fill: 500 mL}}\n"


@pytest.mark.parametrize("role", ["modifier", "makeup", "wash", "seal wash", "flush", "storage"])
def test_silent_for_every_role(role: str) -> None:
    assert findings(_bottle(f"line: left corner, role: {role}"), RULE) == []


@pytest.mark.parametrize(
    "line", ["modifier-2", "makeup", "needle wash", "needle-wash", "W1", "seal wash", "storage"]
)
def test_silent_for_names_that_tell(line: str) -> None:
    assert findings(_bottle(f"line: {line}"), RULE) == []


def test_silent_for_a_line_of_the_pump() -> None:
    card = "---\nkind: instrument\nmodifier_pump: {lines: [modifier-1, left corner]}\n"
    assert findings(_bottle("line: left corner") + card, RULE) == []


def test_silent_for_the_line_that_the_makeup_names() -> None:
    method = "---\nkind: method\nmakeup: {line: left corner, flow: 0.2 mL/min}\n"
    assert findings(_bottle("line: left corner") + method, RULE) == []


def test_a_line_that_says_nothing_is_a_note() -> None:
    (found,) = findings(_bottle("line: left corner"), RULE)
    assert found.grade == "note"
    assert "'left corner'" in found.message
    assert "wash, seal wash, flush or storage" in found.remedy
