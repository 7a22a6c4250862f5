"""Makes a lab folder of many methods that share cards, for the benchmarks.

Every method is about 1 kB, valid, and differs from its neighbours in composition, flow, outlet
pressure and run length, so that nothing but the cards can be shared between two of them.
"""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Literal

EXAMPLES = Path(__file__).resolve().parents[2] / "example_methods"
_CARDS = ("lab.yaml", "columns", "instruments", "solvents", "supplies", "rooms")

_COLUMNS = ("amylose-3um", "cellulose-5um", "diol-3um", "silica-3um")

_HIGH_LIMITS = {"cellulose-5um": 290}
"""Of columns that bear less than the UV cell [bar]."""

_METHOD = """\
kind: method
title: Screening condition {number:05d} of an invented series of neutral alcohols
edition: 1
status: approved
purpose: research
column: {column}
runs_on: [bench-a]
oven_temperature: {oven} degC
outlet_pressure: {outlet} bar
flow: {flow:.2f} mL/min
mobile_phase:
  modifier: {{liquid: methanol, line: modifier-1}}
{composition}run_length: {length:.1f} min
settling_time: {settling:.1f} min
injection: {{volume: 2 uL, mode: part-filled loop, diluent: ethanol, stream: mixed}}
detectors:
  - {{type: UV, cell: UV cell, wavelength: 220 nm, rate: 20 Hz, filter: 0.05 s}}
pressure_limits: {{high: {high_limit} bar, low: {low_limit} bar}}
expected_peaks:
  - {{name: first isomer, retention_time: {first:.2f} min, plates: 7000}}
  - {{name: second isomer, retention_time: {second:.2f} min, plates: 7000}}
suitability: {{replicates: 5, resolution: 2.0, tailing: 1.5, rsd: 2.0 %}}
analytes: polar
"""
_GRADIENT = """\
programme:
  - {{time: 0 min, modifier_share: {low:.1f} % v/v}}
  - {{time: {ramp:.1f} min, modifier_share: {high:.1f} % v/v}}
  - {{time: {hold:.1f} min, modifier_share: {high:.1f} % v/v}}
"""
_CONSTANT = """\
  modifier_share: {share:.1f} % v/v
"""

Kind = Literal["gradient", "constant", "faulty"]
"""Gradients and constant compositions that are sound, and gradients that are not: the low
pressure limit is far too low and every fourth run ends too early, so that remedies are tried."""


def method_text(number: int, kind: Kind = "gradient") -> str:
    """Write the method of this number, from 0."""
    sound = kind != "faulty"
    hold = 5.0 + number % 7 * 0.5
    outlet = 130 + number % 23
    column = _COLUMNS[number % len(_COLUMNS)]
    composition = _CONSTANT if kind == "constant" else _GRADIENT
    low = 4.0 + number % 13 * 0.3
    return _METHOD.format(
        number=number,
        column=column,
        oven=33 + number % 5,
        outlet=outlet,
        flow=1.35 + number % 11 * 0.05,
        composition=composition.format(
            low=low,
            high=26.0 + number % 17 * 0.5,
            ramp=hold - 1.0,
            hold=hold,
            share=10.0 + low,
        ),
        length=hold + (2.5 if sound else 0.0),
        settling=(10.5 if sound else 2.0) + number % 3 * 0.5,
        first=1.6 + number % 19 * 0.03,
        second=2.4 + number % 19 * 0.03,
        low_limit=outlet + 8 if sound else 100,
        high_limit=_HIGH_LIMITS.get(column, 345) if sound else 380,
    )


def lab_of_methods(folder: Path, count: int, kind: Kind = "faulty") -> Path:
    """Make a lab folder with this many methods.

    Parameters
    ----------
    folder
        New folder to make it in.
    count
        Number of methods.
    kind
        See `Kind`.

    Returns
    -------
    Path
        Folder of the methods.
    """
    folder.mkdir(parents=True)
    for card in _CARDS:
        source = EXAMPLES / card
        if source.is_dir():
            shutil.copytree(source, folder / card)
        else:
            shutil.copy(source, folder / card)
    methods = folder / "methods"
    methods.mkdir()
    for number in range(count):
        file = methods / f"screening-{number:05d}.yaml"
        file.write_text(method_text(number, kind), encoding="utf-8")
    return methods
