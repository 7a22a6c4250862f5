"""States of a run over time and place, and what is read from them directly."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, Any, Self, TypeVar

import numpy as np
import numpy.typing as npt

from methodlint.fluids.mixtures.boundary_band import BoundaryBand
from methodlint.fluids.mixtures.mixture import MixtureModel
from methodlint.hydraulics.drop_band import DropBand
from methodlint.hydraulics.train import Train
from methodlint.rehearsal.plan.missing import Missing
from methodlint.rehearsal.plan.programme import Programme
from methodlint.rehearsal.plan.run_plan import RunPlan
from methodlint.rehearsal.run.extreme import Extreme
from methodlint.rehearsal.run.resistance import resistance_band

if TYPE_CHECKING:
    from methodlint.rehearsal.run.side_flows import RestrictorState

FloatArray = npt.NDArray[np.float64]
_Found = TypeVar("_Found")
_SAME = 1e-3
_NONE = np.zeros(0)
_NONE_2D = np.zeros((0, 0))


@dataclass(frozen=True)
class RunStates:
    """What will happen in one run, R times by S places from the mixing point to the regulator.

    Everything is in SI, pressures are absolute. Times run from the start of the programme to the
    end of the settling time; places are slices of the flow train in flow order.

    Attributes
    ----------
    plan
        What was rehearsed: documents, flow train, programme, model of the mobile phase.
    missing
        Figures without which there is no rehearsal; the arrays are empty then.
    time
        [s], shape (R,), rising.
    pressure
        At the faces of the slices [Pa], shape (R, S+1): first the pump, last the regulator.
    pressure_alternative
        The same with the lower of two friction laws wherever a tube is between laminar and
        turbulent flow [Pa], shape (R, S+1).
    temperature
        In the slices [K], shape (R, S): room, oven, preheater, each part's own.
    w_modifier, share
        Mass fraction and set volume share of modifier in the slices, of what was pumped [-],
        shape (R, S).
    w_with_makeup
        Mass fraction with makeup that has joined, where it is the liquid that modifies [-],
        shape (R, S); density, viscosity and phase boundary are those of this composition.
    density, viscosity
        In the slices [kg/m3], [Pa s], shape (R, S).
    mass_flow
        Through the slices [kg/s], shape (R, S), makeup and splitter included.
    reynolds
        Of tubes and beds [-], shape (R, S); 0 elsewhere.
    transition
        Tubes between laminar and turbulent flow, bool, shape (R, S).
    boundary_margin
        Pressure above the phase boundary [Pa], shape (R, S); infinite where a composition never
        splits, negative where there are two phases.
    set_flow, pumped_share, outlet_pressure
        As set [m3/s], [-], [Pa], shape (R,).
    co2_mass_flow, modifier_mass_flow
        As metered [kg/s], shape (R,).
    makeup_mass_flow
        Makeup that reaches the regulator [kg/s], shape (R,); 0 where it joins behind it.
    split_share
        Share of the stream that a splitter sends to the source [-], shape (R,).
    restrictor
        How a splitter's fixed restrictor divides the stream; None without one.
    head_density
        Of the CO2 behind a set millilitre [kg/m3], shape (R,).
    metering_band
        Relative half width of the CO2 mass where the pressure at the pump is not known [-].
    beyond_model, beyond_friction_law
        Pressure above the property model, which makes it a lower bound; flow above the friction
        laws: bool, shape (R, S).
    settled
        False where a slice sits on the saturation line and its density is not known, shape (R,).
    segment
        Segment of the train of every slice, int, shape (S,).
    volume
        Mobile phase in the slices [m3], shape (S,).
    """

    plan: RunPlan
    missing: tuple[Missing, ...] = ()
    time: FloatArray = field(default_factory=lambda: _NONE)
    pressure: FloatArray = field(default_factory=lambda: _NONE_2D)
    pressure_alternative: FloatArray = field(default_factory=lambda: _NONE_2D)
    temperature: FloatArray = field(default_factory=lambda: _NONE_2D)
    w_modifier: FloatArray = field(default_factory=lambda: _NONE_2D)
    w_with_makeup: FloatArray = field(default_factory=lambda: _NONE_2D)
    share: FloatArray = field(default_factory=lambda: _NONE_2D)
    density: FloatArray = field(default_factory=lambda: _NONE_2D)
    viscosity: FloatArray = field(default_factory=lambda: _NONE_2D)
    mass_flow: FloatArray = field(default_factory=lambda: _NONE_2D)
    reynolds: FloatArray = field(default_factory=lambda: _NONE_2D)
    transition: npt.NDArray[np.bool_] = field(default_factory=lambda: _NONE_2D.astype(bool))
    beyond_model: npt.NDArray[np.bool_] = field(default_factory=lambda: _NONE_2D.astype(bool))
    beyond_friction_law: npt.NDArray[np.bool_] = field(
        default_factory=lambda: _NONE_2D.astype(bool)
    )
    boundary_margin: FloatArray = field(default_factory=lambda: _NONE_2D)
    set_flow: FloatArray = field(default_factory=lambda: _NONE)
    pumped_share: FloatArray = field(default_factory=lambda: _NONE)
    outlet_pressure: FloatArray = field(default_factory=lambda: _NONE)
    co2_mass_flow: FloatArray = field(default_factory=lambda: _NONE)
    modifier_mass_flow: FloatArray = field(default_factory=lambda: _NONE)
    makeup_mass_flow: FloatArray = field(default_factory=lambda: _NONE)
    split_share: FloatArray = field(default_factory=lambda: _NONE)
    restrictor: RestrictorState | None = None
    head_density: FloatArray = field(default_factory=lambda: _NONE)
    metering_band: float = 0.0
    settled: npt.NDArray[np.bool_] = field(default_factory=lambda: _NONE.astype(bool))
    segment: npt.NDArray[np.int64] = field(default_factory=lambda: _NONE.astype(np.int64))
    volume: FloatArray = field(default_factory=lambda: _NONE)
    _answers: dict[Callable[..., Any], Any] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )

    def ask(self, question: Callable[[Self], _Found]) -> _Found:
        """Answer a question that has a module of its own; computed once a run."""
        if question not in self._answers:
            self._answers[question] = question(self)
        found: _Found = self._answers[question]
        return found

    @property
    def done(self) -> bool:
        """Whether the run could be rehearsed."""
        return not self.missing

    @property
    def metered(self) -> bool:
        """Whether the flows of the pumps are known, be it without the pressures."""
        return self.time.size > 0

    @property
    def fluid(self) -> MixtureModel:
        """Model of the mobile phase."""
        assert self.plan.fluid is not None
        return self.plan.fluid

    @property
    def programme(self) -> Programme:
        """What the pumps are told."""
        assert self.plan.programme is not None
        return self.plan.programme

    @property
    def train(self) -> Train:
        """Segments of the flow train."""
        assert self.plan.train is not None
        return self.plan.train

    def slices_of(self, number: int) -> slice:
        """Slices of one segment of the train."""
        return self._slices[number]

    @cached_property
    def _slices(self) -> dict[int, slice]:
        """Slices of every segment: they follow one another."""
        starts = np.flatnonzero(np.diff(self.segment, prepend=self.segment[0] - 1))
        ends = [*starts[1:].tolist(), self.segment.size]
        numbers = self.segment[starts].tolist()
        return {
            number: slice(start, end)
            for number, start, end in zip(numbers, starts.tolist(), ends, strict=True)
        }

    @cached_property
    def _first_bed(self) -> slice:
        return self.slices_of(self.train.columns[0])

    @cached_property
    def _last_bed(self) -> slice:
        return self.slices_of(self.plan.analytical_column)

    # Pressures -----------------------------------------------------------------------------

    @property
    def pump_pressure(self) -> FloatArray:
        """At the pumps [Pa], shape (R,)."""
        return self.pressure[:, 0]

    @property
    def column_inlet_pressure(self) -> FloatArray:
        """At the inlet of the first packed bed [Pa], shape (R,)."""
        return self.pressure[:, self._first_bed.start]

    @property
    def column_outlet_pressure(self) -> FloatArray:
        """At the outlet of the last packed bed [Pa], shape (R,)."""
        return self.pressure[:, self._last_bed.stop]

    def inlet_pressure_of(self, number: int) -> FloatArray:
        """At the inlet of a segment [Pa], shape (R,)."""
        return self.pressure[:, self.slices_of(number).start]

    def drop_over(self, number: int) -> FloatArray:
        """Pressure lost in a segment [Pa], shape (R,)."""
        part = self.slices_of(number)
        return self.pressure[:, part.start] - self.pressure[:, part.stop]

    def pressure_band(self, pressure: FloatArray) -> DropBand:
        """Band of a pressure [Pa], each (R,): of what is lost downstream, and of the regulator."""
        lost = self.drop_band(np.maximum(pressure - self.outlet_pressure, 0.0))
        return DropBand(*(np.hypot(side, self.plan.regulator_accuracy) for side in lost))

    def drop_band(self, drop: FloatArray) -> DropBand:
        """The same of a pressure drop, without the regulator's share."""
        return DropBand(*(side * drop for side in self.resistance_band))

    @cached_property
    def resistance_band(self) -> DropBand:
        """Relative band of a pressure drop [-], each (R,).

        With several measured pressures not less than half of what they are apart.
        """
        if self.plan.resistance_band is not None:
            return DropBand(*[np.full(self.time.shape, self.plan.resistance_band)] * 2)
        return resistance_band(self.plan, self.share[:, self._last_bed].mean(axis=1))

    def highest(self, pressure: FloatArray) -> Extreme:
        """Highest value of a pressure over the cycle, with its band and first time."""
        # A plateau is met when it begins, not where its last digit happens to be largest.
        row = int(np.argmax(pressure >= np.max(pressure) * (1.0 - _SAME)))
        below, above = (float(side[row]) for side in self.pressure_band(pressure))
        return Extreme(float(pressure[row]), above, float(self.time[row]), below)

    # Phase ---------------------------------------------------------------------------------

    @cached_property
    def outlet_margin(self) -> FloatArray:
        """Least margin to the phase boundary downstream of the column's outlet end [Pa], shape (R,)."""
        return np.asarray(np.min(self.boundary_margin[:, self._last_bed.stop - 1 :], axis=1))

    @cached_property
    def least_margin(self) -> FloatArray:
        """Least margin anywhere before the regulator [Pa], shape (R,)."""
        return np.asarray(np.min(self.boundary_margin[:, self._first_bed.start :], axis=1))

    def thinnest_state(self, row: int | None = None) -> tuple[float, float]:
        """Mass fraction of modifier [-] and T [K] where the margin is least, at a time or at all."""
        if row is None:
            row = int(np.argmin(self.least_margin))
        first = self._first_bed.start
        at = first + int(np.argmin(self.boundary_margin[row, first:]))
        return float(self.w_with_makeup[row, at]), float(self.temperature[row, at])

    @cached_property
    def boundary_band(self) -> BoundaryBand:
        """Band of the phase boundary [Pa] at the least margin of the cycle."""
        band = self.fluid.boundary_band(*self.thinnest_state())
        return band.with_error(self.plan.regulator_accuracy)

    @property
    def outlet_states(self) -> tuple[FloatArray, FloatArray, FloatArray]:
        """Mass fraction of modifier [-], T [K] and P [Pa] at the column outlet, each (R,)."""
        end = self._last_bed.stop - 1
        return self.w_modifier[:, end], self.temperature[:, end], self.column_outlet_pressure

    @cached_property
    def outlet_compressibility(self) -> FloatArray:
        """d ln(rho)/dP at the column outlet [1/Pa], shape (R,)."""
        return np.asarray(self.fluid.compressibility(*self.outlet_states))

    @cached_property
    def outlet_expansivity(self) -> FloatArray:
        """-d ln(rho)/dT at the column outlet [1/K], shape (R,)."""
        return np.asarray(self.fluid.expansivity(*self.outlet_states))

    @property
    def column_outlet_share(self) -> FloatArray:
        """Volume share of modifier at the column outlet [-], shape (R,)."""
        return self.share[:, self._last_bed.stop - 1]

    # Whole run ------------------------------------------------------------------------------

    @cached_property
    def column_outlet_density(self) -> FloatArray:
        """At the outlet of the last packed bed at the oven's temperature [kg/m3], shape (R,)."""
        end = self._last_bed.stop - 1
        state = self.w_with_makeup[:, end], self.temperature[:, end], self.column_outlet_pressure
        return np.asarray(self.fluid.density(*state))

    @cached_property
    def preheater_watts(self) -> FloatArray:
        """Heat that brings the stream from the room to the first bed's temperature [W], (R,)."""
        first = self._first_bed.start
        w, temperature = self.w_modifier[:, first], self.temperature[:, first]
        middle = 0.5 * (temperature + self.temperature[:, 0])
        capacity = self.fluid.heat_capacity(w, middle, self.pressure[:, first])
        return np.asarray(
            self.mass_flow[:, first] * capacity * (temperature - self.temperature[:, 0])
        )

    # Times, volumes, masses ----------------------------------------------------------------

    @cached_property
    def hold_up_volume(self) -> float:
        """Mobile phase in all packed beds [m3]."""
        return float(sum(self.train.segments[i].volume for i in self.train.columns))

    @cached_property
    def dwell_volume(self) -> float:
        """From the mixing point to the first packed bed, mixer included: mean delay [m3]."""
        return float(self.train.volume_before(self.train.columns[0]))

    @cached_property
    def plug_volume(self) -> float:
        """What of the dwell volume moves as a plug: without the stirred mixer [m3]."""
        return self.dwell_volume - self.programme.mixer_volume

    @cached_property
    def hold_up_time(self) -> FloatArray:
        """Mass of mobile phase in the beds over mass flow [s], shape (R,); inf without flow."""
        mass = np.zeros(self.time.shape)
        for number in self.train.columns:
            inside = self.slices_of(number)
            mass += self.density[:, inside] @ self.volume[inside]
        total = self.co2_mass_flow + self.modifier_mass_flow
        with np.errstate(divide="ignore"):
            return np.where(total > 0.0, mass / np.where(total > 0.0, total, 1.0), np.inf)

    @cached_property
    def mean_column_density(self) -> FloatArray:
        """Density averaged over the volume of the last packed bed [kg/m3], shape (R,)."""
        return np.asarray(self.density[:, self._last_bed].mean(axis=1))

    def integral(self, rate: FloatArray) -> float:
        """Integrate a rate over the cycle [rate x s]."""
        if self.time.size < 2:
            return 0.0
        return float(np.sum(np.diff(self.time) * (rate[1:] + rate[:-1]) / 2.0))

    @cached_property
    def co2_per_cycle(self) -> float:
        """CO2 of one cycle: run length and settling time [kg]."""
        return self.integral(self.co2_mass_flow)

    @cached_property
    def modifier_per_cycle(self) -> float:
        """Modifier of one cycle at room temperature [m3]."""
        return self.integral(self.set_flow * self.pumped_share)

    @cached_property
    def start_row(self) -> int:
        """Row of the starting values."""
        return 0

    def windows(self, excess: FloatArray) -> list[tuple[float, float]]:
        """Spans of time [s] in which a quantity is above its limit.

        Parameters
        ----------
        excess
            What the quantity lies above the limit at every time, shape (R,); any unit. Between
            two times it runs straight, beside an infinite one the span ends at the last time
            that is inside.
        """
        # a span may begin with the first time and end with the last
        holds = np.concatenate([[False], excess > 0.0, [False]])
        pairs = np.flatnonzero(holds[1:] != holds[:-1]).reshape(-1, 2).tolist()
        return [
            (self._crossing(excess, first, first - 1), self._crossing(excess, behind - 1, behind))
            for first, behind in pairs
        ]

    def _crossing(self, excess: FloatArray, inside: int, outside: int) -> float:
        """Time [s] at which the excess is 0 between a time inside and one outside."""
        known = float(self.time[inside])
        if not 0 <= outside < excess.size or not np.isfinite(excess[[inside, outside]]).all():
            return known
        way = float(excess[inside] / (excess[inside] - excess[outside]))
        return known + way * (float(self.time[outside]) - known)
