"""SI figures in the units that findings print: the definitions of the units, by arithmetic."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from methodlint.judging.finding import Measure
from methodlint.judging.shared import figures


@pytest.mark.parametrize(
    ("make", "si", "value", "unit"),
    [
        (figures.bar, 1.5e7, 150.0, "bar"),
        # 0 degC is 273.15 K by definition (SI brochure, 9th edition, 2.3.1).
        (figures.celsius, 313.15, 40.0, "degC"),
        (figures.celsius, 0.0, -273.15, "degC"),
        (figures.minutes, 90.0, 1.5, "min"),
        # 1.2 mL/min are 1.2e-6 m3 in 60 s.
        (figures.ml_per_min, 1.2e-6 / 60.0, 1.2, "mL/min"),
        (figures.percent, 0.035, 3.5, "%"),
        (figures.ppm, 0.005, 5000.0, "ppm"),
        (figures.litres, 0.05, 50.0, "L"),
        (figures.millilitres, 2e-6, 2.0, "mL"),
        (figures.microlitres, 5e-9, 5.0, "uL"),
        (figures.kilograms, 12.5, 12.5, "kg"),
        (figures.grams, 0.25, 250.0, "g"),
    ],
)  # fmt: skip
def test_units(make: Callable[[float], Measure], si: float, value: float, unit: str) -> None:
    made = make(si)
    assert made.value == pytest.approx(value, rel=1e-12)
    assert made.unit == unit
