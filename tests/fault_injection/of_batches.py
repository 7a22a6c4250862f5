"""Faults of sequences and their lines."""

from __future__ import annotations

from random import Random

from tests.fault_injection.fault import Edit, Kind, figure
from tests.fault_injection.of_runs import one, only, pick
from tests.text_labs import REMOVED

BOTH = "lab batch"
ALL = "lab ms-lab batch"


def day(path: str):  # type: ignore[no-untyped-def]
    """Draw a day shortly before the sequence, which starts on 2026-11-24."""
    return lambda chance: [(path, f"2026-11-{chance.randint(1, 22):02d}")]


def _without_lines(*numbers: int):  # type: ignore[no-untyped-def]
    """Take lines out, the last one first."""
    return lambda chance: [(f"sequence.lines[{n}]", REMOVED) for n in sorted(numbers, reverse=True)]


def late(chance: Random) -> list[Edit]:
    return [
        ("sequence.begins", f"2026-11-24T{chance.randint(17, 19)}:30"),
        ("sequence.slot", REMOVED),
    ]


def _slot(chance: Random) -> list[Edit]:
    return [("sequence.slot.length", figure(chance, 1, 2.4, "h", 1))]


def _neat_flush(chance: Random) -> list[Edit]:
    """The flush at the end of the sound lab's sequence with the CO2 off, at a flow for CO2."""
    return [
        ("sequence.lines[18].co2", "off"),
        ("sequence.lines[18].flow", figure(chance, 3.0, 4.4, "mL/min", 1)),
        ("sequence.lines[18].liquid", chance.choice(("ethanol", "methanol"))),
    ]


def _full_of_alcohol(chance: Random) -> list[Edit]:
    """A slow neat flush, and a sample at the method's flow behind it."""
    sample = {"kind": "sample", "sample": "extract 4", "plate": "1", "well": "D4", "fill": "1 mL"}
    flow = figure(chance, 0.1, 0.2, "mL/min", 2)
    flush = {"kind": "flush", "liquid": "ethanol", "co2": "off", "flow": flow, "duration": "30 min"}
    limits = {"high": "395 bar", "low": "155 bar"}
    return [
        ("method.flow", "2.2 mL/min"),
        ("method.pressure_limits", limits),
        ("sequence.lines[15]", flush),
        ("sequence.lines[16]", sample),
    ]


BATCHES: tuple[Kind, ...] = (
    # Lines with settings of their own
    Kind("pressure.column-rating-exceeded", "lab", _neat_flush, times=4),
    Kind("pressure.column-rating-exceeded", "lab", _full_of_alcohol, times=3),
    Kind(
        "flow.line-beyond-pumps",
        "lab",
        lambda c: [
            ("instrument.modifier_pump.highest_share", "50 % v/v"),
            ("sequence.lines[18].co2", "on"),
            ("sequence.lines[18].modifier_share", figure(c, 60, 95, "% v/v")),
        ],
        times=2,
    ),
    Kind(
        "makeup.total-liquid-too-high",
        "ms-lab",
        lambda c: [
            ("sequence.lines[18].co2", "off"),
            ("sequence.lines[18].flow", figure(c, 0.9, 1.4, "mL/min", 2)),
        ],
        times=2,
    ),
    # Column, injection
    Kind(
        "column.not-the-one-fitted",
        ALL,
        only(("instrument.fitted_columns", {"1": "cyano-5um", "2": "empty"})),
    ),
    Kind(
        "column.used-beyond-logged-injections",
        ALL,
        lambda c: [
            (
                "column.injections",
                {"count": c.randint(2980, 2999), "limit": 3000, "last_test_passed": True},
            )
        ],
    ),
    Kind(
        "column.carries-other-additive",
        BOTH,
        lambda c: [
            (
                "column.last_mobile_phase",
                {
                    "liquid": "methanol",
                    "additives": [
                        {"additive": c.choice(("diethylamine", "TFA")), "level": "0.2 % v/v"}
                    ],
                },
            ),
            ("sequence.equilibration", "1 min"),
        ],
    ),
    Kind("injection.vial-runs-dry", BOTH, one("sequence.lines[2].fill", 90, 110, "uL"), times=2),
    Kind(
        "injection.position-invalid",
        BOTH,
        lambda c: [("sequence.lines[12].well", c.choice(("G1", "A10", "H12", "Z3")))],
        times=2,
    ),
    Kind(
        "injection.position-collision",
        BOTH,
        lambda c: [("sequence.lines[14].well", "C1"), ("sequence.lines[14].plate", 1)],
    ),
    Kind(
        "injection.needle-reaches-bottom",
        ALL,
        one("instrument.autosampler.needle_depth", 28.5, 32, "mm", 1),
    ),
    Kind(
        "injection.wash-missing-or-unfit",
        "lab ms-lab",
        only(("solvents.bottles[3].liquid", "methanol")),
    ),
    Kind(
        "injection.sample-not-stable-to-end",
        BOTH,
        lambda c: [("sequence.prepared", f"2026-11-{c.randint(14, 21)}T08:00")],
        times=2,
    ),
    # Sequence
    Kind("sequence.no-opening-blank", ALL, _without_lines(0, 1)),
    Kind("sequence.no-carryover-blank", "batch", _without_lines(9)),
    Kind("sequence.no-sst", BOTH, _without_lines(2)),
    Kind(
        "sequence.sst-too-few-or-without-criteria",
        ALL,
        lambda c: [("sequence.lines[2].count", c.randint(1, 4))],
    ),
    Kind(
        "sequence.sst-too-few-or-without-criteria",
        BOTH,
        only(("method.suitability", {"replicates": 5, "resolution": 1.5})),
    ),
    Kind("sequence.calibration-too-few-levels", "batch", _without_lines(4, 5, 6, 7)),
    Kind(
        "sequence.calibration-range-misses",
        BOTH,
        lambda c: [
            *((f"sequence.lines[{n}].concentration", f"{n - 2} mg/mL") for n in range(3, 9)),
            ("sequence.lines[13].expected", figure(c, 20, 90, "mg/mL")),
        ],
    ),
    Kind("sequence.not-bracketed", "batch", _without_lines(24, 25, 26, 27)),
    Kind("sequence.qc-too-few", "batch", _without_lines(19, 24, 25, 11, 10)),
    Kind("sequence.qc-unevenly-spread", "lab", _without_lines(15, 16)),
    Kind(
        "sequence.no-shutdown",
        "lab",
        lambda c: [*late(c), ("sequence.lines[19]", REMOVED), ("sequence.after", REMOVED)],
    ),
    Kind("sequence.overruns-slot", ALL, _slot),
    Kind(
        "sequence.run-time-shorter-than-method",
        "lab batch",
        lambda c: [("sequence.lines[13].run_length", figure(c, 1, 1.6, "min", 1))],
    ),
    Kind(
        "sequence.data-file-duplicate", ALL, pick("sequence.data_file", "{date}", "run", "{sample}")
    ),
    Kind(
        "sequence.sample-id-duplicate",
        BOTH,
        only(
            ("sequence.lines[13].sample", "extract 3"), ("sequence.lines[14].sample", "extract 3")
        ),
    ),
    Kind("sequence.standard-expired-during-run", BOTH, day("sequence.lines[3].expires")),
    Kind(
        "sequence.start-stop-order",
        "ms-lab",
        only(
            (
                "sequence.lines[0]",
                {"kind": "equilibration", "duration": "10 min", "co2": "on", "makeup": "off"},
            )
        ),
    ),
    Kind("makeup.left-running-or-off", "ms-lab", only(("sequence.lines[19].makeup", "on"))),
)
