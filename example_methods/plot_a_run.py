"""Plots a rehearsed run: what is pumped and what arrives, pressures with their band, density.

Run it from the folder that holds example_methods/ (needs matplotlib: pip install
'methodlint[plot]'):

    python example_methods/plot_a_run.py [METHOD.yaml [PICTURE.png]]
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

import methodlint

METHOD = Path(__file__).parent / "sound" / "sulfonamides-in-honey.yaml"


def plot(run: methodlint.Rehearsal) -> Any:
    """Draw three panels over time and return the figure."""
    from matplotlib.figure import Figure

    minutes = run.time / 60.0
    figure = Figure(figsize=(7.0, 8.5), layout="constrained")
    top, middle, bottom = figure.subplots(3, 1, sharex=True)

    top.plot(minutes, 100.0 * run.pumped_share, label="at the pumps")
    top.plot(minutes, 100.0 * run.column_outlet_share, label="at the column outlet")
    top.set_ylabel("modifier [% v/v]")

    for name, pressure in (
        ("pumps", run.pump_pressure),
        ("column inlet", run.column_inlet_pressure),
        ("column outlet", run.column_outlet_pressure),
        ("regulator", run.outlet_pressure),
    ):
        (line,) = middle.plot(minutes, pressure / 1e5, label=name)
        band = run.pressure_band(pressure)
        low, high = (pressure - band.below) / 1e5, (pressure + band.above) / 1e5
        middle.fill_between(minutes, low, high, color=line.get_color(), alpha=0.15)
    middle.set_ylabel("pressure [bar]")

    bed = run.slices_of(run.plan.analytical_column)
    image = bottom.pcolormesh(
        minutes, range(bed.stop - bed.start), run.density[:, bed].T, shading="nearest"
    )
    figure.colorbar(image, ax=bottom, label="density [kg/m3]")
    bottom.set_ylabel("slice of the column")
    bottom.set_xlabel("time [min]")

    for panel in (top, middle):
        panel.legend(fontsize="small")
    return figure


def main(arguments: list[str]) -> int:
    """Rehearse, print the worst points, and write the picture."""
    method = Path(arguments[0]) if arguments else METHOD
    picture = Path(arguments[1]) if len(arguments) > 1 else Path("run.png")
    run = methodlint.rehearse(method)
    if not run.done:
        for item in run.missing:
            print(f"missing: {item.where} {item.reason}", file=sys.stderr)
        return 2
    print(run.worst_points)
    column = run.adiabatic_column
    print(f"without heat from the oven the column cools by up to {column.cooling.max():.1f} K")
    if run.heater_load is not None:
        print(f"the regulator needs up to {run.heater_load.watts:.0f} W")
    plot(run).savefig(picture, dpi=120)
    print(f"written: {picture}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
