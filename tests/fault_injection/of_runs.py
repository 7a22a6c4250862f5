"""Faults of pressures, phases, temperatures, flows and gradients."""

from __future__ import annotations

from random import Random

from tests.fault_injection.fault import Edit, Kind, figure
from tests.text_labs import REMOVED

EVERY_METHOD = "lab dye flame flavonoid waxes sulfonamides triazole"
GRADIENTS = "lab flavonoid waxes sulfonamides"


def one(path: str, low: float, high: float, unit: str, digits: int = 0):  # type: ignore[no-untyped-def]
    """Draw one value for one path."""
    return lambda chance: [(path, figure(chance, low, high, unit, digits))]


def only(*edits: Edit):  # type: ignore[no-untyped-def]
    """Make fixed changes."""
    return lambda chance: list(edits)


def pick(path: str, *values: object):  # type: ignore[no-untyped-def]
    """Draw one of some values for one path."""
    return lambda chance: [(path, chance.choice(values))]


def lean_ends(chance: Random) -> list[Edit]:
    share = figure(chance, 0.5, 1.5, "% v/v", 1)
    return [
        ("method.programme[0].modifier_share", share),
        ("method.programme[3].modifier_share", share),
    ]


def _swapped_times(chance: Random) -> list[Edit]:
    row = chance.choice((2, 3))
    return [(f"method.programme[{row}].time", figure(chance, 0.5, 3, "min", 1))]


def _small_bore(chance: Random) -> list[Edit]:
    bore = figure(chance, 0.07, 0.09, "mm", 3)
    return [("instrument.train[7].bore", bore)]


