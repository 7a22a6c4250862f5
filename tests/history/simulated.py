"""Simulated readings: sound months with the scatter of a lab, and months with one planted change.

The scatter is the author's estimate of an ordinary lab (common practice, no source): pressures
1.5 bar, the regulator 1 bar, the oven 0.3 K, retention 0.5 %, plates 4 %, the scale 20 g, and a
constant error of the predicted CO2 of up to 4 %; one reading in a hundred is misread.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from methodlint.rehearsal.history.predicted import FACTORS, Predicted
from methodlint.rehearsal.history.readings import LogReading, PeakRead

BEGIN = datetime.datetime(2026, 1, 5, 9, 0)
_BAR = 1e5


def predicted(outlet: float = 130.0, drop: float = 65.0, tubes: float = 4.0) -> Predicted:
    """A prediction whose pressure is straight in the resistance [bar]."""
    start = (outlet + tubes + drop * FACTORS) * _BAR
    return Predicted(
        start=start,
        highest=(outlet + tubes + 1.6 * drop * FACTORS) * _BAR,
        start_band=(15 * _BAR, 18 * _BAR),
        highest_band=(25 * _BAR, 30 * _BAR),
        outlet=outlet * _BAR,
        share=0.05,
        highest_share=0.4,
        oven=308.15,
        hold_up_time=24.0,
        co2_per_cycle=0.014,
        overhead_rate=2.4e-5,
        flow_resistance=1000.0,
        particle_size=3e-6,
        drop=drop * _BAR,
        run=None,  # type: ignore[arg-type]
    )


@dataclass
class Planted:
    """What is planted from a run on: a factor or a step of each quantity."""

    at: int = 10**9
    resistance: Callable[[int], float] = lambda after: 1.0
    plates: Callable[[int], float] = lambda after: 1.0
    retention: Callable[[int], float] = lambda after: 1.0
    leak: float = 0.0
    columns: tuple[str, ...] = ("column-1",)


@dataclass
class Simulated:
    """Readings, and the number of the run at which something was planted."""

    readings: list[LogReading] = field(default_factory=list)
    planted: Planted = field(default_factory=Planted)


def simulated(seed: int, runs: int = 120, planted: Planted | None = None) -> Simulated:
    """Months of one bench with two columns, two runs a working day, weighed once a day."""
    rng = np.random.default_rng(seed)
    planted = planted or Planted()
    found = Simulated(planted=planted)
    own = predicted()
    levels = {name: rng.uniform(0.8, 1.3) for name in ("column-1", "column-2")}
    bias = rng.uniform(-0.04, 0.04)
    weight, cylinder_new = 84.0, False
    counts: dict[str, int] = {}
    for number in range(runs):
        day = number // 2
        moment = BEGIN + datetime.timedelta(days=day + 2 * (day // 5), hours=4 * (number % 2))
        column = "column-1" if (day // 5) % 2 == 0 else "column-2"
        counts[column] = counts.get(column, 0) + 1
        after = number - planted.at
        hit = after >= 0 and column in planted.columns
        resistance = levels[column] * (planted.resistance(after) if hit else 1.0)
        outlet = 130.0 + rng.normal(0.0, 1.0)
        pressure = outlet + 4.0 + 65.0 * resistance + rng.normal(0.0, 1.5)
        if rng.random() < 0.01:
            pressure += rng.choice([-1.0, 1.0]) * rng.uniform(20.0, 40.0)
        retention = (
            150.0 * np.exp(rng.normal(0.0, 0.005)) * (planted.retention(after) if hit else 1.0)
        )
        plates = 9000.0 * np.exp(rng.normal(0.0, 0.04)) * (planted.plates(after) if hit else 1.0)
        injections = int(rng.integers(8, 30))
        co2 = (own.co2_per_cycle + own.overhead_rate * 42.0) * injections
        before = weight
        weight -= co2 * (1.0 + bias) + (planted.leak if after >= 0 else 0.0)
        found.readings.append(
            LogReading(
                entry=number,
                moment=moment,
                bench="bench-a",
                method="assay",
                column=column,
                supply="yard",
                injections=injections,
                start=pressure * _BAR,
                outlet=outlet * _BAR,
                oven=308.15 + rng.normal(0.0, 0.3),
                peaks=(PeakRead("first peak", retention, plates, 1.1 + rng.normal(0.0, 0.02)),),
                weight_before=before + rng.normal(0.0, 0.02) if number % 2 == 0 else None,
                weight_after=weight + rng.normal(0.0, 0.02) if number % 2 else None,
                changed=cylinder_new,
                predicted=own,
                co2=co2,
            )
        )
        cylinder_new = weight < 60.0
        if cylinder_new:
            weight = 84.0
    return found
