"""The rehearsed run: its states, and the questions that have files of their own."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from methodlint.rehearsal.run.states import RunStates

if TYPE_CHECKING:
    from methodlint.rehearsal.run.adiabatic_column import AdiabaticColumn
    from methodlint.rehearsal.run.regulator import RegulatorLoad
    from methodlint.rehearsal.run.worst_points import WorstPoints

__all__ = ["Rehearsal"]


@dataclass(frozen=True, repr=False)
class Rehearsal(RunStates):
    """What will happen in one run; see `RunStates` for its figures."""

    def __repr__(self) -> str:
        """Name, size of the arrays and highest pressure in one line."""
        name = self.plan.method.name
        if not self.done:
            return f"<Rehearsal of {name}: not rehearsed, {len(self.missing)} values missing>"
        times, places = self.w_modifier.shape
        highest = self.worst_points[0].pressure
        return (
            f"<Rehearsal of {name}: {times} times x {places} places; pump up to "
            f"{highest.value / 1e5:.0f} bar (predicted; verify)>"
        )

    def _repr_html_(self) -> str:
        """The same with the worst points as a table, for notebooks."""
        from html import escape

        table = f"<pre>{escape(str(self.worst_points))}</pre>" if self.done else ""
        return f"<p>{escape(repr(self)[1:-1])}</p>{table}"

    @cached_property
    def worst_points(self) -> WorstPoints:
        """Worst moments of every component, in flow order; prints as a table."""
        from methodlint.rehearsal.run.worst_points import worst_points

        return worst_points(self)

    @cached_property
    def adiabatic_column(self) -> AdiabaticColumn:
        """Temperature [K] and outlet density [kg/m3] if the beds exchange no heat, (R, B+1)."""
        from methodlint.rehearsal.run.adiabatic_column import adiabatic_column

        return adiabatic_column(self)

    @cached_property
    def heater_load(self) -> RegulatorLoad | None:
        """Moment of the cycle at which the regulator needs most heat [W], with what it is for.

        None where the state ahead of it lies outside the property model.
        """
        from methodlint.rehearsal.run.regulator import worst_regulator_load

        return worst_regulator_load(self, self.plan.method, self.plan.instrument)
