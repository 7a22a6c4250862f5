"""`supply.chiller-overloaded`: heat of the CO2 against the pump's cooler."""

from __future__ import annotations

import re

import pytest

from tests.rules.harness import findings, judged

RULE = "supply.chiller-overloaded"
WEAK = "---\nkind: instrument\nco2_pump: {chiller_capacity: 1 W}\n"
WARM = "kind: supply\nstore_temperature: 25 degC\nline_temperature: 30 degC\n"


def test_silent_where_liquid_comes_hardly_warmer_than_the_head() -> None:
    """Below head + 10 degC; common practice, no source."""
    cool = "kind: supply\nstore_temperature: {value: 15 degC, tolerance: 1 K}\n"
    tiny = WEAK.replace("1 W", "0.1 W")
    assert findings(cool + tiny, RULE) == []


def test_silent_with_a_cooler_of_its_size() -> None:
    assert findings(WARM, RULE) == []


def test_fires_with_watts_and_the_flow_that_passes() -> None:
    [finding] = findings(WARM + WEAK, RULE)
    assert finding.grade == "caution"
    assert finding.found is not None and finding.limit is not None
    assert finding.limit.value == pytest.approx(0.8)
    assert finding.found.value > 2.0
    assert "kJ/kg" in finding.message
    assert "at most" in finding.remedy and "g/min" in finding.remedy
    assert "no single change" not in finding.remedy


def test_heat_of_a_hot_store_is_that_of_the_table() -> None:
    """34 degC at 300 g/L: 76 bar, about 170 kJ/kg down to 8 degC (Span and Wagner 1996).

    What the batch draws adds a little: 0.36 kJ/kg for each gram per litre, see
    `tests/rehearsal/test_co2_store.py`.
    """
    hot = (
        "kind: supply\nstore_temperature: {value: 34 degC, tolerance: 0 K}\n"
        "line_temperature: 34 degC\nnet_mass: 15 kg\n"
    )
    [finding] = findings(hot + WEAK, RULE)
    match = re.search(r"\((\d+) kJ/kg\)", finding.message)
    assert match is not None
    assert 170 < float(match[1]) < 177.5


def test_vapour_brings_heat_even_from_a_cool_store() -> None:
    """About 190 kJ/kg to condense and cool from 15 to 8 degC; 1.3 g/min of it are 4 W."""
    vapour = "kind: supply\nwithdrawal: vapour\ndip_tube: false\n"
    [finding] = findings(vapour + WEAK, RULE)
    assert finding.found is not None
    assert 3.0 < finding.found.value < 6.0


def test_not_checked_without_the_rating() -> None:
    report = judged(f"{WARM}---\nkind: instrument\nco2_pump: {{chiller_capacity: null}}", RULE)
    assert [item.missing for item in report.not_checked] == [
        ("instrument.co2_pump.chiller_capacity",)
    ]
