"""The worst moment of every component of the flow train."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from methodlint.rehearsal.run.extreme import Extreme
from methodlint.rehearsal.run.states import RunStates

__all__ = ["WorstPoint", "WorstPoints", "worst_points"]


@dataclass(frozen=True, slots=True)
class WorstPoint:
    """One component at its worst moments.

    Attributes
    ----------
    name, kind
        As in the flow train: "diol-3um", "column"; "mixing point" stands for the pumps.
    pressure
        Highest pressure at its inlet, band in [Pa], time in [s].
    drop
        Greatest loss of pressure in it, the same; 0 for a part that loses none.
    margin
        Least pressure above the phase boundary in it, with how far above the true boundary
        may lie, the same;
        infinite where no composition that comes by ever splits.
    """

    name: str
    kind: str
    pressure: Extreme
    drop: Extreme
    margin: Extreme


@dataclass(frozen=True)
class WorstPoints:
    """Worst points in flow order; prints as a table.

    Attributes
    ----------
    rows
        One per segment of the flow train.
    """

    rows: tuple[WorstPoint, ...]

    def __len__(self) -> int:
        """Number of components."""
        return len(self.rows)

    def __getitem__(self, index: int) -> WorstPoint:
        """One row; -1 is the regulator's."""
        return self.rows[index]

    def __iter__(self) -> Iterator[WorstPoint]:
        """Rows in flow order."""
        return iter(self.rows)

    def of(self, name: str) -> WorstPoint:
        """Row of the component of this name.

        Raises
        ------
        KeyError
            If there is none.
        """
        for row in self.rows:
            if row.name == name:
                return row
        raise KeyError(name)

    def __str__(self) -> str:
        """Table in bar and minutes."""
        width = max([len("component"), *(len(row.name) for row in self.rows)])
        lines = [f"{'component':{width}}  pressure [bar]   at [min]  drop [bar]  margin [bar]"]
        for row in self.rows:
            pressure, margin = row.pressure, row.margin.value / 1e5
            room = f"{margin:8.1f}" if np.isfinite(margin) else "  never"
            lines.append(
                f"{row.name:{width}}  {pressure.value / 1e5:7.1f} +{pressure.band / 1e5:5.1f}   "
                f"{pressure.time / 60:8.2f}  {row.drop.value / 1e5:10.1f}  {room:>12}"
            )
        return "\n".join(lines)


def worst_points(run: RunStates) -> WorstPoints:
    """Find the worst moments of every segment of the flow train.

    Parameters
    ----------
    run
        A rehearsal that is done.
    """
    rows = []
    flows = run.set_flow > 0.0
    for number, segment in enumerate(run.train.segments):
        part = run.slices_of(number)
        lost = run.drop_over(number)
        drop_row = int(np.argmax(lost))
        least = np.where(flows, np.min(run.boundary_margin[:, part], axis=1), np.inf)
        margin_row = int(np.argmin(least))
        end = part.stop - 1
        state = run.w_with_makeup[margin_row, end], run.temperature[margin_row, end]
        band = float(run.fluid.boundary_band(*state).with_error(run.plan.regulator_accuracy).above)
        rows.append(
            WorstPoint(
                segment.name,
                segment.kind,
                run.highest(run.inlet_pressure_of(number)),
                Extreme(
                    float(lost[drop_row]),
                    float(run.resistance_band.above[drop_row] * lost[drop_row]),
                    float(run.time[drop_row]),
                    float(run.resistance_band.below[drop_row] * lost[drop_row]),
                ),
                Extreme(float(least[margin_row]), band, float(run.time[margin_row])),
            )
        )
    return WorstPoints(tuple(rows))
