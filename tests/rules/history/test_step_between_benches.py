"""`history.step-between-benches`: one column on two benches; common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.history.logged import GOOD, entries, findings

RULE = "history.step-between-benches"

BENCH = "kind: instrument\nx-name: bench-b\n"


def _two(second: tuple[int, ...]) -> str:
    rows = [f"date: 2026-09-{n:02}, start_pressure: {p} bar" for n, p in enumerate(GOOD, 1)]
    rows += [
        f"date: 2026-09-{n:02}, instrument: bench-b, start_pressure: {p} bar"
        for n, p in enumerate(second, 11)
    ]
    return entries(*rows)


@pytest.mark.parametrize(
    "second",
    [
        pytest.param((217, 218, 216, 217), id="the same on both"),
        pytest.param((235, 236), id="two readings say nothing"),
        pytest.param((217, 250, 216, 217), id="one bad reading"),
    ],
)
def test_silent(second: tuple[int, ...]) -> None:
    assert findings(_two(second), RULE, BENCH) == []


def test_other_bench_reads_more() -> None:
    (found,) = findings(_two((235, 236, 234, 235)), RULE, BENCH)
    assert found.at.path == ("entries", 6)
    assert found.found is not None and found.found.value == pytest.approx(26.0, abs=4.0)
    assert "on bench-b against instrument" in found.message
