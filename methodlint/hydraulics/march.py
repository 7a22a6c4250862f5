"""Pressure in every slice of the flow train, from the regulator upstream.

Mass flow is what stays constant along the train; density and viscosity are those of the local
pressure, temperature and composition.  Each slice obeys the implicit midpoint rule,

    P_in = P_out + loss(rho, eta at (P_in + P_out) / 2),

which is of second order.  Instead of walking slice by slice, all slices of all rows are swept
together: properties at the last known pressures, losses summed upstream, repeated until nothing
moves.  What happens in a slice depends only on slices downstream, so the sweeps converge like an
exponential series (four or five of them, one or two from a start between rows that were marched
before, see `guides`); and one call of the fluid for everything costs far
less than a hundred small ones.  A row is one (method, time) pair.  Rows never influence each
other: a row that has settled is left alone, so its pressures are the same to the last bit alone
and in any company.

Reported pressures take the temperature of the slices as given (oven, room).  A column in a
still-air oven lies between that and the adiabatic bound of `temperature_along_column`, and the
difference in pressure is far inside the band of the flow resistance; a caller who wants the other
bound marches again with the adiabatic temperatures.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from methodlint.hydraulics import columns
from methodlint.hydraulics import friction_turbulent_blasius_1913 as turbulent_law
from methodlint.hydraulics.fluid_interface import FloatArray, FlowingFluid, at_temperatures
from methodlint.hydraulics.guides import SLOWEST, Guides
from methodlint.hydraulics.layout import NULL_SEGMENT, Layout
from methodlint.hydraulics.sweeps import HIGHEST_MODEL_PRESSURE, Feed, Pass, Start, settle

__all__ = ["HIGHEST_MODEL_PRESSURE", "March", "march", "march_with_feed"]

# fewer points cost calls, more cost memory traffic: 1500 and 12 000 were measured to be slower
_POINTS_AT_ONCE = 6000


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
        Turbulent tubes above the range of the friction law (Re 100 000), packed beds above that
        of Ergun's equation.
    settled : ndarray of bool, (R,)
        False where a slice sits on the saturation line and alternates between two densities.
        Pressures are then the mean of both states, known within some per cent of one slice's
        loss; such a row has two phases before the regulator, which is a finding of its own.
    mass_flow : ndarray, (R, S)
        [kg/s].
    w_modifier : ndarray, (R, S)
        Mass fraction of modifier [-].
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
    w_modifier: FloatArray
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


def march_with_feed(
    fluid: FlowingFluid,
    layout: Layout,
    outlet_pressure: FloatArray,
    temperature: npt.ArrayLike,
    feed: Feed,
    guides: Guides | None = None,
    near: FloatArray | None = None,
) -> March:
    """March rows whose mass flow may depend on the pressure at their pumps.

    Parameters
    ----------
    fluid : FlowingFluid
        Mobile phase.
    layout : Layout
        Slices, (S,) or (R, S).
    outlet_pressure : ndarray, (R,)
        At the regulator [Pa, abs].
    temperature : array_like
        As in `march` [K].
    feed : Feed
        Of all R rows.
    guides : Guides, optional
        Rows that are marched first, and between which of them the others lie.
    near : ndarray, (R, S+1), optional
        Pressures from which the rows start that are marched first [Pa].

    Raises
    ------
    methodlint.fluids.validity.OutOfRange
        If a temperature or the outlet pressure lies where the fluid has no model.
    """
    rows, width = outlet_pressure.shape[0], layout.slices
    shape = (rows, width)
    T = np.broadcast_to(np.asarray(temperature, dtype=np.float64), shape)
    faces, alternative = np.empty((rows, width + 1)), np.empty((rows, width + 1))
    numbers = {
        name: np.empty(shape)
        for name in ("density", "viscosity", "reynolds", "mass_flow", "w_modifier")
    }
    transition = np.zeros(shape, dtype=np.bool_)
    settled = np.zeros(rows, dtype=np.bool_)
    shrinking = np.empty(rows)
    at_place, losses = at_temperatures(fluid, T), layout.losses
    chunk = max(1, _POINTS_AT_ONCE // width)

    def march_rows(chosen: npt.NDArray[np.int64], guided: bool) -> None:
        for first in range(0, chosen.size, chunk):
            part = chosen[first : first + chunk]

            def keep(
                at: npt.NDArray[np.int64],
                found: Pass,
                at_rest: bool,
                shrank: FloatArray,
                part: npt.NDArray[np.int64] = part,
            ) -> None:
                where = part[at]
                faces[where], alternative[where] = found.faces, found.faces_alternative
                for name, values in numbers.items():
                    values[where] = getattr(found, name)
                transition[where] = found.transition
                settled[where] = at_rest
                shrinking[where] = shrank

            start = guides.start(part, faces, shrinking) if guided and guides else None
            if not guided and near is not None:
                start = Start(near[part], np.full(part.shape, SLOWEST))
            own = losses.take(part), outlet_pressure[part], feed.take(part)
            settle(at_place.take(part), *own, keep, start)

    if guides is None:
        march_rows(np.arange(rows), False)
    else:
        for turn in range(int(guides.turn.max()) + 1):
            march_rows(np.flatnonzero(guides.turn == turn), turn > 0)
    reynolds = numbers["reynolds"]
    return March(
        pressure=faces,
        pressure_alternative=alternative,
        transition=transition,
        temperature=np.concatenate([T, T[:, -1:]], axis=1),
        beyond_model=(faces[:, 1:] + faces[:, :-1] > 2.0 * HIGHEST_MODEL_PRESSURE)
        & (layout.segment != NULL_SEGMENT),
        beyond_friction_law=_beyond_friction_laws(layout, reynolds),
        settled=settled,
        layout=layout,
        **numbers,
    )


def _beyond_friction_laws(layout: Layout, reynolds: FloatArray) -> npt.NDArray[np.bool_]:
    # a layout does not keep porosities: the usual one decides, far from anything that is run
    bed_limit = columns.VALIDITY.upper * (1.0 - columns.DEFAULT_EXTERNAL_POROSITY)
    tubes = layout.is_tube & (reynolds > turbulent_law.VALIDITY.upper)
    return np.asarray(tubes | (layout.is_column & (reynolds > bed_limit)))


@dataclass(frozen=True)
class _FixedFeed:
    """Mass flow and composition as given."""

    mass_flow: FloatArray
    w_modifier: FloatArray

    def deliver(self, pump_pressure: FloatArray) -> tuple[FloatArray, FloatArray]:
        """What was given, whatever the pressure."""
        return self.mass_flow, self.w_modifier

    def take(self, rows: npt.NDArray[np.int64]) -> _FixedFeed:
        """The same for some of the rows."""
        return _FixedFeed(self.mass_flow[rows], self.w_modifier[rows])


def march(
    fluid: FlowingFluid,
    layout: Layout,
    outlet_pressure: npt.ArrayLike,
    mass_flow: npt.ArrayLike,
    w_modifier: npt.ArrayLike,
    temperature: npt.ArrayLike,
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
    rows = max(
        outlet.shape[0],
        m.shape[0],
        *(array.shape[0] for array in (w, layout.segment) if array.ndim == 2),
    )
    feed = _FixedFeed(
        np.broadcast_to(m, (rows, m.shape[1])), np.broadcast_to(w, (rows, layout.slices))
    )
    return march_with_feed(fluid, layout, np.broadcast_to(outlet, (rows,)), temperature, feed)
