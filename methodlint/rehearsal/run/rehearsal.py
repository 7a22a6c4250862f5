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


@dataclass(frozen=True)
class Rehearsal(RunStates):
    """What will happen in one run; see `RunStates` for its figures."""

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
