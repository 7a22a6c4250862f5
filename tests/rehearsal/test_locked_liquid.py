"""Liquid locked in and warmed, against CO2 at constant density."""

from __future__ import annotations

import pytest

from methodlint.documents.kinds.instrument import ClosedSection
from methodlint.documents.kinds.supply import LineSection, Supply
from methodlint.fluids.mixtures.mixture_choice import model_for
from methodlint.rehearsal.bench.locked_liquid import locked_line, locked_section

ZERO = 273.15


def _supply(store: str | None = "10 degC") -> Supply:
    data: dict[str, object] = {"kind": "supply"}
    if store:
        data["store_temperature"] = {"value": store, "tolerance": "0 K"}
    return Supply.model_validate(data)


def _section(**fields: object) -> LineSection:
    return LineSection.model_validate({"name": "line", **fields})


@pytest.mark.parametrize(("warmest", "expected"), [(15, 92), (20, 124), (25, 156)])
def test_line_full_at_10_degrees_and_60_bar(warmest: int, expected: int) -> None:
    """92, 124 and 156 bar at constant density (Span and Wagner 1996, CoolProp 8.0.0)."""
    section = _section(filled_at="10 degC", filled_pressure="60 bar")
    locked = locked_line(_supply(), section, ZERO + warmest)
    assert locked is not None
    assert locked.pressure / 1e5 == pytest.approx(expected, abs=0.6)
    assert not locked.at_least


def test_line_without_its_own_figures_is_as_cold_as_the_store() -> None:
    """Saturation pressure at 10 degC is 45.0 bar (Span and Wagner 1996)."""
    locked = locked_line(_supply(), _section(), ZERO + 20)
    assert locked is not None
    assert locked.closed_temperature - ZERO == pytest.approx(10.0)
    assert locked.closed_pressure / 1e5 == pytest.approx(45.0, abs=0.1)
    assert 90e5 < locked.pressure < 124e5


def test_line_of_an_unknown_store_is_not_guessed() -> None:
    assert locked_line(_supply(None), _section(), ZERO + 20) is None


def test_line_that_does_not_warm_keeps_its_pressure() -> None:
    locked = locked_line(_supply(), _section(filled_pressure="60 bar"), ZERO + 5)
    assert locked is not None
    assert locked.rise == 0.0


def test_line_far_beyond_the_model_gives_a_lower_bound() -> None:
    section = _section(filled_at="-30 degC", filled_pressure="400 bar")
    locked = locked_line(_supply(), section, ZERO + 60)
    assert locked is not None
    assert locked.at_least and locked.pressure >= 700e5


def _closed(holds: str, **fields: object) -> ClosedSection:
    given = {"closed_at": "10 degC", "closed_pressure": "60 bar", **fields}
    return ClosedSection.model_validate({"name": "loop", "holds": holds, **given})


def test_section_of_co2_is_like_a_line() -> None:
    """124 bar at 20 degC (Span and Wagner 1996, CoolProp 8.0.0)."""
    locked = locked_section(_closed("CO2"), ZERO + 20, None)
    assert locked is not None
    assert locked.pressure / 1e5 == pytest.approx(124, abs=0.6)


def test_section_of_methanol_climbs_by_about_ten_bar_per_kelvin() -> None:
    """Expansivity 1.19e-3 /K over compressibility 1.2e-9 /Pa of methanol at 20 degC (handbook
    values, from memory) is 9.9 bar per kelvin."""
    model = model_for("methanol")
    section = _closed("modifier", closed_at="20 degC", closed_pressure="50 bar")
    locked = locked_section(section, ZERO + 25, model)
    assert locked is not None
    assert locked.rise / 1e5 / 5.0 == pytest.approx(9.9, rel=0.2)
    assert locked_section(section, ZERO + 25, None) is None
