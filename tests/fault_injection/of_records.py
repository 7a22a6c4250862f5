"""Faults of records and cards: dates, tests, qualifications, criteria, materials, makeup."""

from __future__ import annotations

from random import Random

from tests.fault_injection.fault import Edit, Kind, figure
from tests.fault_injection.of_batches import ALL, BOTH
from tests.fault_injection.of_runs import one, only, pick

SEQUENCES = "lab ms-lab batch"


def _long_ago(path: str, first: int = 2018, last: int = 2024):  # type: ignore[no-untyped-def]
    """Draw a day years before the sequence."""
    return lambda c: [(path, f"{c.randint(first, last)}-{c.randint(1, 12):02d}-11")]


def _modifier(*additive: tuple[str, str]):  # type: ignore[no-untyped-def]
    name, level = additive[0]
    return ("method.mobile_phase.modifier.additives", [{"additive": name, "level": level}])


def _amine(chance: Random) -> Edit:
    name = chance.choice(("diethylamine", "isopropylamine", "butylamine"))
    return _modifier((name, "0.2 % v/v"))


def _controls(chance: Random) -> list[Edit]:
    """Purpose and places of the controls: the lower one at half of the range."""
    return [
        ("sequence.purpose", "bioanalysis"),
        ("sequence.lines[10].level", chance.randint(15, 30)),
    ]


def _late_peak(chance: Random) -> list[Edit]:
    return [
        ("method.expected_peaks[1].retention_time", figure(chance, 13.5, 14.5, "min", 1)),
        ("method.run_length", "16 min"),
    ]


