"""`history.retention-drifts`: with the density (Span and Wagner 1996) or without it."""

from __future__ import annotations

import pytest

from tests.rules.history.logged import daily, entries, findings

RULE = "history.retention-drifts"

TIME = "peak: a, retention_time: {} min"
AT_FIRST = (2.50, 2.51, 2.50, 2.49, 2.50, 2.50)


@pytest.mark.parametrize(
    "values",
    [
        pytest.param((*AT_FIRST, 2.51, 2.50, 2.49), id="the scatter of a lab"),
        pytest.param((*AT_FIRST, 2.54, 2.54, 2.54), id="1.6 %, below 3 %"),
        pytest.param((*AT_FIRST, 3.50, 2.50, 2.50), id="one bad reading"),
        pytest.param((*AT_FIRST, 2.70, 2.70), id="two readings make no trend"),
    ],
)
def test_silent(values: tuple[float, ...]) -> None:
    assert findings(daily(values, TIME), RULE) == []


def test_density_is_not_known_without_the_outlet() -> None:
    (found,) = findings(daily((*AT_FIRST, 2.65, 2.65, 2.66), TIME), RULE)
    assert "the density is not known" in found.message


@pytest.mark.parametrize(
    ("outlet", "says"),
    [
        pytest.param(140, "with the density", id="a lower outlet pressure explains it"),
        pytest.param(150, "without the density", id="the outlet reads the same"),
        pytest.param(160, "without the density", id="a higher one would do the opposite"),
    ],
)
def test_cause_is_looked_for_in_the_density(outlet: int, says: str) -> None:
    # CO2 at 40 degC: 780.2 kg/m3 at 150 bar, 763.3 at 140 bar (Span and Wagner 1996).
    rows = [f"date: 2026-09-{n:02}, peak: a, retention_time: {t} min, outlet_pressure: {p} bar"
            for n, (t, p) in enumerate([(t, 150) for t in AT_FIRST]
                                       + [(2.65, outlet)] * 4, 1)]  # fmt: skip
    (found,) = findings(entries(*rows), RULE)
    assert f"; {says}" in found.message
