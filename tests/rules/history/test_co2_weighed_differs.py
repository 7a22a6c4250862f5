"""`history.co2-weighed-differs`: weight against prediction; 40 injections take 0.59 kg by it."""

from __future__ import annotations

import pytest

from tests.rules.history.logged import entries, findings, reviewed

RULE = "history.co2-weighed-differs"


def _two(after: float, more: str = "") -> str:
    return entries(
        "date: 2026-09-01, injections: 40, weight_before: 84.0 kg, weight_after: 83.4 kg",
        f"date: 2026-09-02, injections: 40, weight_after: {after} kg{more}",
    )


@pytest.mark.parametrize(
    "text",
    [
        pytest.param(_two(82.8), id="as predicted"),
        pytest.param(_two(82.65), id="within what the scale may be off"),
        pytest.param(_two(84.9, ", cylinder_changed: true"), id="another cylinder"),
        pytest.param(
            entries(
                "date: 2026-09-01, weight_after: 83.4 kg", "date: 2026-09-02, weight_after: 83.4 kg"
            ),
            id="nothing ran, nothing is lost",
        ),
    ],
)
def test_silent(text: str) -> None:
    assert reviewed(text, RULE) == ([], [])


def test_a_kilogram_more_than_predicted() -> None:
    (found,) = findings(_two(81.8), RULE)
    assert found.found is not None and found.limit is not None
    assert found.found.value - found.limit.value == pytest.approx(1.0, abs=0.05)
    assert "a leak, or a run or a change of the cylinder that is not logged" in found.message
    assert found.cautions == ("asphyxiation",)


def test_less_than_predicted() -> None:
    (found,) = findings(_two(83.4), RULE)
    assert "less than predicted" in found.message and found.cautions == ()


def test_small_leak_shows_over_the_whole_cylinder() -> None:
    weights = [84.0 - 0.7 * n for n in range(11)]
    rows = [f"date: 2026-09-{n + 1:02}, injections: 40, weight_after: {weight:.2f} kg"
            for n, weight in enumerate(weights)]  # fmt: skip
    (found,) = findings(entries(*rows), RULE)
    assert "in all from 2026-09-01 to 2026-09-11" in found.message


def test_unknown_runs_are_asked_for() -> None:
    found, lacking = reviewed(
        entries(
            "date: 2026-09-01, injections: 40, weight_after: 83.4 kg",
            "date: 2026-09-02, start_pressure: 217 bar, weight_after: 81.0 kg",
        ),
        RULE,
    )
    assert found == [] and len(lacking) == 1


def test_heavier_cylinder_without_a_change() -> None:
    (found,) = findings(_two(99.0), RULE)
    assert "no change of the cylinder is logged" in found.message
    assert found.at.path == ("entries", 1)
