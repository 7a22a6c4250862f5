"""From set volume flows to mass flows, solved together with the march.

A CO2 pump that meters volume delivers the mass its head holds: set flow times the density of CO2
at head temperature and *pump pressure*, which the march supplies and which depends on that mass.
Both are moved in the same sweeps until they agree.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from methodlint.hydraulics.fluid_interface import FloatArray, FlowingFluid
from methodlint.hydraulics.guides import Guides
from methodlint.hydraulics.heads import Heads
from methodlint.hydraulics.layout import Layout
from methodlint.hydraulics.march import March, march_with_feed
from methodlint.hydraulics.side_streams import SideStreams

__all__ = [
    "Metering",
    "SolvedRows",
    "mass_fraction",
    "share_for_mass_fraction",
    "solve_rows",
]


@dataclass(frozen=True)
class Metering:
    """What the pumps of R rows are set to; scalars stand for all rows.

    Attributes
    ----------
    co2_flow : array_like, (R,)
        Set volume flow of CO2 [m3/s].
    modifier_flow : array_like, (R,)
        Set volume flow of modifier, metered at room temperature [m3/s].
    modifier_density : array_like, (R,)
        Of the modifier at room temperature and pressure [kg/m3].
    head_temperature : array_like, (R,)
        Of the CO2 pump head [K].
    co2_density : array_like, (R,)
        NaN for a pump that meters volume at its head.  A number [kg/m3] for a pump that meters
        mass (or corrects for density): set flow times this number is what it delivers.
    """

    co2_flow: npt.ArrayLike
    modifier_flow: npt.ArrayLike
    modifier_density: npt.ArrayLike
    head_temperature: npt.ArrayLike = np.nan
    co2_density: npt.ArrayLike = np.nan

    @classmethod
    def by_mass(
        cls,
        co2_mass_flow: npt.ArrayLike,
        modifier_mass_flow: npt.ArrayLike,
        modifier_density: npt.ArrayLike,
    ) -> Metering:
        """Pumps that meter mass [kg/s].

        CO2 is booked as a volume at the modifier's density, so that the modifier shares given
        to `solve_rows` are *mass* fractions for such rows.
        """
        density = np.asarray(modifier_density, dtype=np.float64)
        return cls(
            co2_flow=np.asarray(co2_mass_flow, dtype=np.float64) / density,
            modifier_flow=np.asarray(modifier_mass_flow, dtype=np.float64) / density,
            modifier_density=density,
            co2_density=density,
        )


@dataclass(frozen=True)
class SolvedRows:
    """Rows whose mass flows and pressures agree.

    Attributes
    ----------
    march : March
        Pressures and all that goes with them.
    co2_mass_flow, modifier_mass_flow : ndarray, (R,)
        What the pumps deliver [kg/s].
    w_modifier : ndarray, (R, S)
        Mass fraction of modifier in every slice [-] of what was pumped; with makeup that has
        joined it is ``march.w_modifier``.
    w_pumped : ndarray, (R,)
        Mass fraction of modifier leaving the pumps [-]; 0 without flow.
    co2_density_at_pump : ndarray, (R,)
        Density used for CO2 [kg/m3].
    """

    march: March
    co2_mass_flow: FloatArray
    modifier_mass_flow: FloatArray
    w_modifier: FloatArray
    w_pumped: FloatArray
    co2_density_at_pump: FloatArray


def mass_fraction(
    share: npt.ArrayLike, modifier_density: npt.ArrayLike, co2_density: npt.ArrayLike
) -> npt.NDArray[np.float64]:
    """Mass fraction of modifier from its share of the set volume flow [-].

    Parameters
    ----------
    share : array_like
        Modifier flow over total set flow [-].
    modifier_density : array_like
        At room temperature [kg/m3].
    co2_density : array_like
        In the pump head [kg/m3].
    """
    s = np.asarray(share, dtype=np.float64)
    modifier = s * np.asarray(modifier_density, dtype=np.float64)
    return np.asarray(modifier / (modifier + (1.0 - s) * np.asarray(co2_density, np.float64)))


def share_for_mass_fraction(
    w: npt.ArrayLike, modifier_density: npt.ArrayLike, co2_density: npt.ArrayLike
) -> npt.NDArray[np.float64]:
    """Share of the set volume flow that gives a mass fraction of modifier [-].

    Parameters
    ----------
    w : array_like
        Mass fraction of modifier [-].
    modifier_density : array_like
        At room temperature [kg/m3].
    co2_density : array_like
        That turns a set millilitre of CO2 into mass: in the head of a pump that meters volume,
        the booked one of a pump that meters mass [kg/m3].

    Source
    ------
    The inverse of `mass_fraction` (arithmetic).
    """
    w_ = np.asarray(w, dtype=np.float64)
    modifier = w_ / np.asarray(modifier_density, dtype=np.float64)
    carbon = (1.0 - w_) / np.asarray(co2_density, dtype=np.float64)
    return np.asarray(modifier / (modifier + carbon))


@dataclass(frozen=True)
class _MeteredFeed:
    """Set flows of some rows, (r,), and shares (r, S)."""

    co2_flow: FloatArray
    modifier_mass: FloatArray
    liquid_density: FloatArray
    heads: Heads
    share: FloatArray
    sides: SideStreams | None = None
    along: FloatArray | None = None

    def deliver(self, pump_pressure: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Mass flow [kg/s] and mass fractions [-] at a pump pressure [Pa]."""
        density = self.heads.density(pump_pressure)[:, None]
        modifier = self.share * self.liquid_density[:, None]
        both = modifier + (1.0 - self.share) * density
        w = modifier / both
        if self.along is None:
            # what is pumped pushes what is there out by volume
            mass = (self.co2_flow + self.modifier_mass / self.liquid_density)[:, None] * both
        else:
            mass = (self.co2_flow * density[:, 0] + self.modifier_mass)[:, None] * self.along
        return (mass, w) if self.sides is None else self.sides.flow(mass, w)

    def take(self, rows: npt.NDArray[np.int64]) -> _MeteredFeed:
        """The same for some of the rows."""
        return _MeteredFeed(
            self.co2_flow[rows],
            self.modifier_mass[rows],
            self.liquid_density[rows],
            self.heads.take(rows),
            self.share[rows],
            self.sides.take(rows) if self.sides is not None else None,
            self.along[rows] if self.along is not None else None,
        )


