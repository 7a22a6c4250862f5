"""How much liquid a cylinder gives, against tabulated densities of saturated vapour."""

from __future__ import annotations

import pytest

from methodlint.checking.assemble import Assembly, rehearse_cases
from methodlint.documents.kinds.supply import Supply
from methodlint.judging.case import BatchCase
from methodlint.rehearsal.bench import co2_supply
from methodlint.rulebook.examples import _library, lab_with

ZERO = 273.15


def _supply(**fields: object) -> Supply:
    return Supply.model_validate({"kind": "supply", "water_capacity": "50 L", **fields})


def _batch(changes: str) -> BatchCase:
    documents = lab_with(changes)
    assembly = Assembly(_library(documents))
    assembly.add_sequence(documents["sequence"])
    rehearse_cases(assembly.batches)
    return assembly.batches[0]


@pytest.mark.parametrize(
    ("store", "left", "usable"), [("20 degC", 9.7, 27.8), ("25 degC", 12.1, 25.4)]
)
def test_full_cylinder_of_50_litres(store: str, left: float, usable: float) -> None:
    """37.5 kg in 50 L give 27.8 kg (74 %) at 20 degC and 25.4 kg (68 %) at 25 degC: density of
    saturated vapour 194 and 242 kg/m3 (Span and Wagner 1996, CoolProp 8.0.0)."""
    found = co2_supply.usable_liquid(_supply(net_mass="37.5 kg", store_temperature=store))
    assert found is not None
    assert found.vapour == pytest.approx(left, abs=0.05)
    assert found.expected == pytest.approx(usable, abs=0.06)


def test_condensing_pump_leaves_less() -> None:
    """5.8 kg stay in 50 L at 45 bar and 20 degC (Span and Wagner 1996, CoolProp 8.0.0)."""
    left = co2_supply.vapour_left(_supply(), ZERO + 20, 45e5)
    assert left == pytest.approx(5.8, abs=0.05)


def test_condensing_pump_below_its_inlet_pressure_gets_no_liquid_either() -> None:
    """At 3 degC the store stands at 37.7 bar, under the 45 bar that the pump wants."""
    assert co2_supply.vapour_left(_supply(), ZERO + 3, 45e5) == co2_supply.vapour_left(
        _supply(), ZERO + 3
    )


def test_two_cylinders_leave_twice_as_much() -> None:
    one = co2_supply.vapour_left(_supply(), ZERO + 20)
    two = co2_supply.vapour_left(_supply(cylinders=2), ZERO + 20)
    assert one is not None
    assert two == pytest.approx(2 * one)


def test_heel_and_use_since_weighing_are_taken_off() -> None:
    plain = co2_supply.usable_liquid(_supply(net_mass="30 kg", store_temperature="20 degC"))
    less = co2_supply.usable_liquid(
        _supply(
            net_mass="30 kg",
            used_since_weighed="2 kg",
            heel="0.5 kg",
            store_temperature="20 degC",
        ),
        heel=3.0,
    )
    assert plain is not None and less is not None
    assert plain.expected - less.expected == pytest.approx(2.5)
    assert plain.vapour == less.vapour


def test_range_is_that_of_store_and_scale() -> None:
    """50 L x (201.6 - 187.0 kg/m3) between 19 and 21 degC (Span and Wagner 1996, from memory)."""
    supply = _supply(
        net_mass={"value": "12.5 kg", "tolerance": "0.05 kg"},
        store_temperature={"value": "20 degC", "tolerance": "1 K"},
    )
    found = co2_supply.usable_liquid(supply)
    assert found is not None
    assert found.most - found.least == pytest.approx(2 * 0.05 + 0.78, abs=0.06)
    assert found.least < found.expected < found.most


def test_gas_of_a_condensing_pump_has_its_range_the_right_way_round() -> None:
    supply = _supply(net_mass="12.5 kg", store_temperature="20 degC")
    found = co2_supply.usable_liquid(supply, inlet_pressure=45e5)
    assert found is not None
    assert found.least < found.expected < found.most


def test_nothing_is_assumed() -> None:
    for lacking in ("net_mass", "store_temperature"):
        fields = {"net_mass": "30 kg", "store_temperature": "20 degC"}
        del fields[lacking]
        assert co2_supply.usable_liquid(_supply(**fields)) is None
    assert co2_supply.store_temperature(_supply()) is None


def test_store_span_is_read_as_lowest_middle_highest() -> None:
    span = _supply(store_temperature={"lowest": "10 degC", "highest": "24 degC"})
    found = co2_supply.store_temperature(span)
    assert found is not None
    assert found.expected - ZERO == pytest.approx(17.0)


def test_end_is_ordered_and_early_side_comes_first() -> None:
    case = _batch("kind: supply\nnet_mass: 8.3 kg\nheel: 0 kg")
    end = co2_supply.cylinder_end(case.documents["supply"], case.batch)
    assert end is not None
    assert end.expected_first is not None and end.expected_last is not None
    assert end.not_before is not None and end.clock is not None and end.clock_last is not None
    assert end.not_before <= end.expected_first <= end.expected_last <= case.batch.injections
    assert end.clock < end.clock_last <= case.batch.duration


def test_end_of_a_well_filled_cylinder_never_comes() -> None:
    case = _batch("kind: supply\nnet_mass: 31 kg")
    end = co2_supply.cylinder_end(case.documents["supply"], case.batch)
    assert end is not None
    assert end.expected_first is end.expected_last is end.not_before is end.clock is None
    assert end.short < 0.0 and end.short_at_worst < 0.0
    assert end.demand == pytest.approx(case.batch.co2_demand)


def test_no_end_without_the_clock() -> None:
    case = _batch("kind: instrument\nco2_pump: {head_temperature: null}")
    assert case.batch.missing
    assert co2_supply.cylinder_end(case.documents["supply"], case.batch) is None


def test_what_is_drawn() -> None:
    assert co2_supply.draws_vapour(_supply(withdrawal="vapour", dip_tube=True)) is True
    assert co2_supply.draws_vapour(_supply(withdrawal="liquid", dip_tube=False)) is False
    assert co2_supply.draws_vapour(_supply(dip_tube=False)) is True
    assert co2_supply.draws_vapour(_supply(dip_tube=True)) is False
    assert co2_supply.draws_vapour(_supply()) is None
