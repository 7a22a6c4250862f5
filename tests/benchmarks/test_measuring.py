"""The scripts themselves: turns, medians, and tables that say what was not reached."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from tests.benchmarks.__main__ import results, rows
from tests.benchmarks.figure import Figure, ms
from tests.benchmarks.measuring import Call, Compared, Program, Turn, in_turn


def test_things_take_turns() -> None:
    order: list[str] = []
    in_turn(Call(lambda: order.append("a")), Call(lambda: order.append("b")), times=2)
    assert order == ["a", "b"] * 3


def test_ratios_are_those_of_each_turn() -> None:
    # A machine that is ten times as slow in one turn is so for both things.
    turns = [(Turn(1, 1), Turn(2, 4)), (Turn(10, 10), Turn(20, 40)), (Turn(3, 3), Turn(2, 3))]
    compared = Compared(turns)  # type: ignore[arg-type]
    assert compared.ratio == pytest.approx(0.5)
    assert compared.processor_ratio == pytest.approx(0.25)
    assert compared.wall(1) == 2


def test_a_program_that_fails_is_not_a_time(tmp_path: Path) -> None:
    assert Program([sys.executable, "-c", "pass"], tmp_path)().wall > 0
    with pytest.raises(RuntimeError, match="ended with 7"):
        Program([sys.executable, "-c", "raise SystemExit(7)"], tmp_path)()


def test_tables_say_what_is_not_reached() -> None:
    figures = [
        Figure("slow", "quick", "3.00 x", "at most 2 x", reached=False, detail="3 s against 1 s"),
        Figure("equal", "quick", "1.00 x", "at most 2 x", reached=True),
    ]
    assert rows(figures)[2] == "| slow | quick | 3.00 x **not reached** | at most 2 x |"
    page = results(figures, "idle", "busy")
    assert "reached: 1 of 2" in page
    assert "3 s against 1 s" in page


def test_times_in_the_unit_that_fits() -> None:
    assert [ms(0.0123), ms(0.9), ms(1.28)] == ["12.3 ms", "900 ms", "1.28 s"]
