"""detector.cell-far-from-oven: 10 K: common practice, no source. The oven stands at 40 degC."""

from __future__ import annotations

from tests.rules.harness import findings

RULE = "detector.cell-far-from-oven"


def card(cell: str) -> str:
    return (
        "kind: instrument\ntrain:\n  - {part: mixer, volume: 0.2 mL}\n  - {part: column}\n"
        f"  - {{part: cell, name: UV cell, volume: 11 uL, detector: UV{cell}}}\n"
        "  - {part: regulator}\n"
    )


def test_silent_near_the_oven_and_without_a_temperature() -> None:
    assert findings(card(", temperature: 31 degC"), RULE) == []
    assert findings(card(""), RULE) == []


def test_silent_with_an_exchanger() -> None:
    assert findings(card(", temperature: 20 degC, heat_exchanger: true"), RULE) == []


def test_a_cold_cell_is_noted() -> None:
    (found,) = findings(card(", temperature: 20 degC"), RULE)
    assert found.grade == "note"
    assert "the cell is at 20 degC, the oven at 40 degC: 20 K apart" in found.message