RUNS: tuple[Kind, ...] = (
    # Pressure
    Kind(
        "pressure.column-rating-exceeded",
        EVERY_METHOD,
        one("column.pressure_rating", 100, 145, "bar"),
    ),
    Kind("pressure.column-drop-exceeded", EVERY_METHOD, one("column.drop_rating", 5, 20, "bar")),
    Kind(
        "pressure.component-rating-exceeded",
        EVERY_METHOD,
        one("instrument.train[2].pressure_rating", 90, 140, "bar"),
    ),
    Kind(
        "pressure.cell-rating-exceeded",
        EVERY_METHOD,
        one("instrument.train[6].pressure_rating", 70, 105, "bar"),
    ),
    Kind(
        "pressure.bpr-out-of-range",
        EVERY_METHOD,
        one("instrument.regulator.lowest", 170, 300, "bar"),
    ),
    Kind("pressure.bpr-out-of-range", "lab triazole", one("method.outlet_pressure", 40, 70, "bar")),
    Kind(
        "pressure.margin-to-boundary-thin",
        "lab",
        lambda c: [
            ("method.outlet_pressure", figure(c, 90.5, 92, "bar", 1)),
            ("method.pressure_limits.low", "115 bar"),
        ],
        times=2,
    ),
    Kind("pressure.outlet-far-above-set", EVERY_METHOD, _small_bore),
    Kind("pressure.cutoff-unsound", EVERY_METHOD, only(("method.pressure_limits.high", REMOVED))),
    Kind(
        "pressure.cutoff-unsound",
        "lab waxes triazole",
        one("method.pressure_limits.high", 420, 590, "bar"),
    ),
    Kind("pressure.low-limit-missing", EVERY_METHOD, only(("method.pressure_limits.low", REMOVED))),
    Kind(
        "pressure.low-limit-missing",
        "lab flavonoid waxes",
        one("method.pressure_limits.low", 30, 100, "bar"),
    ),
    Kind(
        "pressure.pump-envelope-exceeded",
        EVERY_METHOD,
        only(
            (
                "instrument.co2_pump.envelope",
                [
                    {"flow": "0.2 mL/min", "pressure": "110 bar"},
                    {"flow": "5 mL/min", "pressure": "90 bar"},
                ],
            )
        ),
    ),
    Kind("pressure.shock-at-start-or-valve", "flame triazole", one("method.flow_ramp", 1, 10, "s")),
    # Phases
    Kind(
        "phase.two-phase-at-outlet",
        "lab flavonoid triazole",
        lambda c: [
            ("method.oven_temperature", figure(c, 65, 75, "degC")),
            ("method.outlet_pressure", figure(c, 86, 92, "bar")),
        ],
    ),
    Kind(
        "phase.near-critical-compressible",
        "waxes",
        lambda c: [
            ("method.oven_temperature", figure(c, 55, 59, "degC")),
            ("method.outlet_pressure", figure(c, 110, 114, "bar")),
        ],
    ),
    Kind(
        "phase.no-model-for-modifier",
        "lab dye triazole",
        pick("method.mobile_phase.modifier.liquid", "ethyl acetate", "acetone", "tetrahydrofuran"),
    ),
    Kind(
        "phase.water-splits-out",
        "lab dye waxes",
        lambda c: [
            (
                "method.mobile_phase.modifier",
                {
                    "line": "modifier-1",
                    "liquids": [
                        {"liquid": "methanol", "share": "80 % v/v"},
                        {"liquid": "water", "share": "20 % v/v"},
                    ],
                },
            )
        ],
    ),
    Kind(
        "phase.density-drop-along-column", "waxes", one("column.particle_size", 1.2, 1.5, "um", 2)
    ),
    # Temperature
    Kind(
        "temperature.oven-out-of-range",
        EVERY_METHOD,
        one("instrument.oven.highest", 10, 20, "degC"),
    ),
    Kind(
        "temperature.oven-out-of-range",
        "lab waxes",
        one("method.oven_temperature", 95, 120, "degC"),
    ),
    Kind(
        "temperature.subcritical",
        "lab flavonoid waxes sulfonamides triazole",
        one("method.oven_temperature", 18, 28, "degC"),
    ),
    Kind(
        "temperature.preheater-mismatch",
        "lab waxes",
        lambda c: [
            ("method.flow", "2.2 mL/min"),
            ("instrument.oven.preheater", False),
            ("instrument.oven.built_in_exchanger", False),
        ],
    ),
    Kind("temperature.drops-along-column", "lab", one("method.outlet_pressure", 82, 85, "bar")),
    # Flow
    Kind(
        "flow.co2-head-too-warm",
        EVERY_METHOD,
        one("instrument.co2_pump.head_temperature", 15, 22, "degC"),
    ),
    Kind(
        "flow.minor-pump-too-slow",
        EVERY_METHOD,
        one("instrument.modifier_pump.lowest_accurate_flow", 0.6, 0.9, "mL/min", 2),
    ),
    Kind(
        "flow.pump-range",
        EVERY_METHOD,
        one("instrument.co2_pump.highest_flow", 0.2, 0.5, "mL/min", 2),
    ),
    # Gradient
    Kind("gradient.times-not-increasing", GRADIENTS + " dye", _swapped_times),
    Kind(
        "gradient.fraction-out-of-range",
        GRADIENTS + " dye",
        one("method.programme[1].modifier_share", 101, 160, "% v/v"),
    ),
    Kind(
        "gradient.fraction-out-of-range",
        "lab dye flavonoid sulfonamides triazole",
        one("instrument.modifier_pump.highest_share", 8, 16, "% v/v"),
    ),
    Kind("gradient.ends-after-run", "lab", one("method.run_length", 4.5, 5.5, "min", 1)),
    Kind("gradient.ends-after-run", "flavonoid", one("method.run_length", 8.2, 9, "min", 1)),
    Kind(
        "gradient.no-return-to-start",
        GRADIENTS,
        only(("method.programme[3]", REMOVED), ("method.settling_time", REMOVED)),
    ),
    Kind(
        "gradient.reequilibration-short",
        "lab flavonoid",
        one("method.settling_time", 0.1, 0.4, "min", 2),
        times=2,
    ),
    Kind("gradient.start-too-lean", "lab flavonoid sulfonamides", lean_ends),
    Kind(
        "gradient.too-fast-for-mixer",
        GRADIENTS,
        one("method.programme[1].time", 0.05, 0.2, "min", 2),
    ),
)
