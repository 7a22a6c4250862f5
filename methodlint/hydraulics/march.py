"""Pressure in every slice of the flow train, from the regulator upstream.

Mass flow is what stays constant along the train; density and viscosity are those of the local
pressure, temperature and composition.  Each slice obeys the implicit midpoint rule,

    P_in = P_out + loss(rho, eta at (P_in + P_out) / 2),

which is of second order.  Instead of walking slice by slice, all slices of all rows are swept
together: properties at the last known pressures, losses summed upstream, repeated until nothing
moves.  What happens in a slice depends only on slices downstream, so the sweeps converge like an
exponential series (three to eight of them); and one call of the fluid for everything costs far
less than a hundred small ones.  A row is one (method, time) pair; rows never influence each other.

Reported pressures take the temperature of the slices as given (oven, room).  A column in a
still-air oven lies between that and the adiabatic bound of `temperature_along_column`, and the
difference in pressure is far inside the band of the flow resistance; a caller who wants the other
bound marches again with the adiabatic temperatures.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

from methodlint.hydraulics import friction_turbulent_blasius_1913 as turbulent_law
from methodlint.hydraulics.fluid_interface import FloatArray, FlowingFluid
from methodlint.hydraulics.layout import NULL_SEGMENT, Layout
from methodlint.hydraulics.tubes import LAMINAR_BELOW, TURBULENT_ABOVE

__all__ = ["HIGHEST_MODEL_PRESSURE", "March", "Sweep", "march"]

HIGHEST_MODEL_PRESSURE = 700.0e5
"""Properties are taken at this pressure [Pa] where the march climbs above it; such slices are
reported in `March.beyond_model`.  No pump of the trade goes there."""

_SETTLED = 1.0e-5
_MOST_SWEEPS = 60
# after this many sweeps a slice that was turbulent once stays so: a slice at Re 2100 could
# otherwise switch its law for ever
_SWEEPS_BEFORE_HOLDING = 6


@dataclass(frozen=True)
class March:
    """Result of a march over R rows and S slices in flow order (pumps first).

    Attributes
    ----------
    pressure : ndarray, (R, S+1)
        At the faces of the slices [Pa]; `[:, 0]` at the pumps, `[:, -1]` at the regulator.
    pressure_alternative : ndarray, (R, S+1)
        The same with the lower branch wherever a tube is in the transition [Pa].
    density : ndarray, (R, S)
        In the slices [kg/m3].
    viscosity : ndarray, (R, S)
        [Pa s].
    reynolds : ndarray, (R, S)
        Of tubes 4m/(pi d eta), of beds rho u_s dp/eta, 0 elsewhere [-].
    transition : ndarray of bool, (R, S)
        Tubes with 2100 < Re < 4000, where the higher of two losses is in `pressure`.
    temperature : ndarray, (R, S+1)
        At the faces [K]: that of the slice behind the face.
    beyond_model : ndarray of bool, (R, S)
        Properties held at `HIGHEST_MODEL_PRESSURE`: the pressure there is a lower bound.
    beyond_friction_law : ndarray of bool, (R, S)
        Turbulent tubes above the range of the friction law (Re 100 000).
    settled : ndarray of bool, (R,)
        False where the sweeps did not come to rest; such pressures are not to be judged.
    mass_flow : ndarray, (R, S)
        As given [kg/s].
    layout : Layout
        As given.
    """

    pressure: FloatArray
    pressure_alternative: FloatArray
    density: FloatArray
    viscosity: FloatArray
    reynolds: FloatArray
    transition: npt.NDArray[np.bool_]
    temperature: FloatArray
    beyond_model: npt.NDArray[np.bool_]
    beyond_friction_law: npt.NDArray[np.bool_]
    settled: npt.NDArray[np.bool_]
    mass_flow: FloatArray
    layout: Layout

    @property
    def pump_pressure(self) -> FloatArray:
        """Pressure at the pumps [Pa], (R,)."""
        return self.pressure[:, 0]

    @property
    def mid_pressure(self) -> FloatArray:
        """Pressure in the middle of every slice [Pa], (R, S)."""
        return 0.5 * (self.pressure[:, 1:] + self.pressure[:, :-1])

    @property
    def residence_time(self) -> FloatArray:
        """Time the mobile phase spends in every slice, rho V / m [s], (R, S); inf without flow."""
        with np.errstate(divide="ignore", invalid="ignore"):
            time = self.density * self.layout.volume / self.mass_flow
        return np.where(self.layout.volume > 0.0, time, 0.0)

    def segment_drops(self) -> FloatArray:
        """Pressure lost in every segment [Pa], (R, number of segments)."""
        losses = self.pressure[:, :-1] - self.pressure[:, 1:]
        return self._by_segment(losses)

    def segment_times(self) -> FloatArray:
        """Mass-based time spent in every segment [s]; of a column this is t0, (R, segments)."""
        return self._by_segment(self.residence_time)

    def mean_density(self, segment: int) -> FloatArray:
        """Density averaged over the volume of one segment [kg/m3], (R,)."""
        weight = np.where(self.layout.segment == segment, self.layout.volume, 0.0)
        weight = np.broadcast_to(weight, self.density.shape)
        total = weight.sum(axis=1)
        with np.errstate(divide="ignore", invalid="ignore"):
            return np.asarray((self.density * weight).sum(axis=1) / total)

    def _by_segment(self, values: FloatArray) -> FloatArray:
        segment = self.layout.segment
        sums = [
            np.where(segment == number, values, 0.0).sum(axis=1)
            for number in range(int(segment.max()) + 1)
        ]
        return np.stack(sums, axis=1)


@dataclass
class Sweep:
    """One march in progress: `step` sweeps all slices once.

    Used by `march`, and by `metering.solve_rows`, which moves the mass flow between sweeps.
    """

    fluid: FlowingFluid
    layout: Layout
    outlet_pressure: FloatArray
    temperature: FloatArray
    mid_pressure: FloatArray
    sweeps: int = 0
    pressure: FloatArray = field(init=False)
    density: FloatArray = field(init=False)
    viscosity: FloatArray = field(init=False)
    reynolds: FloatArray = field(init=False)
    transition: npt.NDArray[np.bool_] = field(init=False)
    lower_branch: FloatArray = field(init=False)
    _turbulent: npt.NDArray[np.bool_] = field(init=False)

    def step(self, mass_flow: FloatArray, w_modifier: FloatArray) -> FloatArray:
        """Sweep once; returns the largest relative move of pressure of each row, (R,).

        Parameters
        ----------
        mass_flow : ndarray, (R, 1) or (R, S)
            [kg/s].
        w_modifier : ndarray, (R, S)
            Mass fraction of modifier [-].
        """
        lay = self.layout
        known = np.minimum(self.mid_pressure, HIGHEST_MODEL_PRESSURE)
        rho = self.fluid.density(w_modifier, self.temperature, known)
        eta = self.fluid.viscosity(w_modifier, self.temperature, known)
        flow = mass_flow / rho
        self.density, self.viscosity = rho, eta
        self.reynolds = lay.reynolds * mass_flow / eta
        smooth = flow * (lay.viscous * eta + lay.inertial * mass_flow)
        turbulent = lay.is_tube & (self.reynolds > LAMINAR_BELOW)
        self.transition = turbulent & (self.reynolds < TURBULENT_ABOVE)
        if self.sweeps >= _SWEEPS_BEFORE_HOLDING:
            turbulent |= self._turbulent
        self._turbulent = turbulent
        loss = self.lower_branch = smooth
        if turbulent.any():
            factor = turbulent_law.friction_factor(np.maximum(self.reynolds, LAMINAR_BELOW))
            rough = factor * (lay.turbulent * mass_flow) * flow
            loss = np.where(turbulent, np.maximum(rough, smooth), smooth)
            self.lower_branch = np.where(self.transition, np.minimum(rough, smooth), loss)
        self.pressure = _climb(self.outlet_pressure, loss)
        middle = 0.5 * (self.pressure[:, 1:] + self.pressure[:, :-1])
        moved = np.max(np.abs(middle - self.mid_pressure) / middle, axis=1)
        self.mid_pressure = middle
        self.sweeps += 1
        return np.asarray(moved)

    def result(self, mass_flow: FloatArray, settled: npt.NDArray[np.bool_]) -> March:
        """What the last sweep found."""
        shape = self.density.shape
        temperature = np.concatenate([self.temperature, self.temperature[:, -1:]], axis=1)
        return March(
            pressure=self.pressure,
            pressure_alternative=_climb(self.outlet_pressure, self.lower_branch),
            density=self.density,
            viscosity=self.viscosity,
            reynolds=self.reynolds,
            transition=self.transition,
            temperature=temperature,
            beyond_model=(self.mid_pressure > HIGHEST_MODEL_PRESSURE)
            & (self.layout.segment != NULL_SEGMENT),
            beyond_friction_law=self.layout.is_tube
            & (self.reynolds > turbulent_law.VALIDITY.upper),
            settled=settled,
            mass_flow=np.broadcast_to(mass_flow, shape),
            layout=self.layout,
        )


def _climb(outlet_pressure: FloatArray, loss: FloatArray) -> FloatArray:
    faces = np.empty((loss.shape[0], loss.shape[1] + 1))
    faces[:, -1] = outlet_pressure
    faces[:, :-1] = np.cumsum(loss[:, ::-1], axis=1)[:, ::-1] + outlet_pressure[:, None]
    return faces


def begin(
    fluid: FlowingFluid,
    layout: Layout,
    outlet_pressure: npt.ArrayLike,
    rows: int,
    temperature: npt.ArrayLike,
    start: FloatArray | None = None,
) -> Sweep:
    """Set up a march of `rows` rows; arguments as in `march`."""
    shape = (rows, layout.slices)
    outlet = np.broadcast_to(np.asarray(outlet_pressure, dtype=np.float64), (rows,))
    T = np.broadcast_to(np.asarray(temperature, dtype=np.float64), shape)
    middle = outlet[:, None] if start is None else start
    return Sweep(fluid, layout, outlet, T, np.broadcast_to(middle, shape))


def march(
    fluid: FlowingFluid,
    layout: Layout,
    outlet_pressure: npt.ArrayLike,
    mass_flow: npt.ArrayLike,
    w_modifier: npt.ArrayLike,
    temperature: npt.ArrayLike,
    start: FloatArray | None = None,
) -> March:
    """Pressures of R rows in one call.

    Parameters
    ----------
    fluid : FlowingFluid
        Mobile phase; one modifier (or blend) per call.
    layout : Layout
        Slices, (S,) for one train or (R, S) stacked.
    outlet_pressure : array_like, (R,)
        At the regulator [Pa, abs].
    mass_flow : array_like, (R,) or (R, S)
        [kg/s]; (R, S) where a makeup liquid joins or a split leaves on the way.
    w_modifier : array_like, scalar, (R, 1) or (R, S)
        Mass fraction of modifier in every slice [-].
    temperature : array_like, scalar, (S,), (R, 1) or (R, S)
        Of every slice [K]; `Layout.temperatures` gives it from the surroundings.
    start : ndarray, (R, S), optional
        `March.mid_pressure` of a similar march [Pa]; saves sweeps, changes nothing else.

    Returns
    -------
    March

    Raises
    ------
    methodlint.fluids.validity.OutOfRange
        If a temperature or the outlet pressure lies where the fluid has no model.
    """
    outlet = np.atleast_1d(np.asarray(outlet_pressure, dtype=np.float64))
    m = np.asarray(mass_flow, dtype=np.float64)
    w = np.asarray(w_modifier, dtype=np.float64)
    m = m[:, None] if m.ndim == 1 else np.atleast_2d(m)
    stacked = layout.segment.shape[0] if layout.segment.ndim == 2 else 1
    rows = max(outlet.shape[0], m.shape[0], stacked, w.shape[0] if w.ndim == 2 else 1)
    m = np.broadcast_to(m, (rows, m.shape[1]))
    w = np.broadcast_to(w, (rows, layout.slices))
    sweep = begin(fluid, layout, outlet, rows, temperature, start)
    moved = np.full(rows, np.inf)
    while sweep.sweeps < _MOST_SWEEPS and not np.all(moved < _SETTLED):
        moved = sweep.step(m, w)
    return sweep.result(m, moved < _SETTLED)
