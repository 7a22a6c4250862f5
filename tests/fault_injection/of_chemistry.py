"""Faults of liquids, columns, detectors, injections and makeup."""

from __future__ import annotations

from random import Random

from tests.fault_injection.fault import Edit, Kind, figure
from tests.fault_injection.of_runs import EVERY_METHOD, lean_ends, one, only, pick
from tests.text_labs import REMOVED

UV = "lab dye flame triazole"


def _additive(name: str, low: float, high: float, unit: str):  # type: ignore[no-untyped-def]
    return lambda chance: [
        (
            "method.mobile_phase.modifier.additives",
            [{"additive": name, "level": figure(chance, low, high, unit, 1)}],
        )
    ]


def _coated(chance: Random) -> list[Edit]:
    forbidden = ("dichloromethane", "chloroform", "tetrahydrofuran", "ethyl acetate", "acetone")
    return [
        ("column.phase", "coated polysaccharide"),
        ("method.injection.diluent", chance.choice(forbidden)),
    ]


def _makeup_that_parts(chance: Random) -> list[Edit]:
    alkane = chance.choice(("n-heptane", "n-hexane", "cyclohexane"))
    return [
        ("method.makeup.liquid", alkane),
        ("method.makeup.additives", REMOVED),
        ("method.makeup.tee", "after the regulator"),
    ]


