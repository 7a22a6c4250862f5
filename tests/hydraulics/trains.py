"""Flow trains of an invented laboratory."""

from __future__ import annotations

from methodlint.hydraulics.train import Segment, Train

COLUMN = Segment(
    "column", "column", 0.100, 3.0e-3, 3.0e-6, flow_resistance=1000.0, total_porosity=0.65
)


def bench_a(column: Segment = COLUMN) -> Train:
    return Train(
        (
            Segment("mixer", "mixer", swept_volume=300e-9),
            Segment("tube to sampler", "tube", 0.30, 0.25e-3),
            Segment("sampler", "injector", swept_volume=20e-9),
            Segment("tube to column", "preheater", 0.30, 0.15e-3),
            column,
            Segment("tube to cell", "tube", 0.30, 0.15e-3),
            Segment("cell", "cell", swept_volume=11e-9),
            Segment("regulator", "regulator"),
        )
    )


def one_tube(length: float, bore: float) -> Train:
    return Train((Segment("tube", "tube", length, bore),))