def solve_rows(
    fluid: FlowingFluid,
    layout: Layout,
    metering: Metering,
    outlet_pressure: npt.ArrayLike,
    modifier_share: npt.ArrayLike,
    temperature: npt.ArrayLike,
    sides: SideStreams | None = None,
    guides: Guides | None = None,
    along: FloatArray | None = None,
    near: FloatArray | None = None,
) -> SolvedRows:
    """Mass flows and pressures of R rows that agree with each other.

    Parameters
    ----------
    fluid : FlowingFluid
        Mobile phase; one modifier (or blend) per call.
    layout : Layout
        Slices, (S,) or (R, S).
    metering : Metering
        What the pumps are set to now.
    outlet_pressure : array_like, (R,)
        At the regulator [Pa, abs].
    modifier_share : array_like, scalar, (R, 1) or (R, S)
        Share of modifier by set volume in every slice [-]: the composition that is in that place
        now, not the one being pumped.  It is turned into mass with the CO2 density of this row's
        pump head; what was pumped at another pressure before differs by a few per cent of itself.
        For mass-metered rows (`Metering.by_mass`) mass fractions.
    temperature : array_like, scalar, (S,), (R, 1) or (R, S)
        Of every slice [K].
    sides : SideStreams, optional
        Makeup that joins and what a splitter takes, (R, S); pressures are those with them.
    guides : Guides, optional
        Rows that are marched first, see `methodlint.hydraulics.guides`.
    along : ndarray, (R, S), optional
        Mass flow in every slice over that of the pumps, where fronts of composition are on their
        way.  Without it the set volume is what stays constant along the train.
    near : ndarray, (R, S+1), optional
        Pressures close to those sought, for the rows that are marched first [Pa].

    Returns
    -------
    SolvedRows
        Mass flow agrees with pump pressure within 0.02 %; rows that do not come to rest have
        ``march.settled`` False.

    Raises
    ------
    methodlint.fluids.validity.OutOfRange
        If a temperature or the outlet pressure lies where there is no model.
    """
    outlet = np.atleast_1d(np.asarray(outlet_pressure, dtype=np.float64))
    share = np.asarray(modifier_share, dtype=np.float64)
    settings = [
        np.atleast_1d(np.asarray(values, dtype=np.float64))
        for values in (
            metering.co2_flow,
            metering.modifier_flow,
            metering.modifier_density,
            metering.head_temperature,
            metering.co2_density,
        )
    ]
    counts = [outlet.shape[0], *(values.shape[0] for values in settings)]
    counts += [array.shape[0] for array in (share, layout.segment) if array.ndim == 2]
    rows = max(counts)
    co2_flow, modifier_flow, liquid, head, stated = (
        np.broadcast_to(values, (rows,)) for values in settings
    )
    feed = _MeteredFeed(
        co2_flow,
        modifier_flow * liquid,
        liquid,
        Heads.of(head, stated),
        np.broadcast_to(share, (rows, layout.slices)),
        sides,
        along,
    )
    outlet = np.broadcast_to(outlet, (rows,))
    found = march_with_feed(fluid, layout, outlet, temperature, feed, guides, near)
    density = feed.heads.density(found.pump_pressure)
    mass_flow = feed.co2_flow * density + feed.modifier_mass
    with np.errstate(divide="ignore", invalid="ignore"):
        pumped = np.where(mass_flow > 0.0, feed.modifier_mass / mass_flow, 0.0)
    return SolvedRows(
        march=found,
        co2_mass_flow=mass_flow - feed.modifier_mass,
        modifier_mass_flow=feed.modifier_mass,
        w_modifier=found.w_modifier
        if sides is None
        else mass_fraction(feed.share, feed.liquid_density[:, None], density[:, None]),
        w_pumped=pumped,
        co2_density_at_pump=density,
    )