CHEMISTRY: tuple[Kind, ...] = (
    # Liquids
    Kind(
        "solvent.salt-not-volatile",
        "dye triazole flame",
        _additive("potassium dihydrogen phosphate", 2, 10, "mM"),
    ),
    Kind("solvent.salt-not-volatile", "sulfonamides", _additive("sodium acetate", 2, 10, "mM")),
    Kind(
        "solvent.salt-not-soluble",
        "dye triazole",
        lambda c: [
            (
                "method.mobile_phase.modifier",
                {
                    "line": "modifier-1",
                    "liquid": "acetonitrile",
                    "additives": [
                        {"additive": "ammonium acetate", "level": figure(c, 5, 20, "mM")}
                    ],
                },
            )
        ],
    ),
    Kind(
        "solvent.salt-precipitates-in-lean-mobile-phase",
        "waxes",
        _additive("ammonium formate", 15, 30, "mM"),
    ),
    Kind(
        "solvent.additive-reacts",
        "flavonoid",
        lambda c: [
            (
                "method.mobile_phase.modifier.additives",
                [
                    {"additive": "formic acid", "level": "0.1 % v/v"},
                    {
                        "additive": c.choice(("diethylamine", "isopropylamine", "triethylamine")),
                        "level": "0.1 % v/v",
                    },
                ],
            )
        ],
    ),
    Kind(
        "solvent.attacks-wetted-parts",
        "lab dye",
        lambda c: [
            ("instrument.wetted_materials.valve rotor", "PEEK"),
            ("method.injection.diluent", c.choice(("tetrahydrofuran", "dichloromethane"))),
        ],
    ),
    # Column
    Kind("column.solvent-forbidden", "dye flame flavonoid triazole", _coated, times=2),
    Kind(
        "column.additive-or-ph-forbidden",
        "flame triazole",
        lambda c: [
            ("column.phase", "coated polysaccharide"),
            *_additive("diethylamine", 1, 2, "% v/v")(c),
        ],
    ),
    Kind(
        "column.temperature-exceeded", EVERY_METHOD, one("column.temperature_limit", 12, 20, "degC")
    ),
    Kind("column.does-not-fit-oven", EVERY_METHOD, one("instrument.oven.length", 60, 99, "mm")),
    Kind(
        "column.dimensions-implausible",
        EVERY_METHOD,
        pick("column.particle_size", "3 mm", "5 mm", "2.6 m", "5 nm"),
    ),
    Kind(
        "column.dimensions-implausible",
        "lab flame",
        pick("column.inner_diameter", "3 um", "4.6 m", "0.3 mm"),
    ),
    # Detectors
    Kind("detector.rate-too-slow", UV, one("method.detectors[0].rate", 0.5, 1.5, "Hz", 1)),
    Kind(
        "detector.filter-too-slow",
        UV + " flavonoid waxes",
        one("method.detectors[0].filter", 6, 9, "s", 1),
    ),
    Kind(
        "detector.wavelength-below-cutoff",
        "lab dye flavonoid triazole",
        one("method.detectors[0].wavelength", 191, 196, "nm"),
    ),
    Kind(
        "detector.reference-wavelength-wrong",
        "flavonoid",
        one("method.detectors[0].reference_wavelength", 284, 294, "nm"),
    ),
    Kind(
        "detector.cell-volume-too-large",
        "triazole lab",
        lambda c: [("instrument.train[6].volume", figure(c, 150, 300, "uL"))],
    ),
    Kind(
        "detector.ms-cycle-too-slow",
        "sulfonamides",
        lambda c: [
            (f"method.detectors[0].transitions[{n}].dwell", figure(c, 600, 900, "ms"))
            for n in range(3)
        ],
    ),
    Kind(
        "detector.window-misses-peak",
        "sulfonamides",
        one("method.detectors[0].transitions[0].begins", 2.4, 3, "min", 1),
        times=2,
    ),
    Kind(
        "detector.window-misses-peak",
        "sulfonamides",
        one("method.detectors[0].transitions[2].ends", 3, 3.5, "min", 1),
        times=2,
    ),
    Kind(
        "detector.mass-outside-scan",
        "sulfonamides",
        pick("method.expected_peaks[1].polarity", "negative"),
    ),
    Kind(
        "detector.stops-before-end",
        "lab",
        one("method.detectors[0].ends", 4, 5.4, "min", 1),
        times=2,
    ),
    Kind(
        "detector.stops-before-end",
        "flavonoid",
        one("method.detectors[0].ends", 4, 7, "min", 1),
        times=2,
    ),
    # Injection
    Kind(
        "injection.outside-loop-span", EVERY_METHOD, one("method.injection.volume", 6, 9, "uL", 1)
    ),
    Kind(
        "injection.diluent-too-strong",
        "flavonoid sulfonamides",
        lambda c: [
            (
                "method.injection",
                {
                    "volume": figure(c, 4.2, 5, "uL", 1),
                    "mode": "part-filled loop",
                    "diluent": c.choice(("methanol", "DMSO")),
                    "stream": "mixed",
                },
            )
        ],
    ),
    Kind(
        "injection.overloads-column-volume",
        "lab triazole",
        lambda c: [
            ("method.injection.volume", figure(c, 60, 90, "uL")),
            ("instrument.autosampler.loop", "200 uL"),
            ("instrument.autosampler.highest_volume", "100 uL"),
        ],
    ),
    Kind(
        "injection.diluent-splits",
        "waxes",
        only(
            (
                "method.injection.diluent",
                {
                    "liquids": [
                        {"liquid": "water", "share": "50 % v/v"},
                        {"liquid": "methanol", "share": "50 % v/v"},
                    ]
                },
            )
        ),
    ),
    # Makeup and ion source
    Kind(
        "makeup.missing-at-low-modifier",
        "sulfonamides",
        lambda c: [*lean_ends(c), ("method.makeup", REMOVED)],
    ),
    Kind(
        "makeup.total-liquid-too-high",
        "sulfonamides",
        one("method.makeup.flow", 0.7, 1.5, "mL/min", 2),
        times=2,
    ),
    Kind("makeup.not-miscible", "sulfonamides", _makeup_that_parts, times=2),
    Kind(
        "makeup.salt-not-soluble",
        "sulfonamides",
        lambda c: [
            ("method.makeup.liquid", "acetonitrile"),
            (
                "method.makeup.additives",
                [{"additive": "ammonium acetate", "level": figure(c, 5, 20, "mM")}],
            ),
        ],
    ),
    Kind(
        "makeup.pump-cannot-reach-tee",
        "sulfonamides",
        one("instrument.makeup_pump.pressure_rating", 90, 140, "bar"),
        times=2,
    ),
    Kind("makeup.source-gas-unsafe", "sulfonamides", only(("instrument.ms.gas", "air"))),
    Kind(
        "makeup.polarity-mismatch",
        "sulfonamides",
        lambda c: [
            ("method.detectors[0].polarity", "negative"),
            *((f"method.expected_peaks[{n}].polarity", "negative") for n in range(3)),
            (
                "method.makeup.additives",
                [{"additive": "trifluoroacetic acid", "level": "0.1 % v/v"}],
            ),
        ],
    ),
    Kind("makeup.deposits-at-bpr", "dye", _additive("ammonium acetate", 40, 60, "mM")),
    # Regulator and vent
    Kind(
        "waste.no-gas-separation",
        EVERY_METHOD,
        only(("instrument.regulator.gas_separation", "closed bottle")),
    ),
    Kind(
        "waste.bpr-freezes",
        "lab waxes sulfonamides",
        lambda c: [
            ("instrument.regulator.heated", False),
            ("instrument.regulator.heater", REMOVED),
        ],
    ),
    Kind(
        "waste.vent-line-back-pressure",
        EVERY_METHOD,
        one("instrument.vent_line.bore", 0.5, 0.9, "mm", 2),
    ),
)
