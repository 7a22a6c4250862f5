"""CO2, oxygen and vapour in rooms, against worked figures and published limits."""

from __future__ import annotations

import math

import pytest

from methodlint.documents.kinds.room import Room
from methodlint.documents.kinds.supply import Supply
from methodlint.fluids.liquids.known import LIQUIDS
from methodlint.rehearsal.bench import room_air, vent_vapour, vents

OUT = 420e-6
PER_HOUR = 1.0 / 3600.0
G_MIN = 1e-3 / 60.0


@pytest.mark.parametrize(
    ("flow", "volume", "changes", "rise"),
    [(2.4, 45.0, 2.0, 870), (60.0, 45.0, 2.0, 21_750), (3.1, 28.0, 0.5, 7220)],
)
def test_steady_rise(flow: float, volume: float, changes: float, rise: int) -> None:
    """Q/(V x ACH) with gas of 1.839 g/L at 20 degC (Span and Wagner 1996): worked by hand,
    2.4 g/min / 1.839 g/L x 60 min/h / (45 000 L x 2 /h) = 870 ppm."""
    found = room_air.steady_fraction(flow * G_MIN, volume, changes * PER_HOUR, OUT)
    assert (found - OUT) * 1e6 == pytest.approx(rise, rel=0.005)


def test_steady_level_is_inverted_by_flow_and_air() -> None:
    level = room_air.steady_fraction(3e-5, 45.0, 2 * PER_HOUR, OUT)
    assert room_air.flow_for_fraction(level, 45.0, 2 * PER_HOUR, OUT) == pytest.approx(3e-5)
    rate = room_air.air_changes_for_fraction(level, 3e-5, 45.0, OUT)
    assert rate == pytest.approx(2 * PER_HOUR)
    assert room_air.air_changes_for_fraction(OUT, 3e-5, 45.0, OUT) == math.inf
    assert room_air.steady_fraction(3e-5, 45.0, 0.0, OUT) == 1.0


def test_release_of_a_full_cylinder() -> None:
    """37.5 kg in 60 m3: 1 - exp(-37.5/(1.839 x 60)) = 28.8 % CO2 and 14.9 % oxygen; worked."""
    level = room_air.release_fraction(37.5, 60.0)
    assert 100 * level == pytest.approx(28.8, abs=0.05)
    assert 100 * room_air.oxygen_left(level) == pytest.approx(14.9, abs=0.05)


def test_four_per_cent_takes_75_grams_for_every_cubic_metre() -> None:
    """-ln(0.96) x 1.839 = 0.075 kg/m3; 40 000 ppm is the NIOSH 1994 limit (secondary page)."""
    assert room_air.AT_ONCE_DANGEROUS == 0.04
    assert room_air.mass_for_fraction(0.04, 1.0) == pytest.approx(0.075, abs=0.0005)
    assert room_air.mass_for_fraction(0.04, 60.0) == pytest.approx(4.5, abs=0.05)


def test_oxygen_monitor_is_blind_up_to_67_000_ppm() -> None:
    """19.5 % (29 CFR 1910.134, secondary page) of 20.9 %: 6.7 % displaced; worked by hand."""
    assert room_air.foreign_gas_at_oxygen() * 1e6 == pytest.approx(67_000, abs=100)


def test_nitrogen_takes_oxygen_away() -> None:
    """20 L/min into 45 m3 with 1/h, that is 750 L/min of air: 20.9 % x 750/770; worked by hand."""
    found = room_air.oxygen_with_vented_gas(20e-3 / 60, 45.0, PER_HOUR)
    assert found == pytest.approx(0.209 * 750 / 770)
    assert room_air.oxygen_with_vented_gas(0.0, 45.0, PER_HOUR) == room_air.OXYGEN_IN_AIR
    assert room_air.oxygen_with_vented_gas(1e-3, 45.0, 0.0) == 0.0


def _supply(**fields: object) -> Supply:
    masses = {"net_mass": "20 kg", "full_mass": "37.5 kg"}
    return Supply.model_validate({"kind": "supply", **masses, **fields})