RECORDS: tuple[Kind, ...] = (
    # What stops pumps, and the makeup
    Kind(
        "pressure.pump-without-trip",
        "sulfonamides",
        only(("instrument.trips.stops", ["CO2 pump", "modifier pump"])),
    ),
    Kind(
        "makeup.polarity-mismatch",
        "sulfonamides",
        lambda c: [
            (
                "method.makeup",
                {
                    "line": "makeup",
                    "liquid": c.choice(("n-hexane", "n-heptane", "cyclohexane")),
                    "flow": "0.2 mL/min",
                    "tee": "after the regulator",
                },
            )
        ],
        times=2,
    ),
    # Days on cards
    Kind(
        "column.used-beyond-logged-injections",
        ALL,
        only(("column.injections", {"count": 40, "limit": 3000, "last_test_passed": False})),
    ),
    Kind("safety.no-co2-monitor", ALL, _long_ago("room.monitors[0].tested")),
    Kind(
        "safety.no-leak-test",
        ALL,
        lambda c: [
            ("instrument.opened", f"2026-11-{c.randint(10, 23)}"),
            ("instrument.leak_test", {"on": f"2026-{c.randint(3, 10):02d}-02", "passed": True}),
        ],
    ),
    Kind(
        "safety.no-leak-test",
        ALL,
        only(("instrument.leak_test", {"on": "2026-11-23", "passed": False})),
    ),
    Kind(
        "sequence.qualification-due",
        "batch",
        lambda c: [
            (
                "instrument.qualifications",
                [
                    {
                        "of": c.choice(("pumps", "oven", "wavelength")),
                        "due": f"2026-11-{c.randint(1, 23):02d}",
                    }
                ],
            )
        ],
        times=3,
    ),
    Kind(
        "sequence.pinned-edition-differs",
        "lab ms-lab",
        lambda c: [
            ("method.edition", 4),
            ("sequence.pins", [{"document": "method", "edition": c.randint(1, 3)}]),
        ],
    ),
    Kind(
        "document.value-implausible",
        SEQUENCES,
        pick("solvents.bottles[1].expires", "2091-10-31", "2086-01-31"),
    ),
    Kind(
        "document.value-implausible",
        "lab triazole flame",
        pick("method.suitability.tailing", 6, 9, 12),
    ),
    # Supply, room, bottles, waste
    Kind(
        "supply.overfilled",
        BOTH,
        lambda c: [
            ("supply.test_pressure", "190 bar"),
            ("supply.full_mass", figure(c, 36, 38, "kg", 1)),
        ],
    ),
    Kind("supply.helium-padded", ALL, only(("supply.padded", True))),
    Kind("supply.grade-too-low", ALL, one("supply.moisture", 30, 200, "ppm")),
    Kind(
        "supply.grade-too-low",
        BOTH,
        lambda c: [("supply.purifier_interval", "365 d"), *_long_ago("supply.purifier_changed")(c)],
    ),
    Kind("safety.exhaust-not-ducted", ALL, only(("room.outlets[0].draught", "fan"))),
    Kind(
        "safety.exhaust-not-ducted",
        BOTH,
        lambda c: [
            ("room.outlets[0].draught", "fan"),
            *_long_ago("room.outlets[0].flow_verified")(c),
        ],
    ),
    Kind("solvent.reservoir-too-small", ALL, only(("solvents.bottles[0].vented", False))),
    Kind("solvent.reservoir-too-small", BOTH, only(("solvents.bottles[0].degassed", False))),
    Kind(
        "solvent.grade-wrong",
        ALL,
        lambda c: [
            ("solvents.bottles[0].water", figure(c, 0.2, 0.9, "% v/v", 2)),
            ("solvents.bottles[0].water_limit", "0.1 % v/v"),
        ],
    ),
    Kind(
        "waste.streams-incompatible",
        "lab",
        lambda c: [
            ("method.mobile_phase.modifier.liquid", c.choice(("dichloromethane", "chloroform"))),
            ("solvents.bottles[0].liquid", "dichloromethane"),
        ],
    ),
    Kind(
        "waste.vent-gas-burns",
        "lab",
        lambda c: [
            ("method.mobile_phase.modifier.liquid", "acetonitrile"),
            ("solvents.bottles[0].liquid", "acetonitrile"),
            ("room.highest_temperature", figure(c, 22, 30, "degC")),
        ],
    ),
    # Materials and light
    Kind(
        "solvent.attacks-wetted-parts",
        "dye flame triazole lab",
        lambda c: [
            _amine(c),
            ("instrument.wetted_materials.pump seals", c.choice(("FKM", "polyimide"))),
        ],
    ),
    Kind(
        "solvent.attacks-wetted-parts",
        "dye flame",
        pick("instrument.wetted_materials.pump seals", "NBR", "VMQ"),
    ),
    Kind(
        "detector.wavelength-below-cutoff",
        "dye lab",
        lambda c: [
            _modifier(("acetic acid", figure(c, 0.8, 1.5, "% v/v", 1))),
            ("method.detectors[0].wavelength", figure(c, 211, 222, "nm")),
        ],
    ),
    # Columns, gradients, criteria
    Kind(
        "column.resolution-below-criterion",
        "triazole flame lab",
        lambda c: [("method.suitability.resolution", c.randint(28, 30))],
    ),
    Kind("gradient.peak-after-return", "flavonoid", _late_peak),
    Kind(
        "gradient.starts-above-ramp",
        "lab flavonoid waxes",
        lambda c: [
            ("method.programme[0].modifier_share", f"{c.randint(55, 60)} % v/v"),
            ("method.programme[3].modifier_share", "60 % v/v"),
        ],
    ),
    Kind("sequence.controls-unfit", "lab", _controls, times=2),
    Kind(
        "sequence.sst-too-few-or-without-criteria",
        "batch",
        only(("method.suitability.content_margin", "2 %")),
    ),
    Kind(
        "sequence.sst-too-few-or-without-criteria",
        BOTH,
        lambda c: [("method.suitability.reporting_threshold", figure(c, 0.03, 0.1, "%", 2))],
    ),
    Kind(
        "sequence.method-switch-no-equilibration",
        "lab",
        only(
            ("sequence.equilibration", "0 min"),
            (
                "sequence.lines[1]",
                {"kind": "suitability", "sample": "SST 0", "plate": 1, "well": "A3"},
            ),
            (
                "sequence.lines[0]",
                {"kind": "suitability", "sample": "SST 1", "plate": 1, "well": "A3"},
            ),
        ),
    ),
)
