"""Faults of supplies, solvents, rooms and waste."""

from __future__ import annotations

from random import Random

from tests.fault_injection.fault import Edit, Kind, figure
from tests.fault_injection.of_batches import BOTH, day, late
from tests.fault_injection.of_runs import one, only, pick
from tests.text_labs import REMOVED

ALL = "lab ms-lab batch"


def _wash_and_diluent(chance: Random) -> list[Edit]:
    return [
        ("solvents.bottles[3].liquid", chance.choice(("n-heptane", "n-hexane", "cyclohexane"))),
        ("sequence.diluent", "acetonitrile"),
        ("method.injection.diluent", "acetonitrile"),
    ]


def _hot_shed(chance: Random) -> list[Edit]:
    hot = chance.randint(44, 50)
    return [
        ("supply.store_temperature", {"lowest": "15 degC", "highest": f"{hot} degC"}),
        ("supply.rated_parts[1].pressure_rating", "120 bar"),
    ]


def _inside(chance: Random) -> list[Edit]:
    return [("supply.place", "inside"), ("room.risk_assessment", {"on_file": False})]


def _vessel(chance: Random, *contents: str) -> list[Edit]:
    return [("room.waste[0].contents", ["methanol", chance.choice(contents)])]


SUPPLIES: tuple[Kind, ...] = (
    # Supply
    Kind("supply.cylinder-runs-out", BOTH, one("supply.net_mass", 8.55, 8.6, "kg", 2)),
    Kind("supply.no-liquid-in-cylinder", ALL, one("supply.net_mass", 3, 7, "kg", 1)),
    Kind("supply.no-liquid-in-cylinder", BOTH, one("supply.store_temperature", 33, 38, "degC")),
    Kind("supply.pump-inlet-flashes", ALL, one("supply.store_temperature", 0, 5, "degC")),
    Kind("supply.pump-inlet-flashes", BOTH, one("supply.line_loss", 8, 15, "bar")),
    Kind("supply.wrong-withdrawal", ALL, only(("supply.dip_tube", False))),
    Kind(
        "supply.wrong-withdrawal",
        BOTH,
        only(("supply.withdrawal", "vapour"), ("supply.dip_tube", False)),
    ),
    Kind("supply.wrong-withdrawal", BOTH, only(("supply.withdrawal", "vapour"))),
    Kind("supply.overfilled", ALL, one("supply.net_mass", 80, 110, "kg")),
    Kind("supply.overfilled", BOTH, one("supply.water_capacity", 38, 44, "L")),
    Kind("supply.regulator-on-liquid-line", ALL, only(("supply.regulator_in_liquid_line", True))),
    Kind("supply.grade-too-low", "ms-lab", one("supply.grade", 99, 99.9, "%", 2)),
    Kind(
        "supply.shared-manifold",
        BOTH,
        lambda c: [
            ("supply.shared_with", ["bench-c"]),
            ("supply.bookings", [{"instrument": "bench-c", "mass": figure(c, 24, 30, "kg")}]),
        ],
    ),
    Kind(
        "supply.chiller-overloaded",
        BOTH,
        lambda c: [
            ("supply.store_temperature", "25 degC"),
            ("supply.line_temperature", "30 degC"),
            ("instrument.co2_pump.chiller_capacity", figure(c, 1, 4, "W", 1)),
        ],
    ),
    Kind(
        "supply.weight-stale",
        BOTH,
        lambda c: [
            ("supply.weighed", "2026-11-10"),
            ("supply.last_used", f"2026-11-{c.randint(12, 22)}"),
        ],
    ),
    # Safety
    Kind("safety.cylinder-too-hot", BOTH, _hot_shed),
    Kind("safety.room-co2-release", ALL, _inside),
    Kind(
        "safety.room-co2-release",
        BOTH,
        only(
            ("supply.flow_stop", "none"),
            ("supply.flow_stop_place", REMOVED),
            ("room.risk_assessment", {"on_file": False}),
        ),
    ),
    Kind(
        "safety.monitor-wrong-kind",
        BOTH,
        only(("supply.place", "inside"), ("room.monitors[0].gas", "O2")),
    ),
    Kind("safety.no-co2-monitor", BOTH, only(("supply.place", "inside"), ("room.monitors", []))),
    Kind("safety.exhaust-not-ducted", ALL, pick("room.outlets[0].ducted", False)),
    Kind(
        "safety.exhaust-not-ducted",
        "ms-lab",
        lambda c: [("instrument.ms.gas_flow", "10 L/min"), ("room.outlets[1].ducted", False)],
    ),
    Kind(
        "safety.room-co2-steady",
        "batch",
        lambda c: [
            ("room.outlets[0].ducted", False),
            ("room.air_changes", figure(c, 0.02, 0.1, "1/h", 2)),
            ("room.air_changes_at_night", "0.05 1/h"),
        ],
    ),
    Kind(
        "safety.sample-hazard-vented",
        BOTH,
        only(("method.sample_hazard", "toxic"), ("room.outlets[0].ducted", False)),
    ),
    Kind(
        "safety.trapped-liquid",
        ALL,
        lambda c: [
            (
                "supply.line_sections[0]",
                {
                    "name": "yard to bench",
                    "pressure_rating": figure(c, 80, 120, "bar"),
                    "filled_at": "10 degC",
                },
            )
        ],
    ),
    Kind(
        "safety.locked-in-liquid",
        BOTH,
        lambda c: [
            (
                "instrument.closed_sections",
                [
                    {
                        "name": "loop",
                        "holds": "CO2",
                        "closed_at": "8 degC",
                        "closed_pressure": figure(c, 150, 250, "bar"),
                        "pressure_rating": "250 bar",
                    }
                ],
            )
        ],
    ),
    Kind(
        "safety.unattended-without-trips",
        BOTH,
        lambda c: [
            *late(c),
            (
                "instrument.trips",
                {
                    "high_pressure": "550 bar",
                    "low_pressure_stop": False,
                    "leak_sensor": True,
                    "co2_alarm_interlock": True,
                    "waste_level": True,
                },
            ),
        ],
    ),
    # Solvents and waste
    Kind("solvent.pair-not-miscible", BOTH, _wash_and_diluent, times=2),
    Kind("solvent.reservoir-too-small", ALL, one("solvents.bottles[0].fill", 70, 100, "mL")),
    Kind("solvent.expired", BOTH, day("solvents.bottles[0].expires"), times=2),
    Kind("solvent.grade-wrong", "ms-lab", pick("solvents.bottles[0].grade", "technical")),
    Kind(
        "solvent.peroxide-former",
        BOTH,
        lambda c: [
            (
                "solvents.bottles[1]",
                {
                    "line": "modifier-2",
                    "liquid": c.choice(("tetrahydrofuran", "1,4-dioxane")),
                    "fill": "900 mL",
                    "dead_volume": "60 mL",
                    "inhibited": False,
                },
            )
        ],
    ),
    Kind(
        "solvent.freezes-in-cold-place",
        BOTH,
        only(("sequence.diluent", "DMSO"), ("method.injection.diluent", "DMSO")),
    ),
    Kind("solvent.line-mismatch", ALL, only(("method.mobile_phase.modifier.line", "modifier-2"))),
    Kind(
        "solvent.line-mismatch",
        "lab batch",
        pick("solvents.bottles[0].liquid", "ethanol", "acetonitrile", "2-propanol"),
    ),
    Kind("waste.bottle-overflows", ALL, one("room.waste[0].level", 3.97, 3.99, "L", 3)),
    Kind(
        "waste.streams-incompatible",
        BOTH,
        lambda c: _vessel(c, "nitric acid", "perchloric acid", "hydrogen peroxide"),
    ),
)