@pytest.mark.parametrize(
    ("fields", "mass"),
    [
        ({"place": "inside"}, 37.5),
        ({"place": "outside"}, 37.5),
        ({"place": "outside", "flow_stop": "none"}, 37.5),
        ({"place": "outside", "flow_stop": "excess-flow valve"}, 37.5),
        (
            {
                "place": "outside",
                "flow_stop": "excess-flow valve",
                "flow_stop_place": "inside",
            },
            37.5,
        ),
        (
            {
                "place": "outside",
                "flow_stop": "monitor-operated shut-off",
                "flow_stop_place": "upstream of the wall",
            },
            0.0,
        ),
        (
            {
                "place": "inside",
                "flow_stop": "excess-flow valve",
                "flow_stop_place": "upstream of the wall",
            },
            37.5,
        ),
        ({"place": "exhausted cabinet"}, 37.5),
        ({"place": "exhausted cabinet", "flow_stop": "excess-flow valve"}, 0.0),
    ],
)
def test_what_a_break_lets_into_the_room(fields: dict[str, str], mass: float) -> None:
    """Outdoors only a stop ahead of the wall keeps it out; common practice, no source."""
    assert room_air.released_into_room(_supply(**fields)) == mass


def test_release_is_not_guessed() -> None:
    assert room_air.released_into_room(_supply()) is None
    bare = Supply.model_validate({"kind": "supply", "place": "inside"})
    assert room_air.released_into_room(bare) is None


def test_methanol_carried_by_saturated_gas() -> None:
    """Methanol boils at 13.0 kPa and 20 degC (Antoine, Poling 2001, about 12.9 kPa in handbooks):
    y/(1-y) = 13.0/(101.3 - 13.0) = 0.147 mol per mol of CO2; worked by hand."""
    methanol = LIQUIDS["methanol"]
    assert methanol.vapour_pressure is not None
    pressure = float(methanol.vapour_pressure(293.15))
    flow = vent_vapour.saturated_vapour_flow(44.0098e-3, pressure)
    assert flow == pytest.approx(0.147, abs=0.003)


def test_vapour_never_exceeds_the_liquid() -> None:
    """2-propanol at 20 degC: 786 kg/m3, 60.1 g/mol (CRC Handbook): 1 mL/min is 13.1 mmol/min."""
    liquid = LIQUIDS["2-propanol"]
    flows = {"2-propanol": (liquid, 1e-6 / 60)}
    everything = vent_vapour.vapour_flows(flows, 1.0, 293.15, all_evaporates=False)
    assert everything["2-propanol"] == pytest.approx(13.1e-3 / 60, rel=0.01)
    hot = vent_vapour.vapour_flows(flows, 1e-9, 293.15, all_evaporates=True)
    assert hot == everything


def test_vapour_of_a_boiling_liquid_is_all_of_it() -> None:
    assert vent_vapour.saturated_vapour_flow(1.0, 2e5) == math.inf


def test_vapour_beyond_its_correlation_is_not_known() -> None:
    """tert-Butanol freezes at 25 degC; its vapour pressure is given above 299 K only."""
    flows = {"tert-butanol": (LIQUIDS["tert-butanol"], 1e-8)}
    found = vent_vapour.vapour_flows(flows, 1e-5, 293.15, all_evaporates=False)
    assert found == {"tert-butanol": None}


def test_steady_vapour() -> None:
    """0.01 mol/min of gas at 24.06 L/mol into 750 L/min of air: 321 ppm; worked by hand."""
    found = vent_vapour.steady_vapour_fraction(0.01 / 60, 45.0, PER_HOUR, 293.15)
    assert found * 1e6 == pytest.approx(321, abs=1)
    assert vent_vapour.steady_vapour_fraction(1e-3, 45.0, 0.0, 293.15) == 1.0
    assert vent_vapour.steady_vapour_fraction(0.0, 45.0, 0.0, 293.15) == 0.0


def test_open_outlets_let_all_of_the_flow_in_and_others_add() -> None:
    outlets = [
        {"name": "a", "of": "separator", "ducted": True},
        {"name": "b", "of": "waste bottle", "ducted": False},
        {"name": "c", "of": "rough pump", "ducted": False},
        {"name": "d", "of": "collector"},
    ]
    others = [{"instrument": "bench-b", "mass_flow": "6 g/min"}]
    room = Room.model_validate({"kind": "room", "outlets": outlets, "other_vents": others})
    assert vents.co2_into_room(room, 2e-5) == pytest.approx(2e-5 + 1e-4)
    assert [outlet.name for _, outlet in vents.outlets_with(room, None)] == ["d"]
    ducted = Room.model_validate({"kind": "room", "outlets": outlets[:1]})
    assert vents.co2_into_room(ducted, 2e-5) == 0.0


def test_a_room_without_volume_is_full_at_once() -> None:
    assert room_air.release_fraction(1.0, 0.0) == 1.0
    assert room_air.release_fraction(0.0, 0.0) == 0.0
