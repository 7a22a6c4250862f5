"""The head of the CO2 pump against the reference equation (Span and Wagner 1996, by CoolProp)."""

from __future__ import annotations

import pytest
from CoolProp.CoolProp import PropsSI

from methodlint.rehearsal.bench.pump_head import delivered_change, subcooling


@pytest.mark.parametrize("celsius", [4.0, 10.0, 20.0])
def test_subcooling_is_the_distance_from_boiling(celsius: float) -> None:
    boiling = celsius + 273.15
    pressure = PropsSI("P", "T", boiling, "Q", 0, "CO2")
    assert subcooling(boiling - 6.0, pressure) == pytest.approx(6.0, abs=0.01)
    assert subcooling(boiling + 1.0, pressure) == pytest.approx(-1.0, abs=0.01)


@pytest.mark.parametrize("bar", [100.0, 150.0, 300.0])
def test_a_warmer_head_delivers_less(bar: float) -> None:
    cold, warm = (PropsSI("D", "T", T, "P", bar * 1e5, "CO2") for T in (283.15, 293.15))
    assert delivered_change(293.15, 283.15, bar * 1e5) == pytest.approx(warm / cold - 1.0, abs=2e-4)
    assert delivered_change(283.15, 283.15, bar * 1e5) == 0.0
