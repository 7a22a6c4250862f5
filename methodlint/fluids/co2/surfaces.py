"""Shipped property surfaces of pure CO2 and their evaluation with numpy alone.

A surface is four patches, {colder, warmer than critical} x {dense, light}.  They meet at the
*ridge*: the saturation line below the critical temperature and the critical isochore above it.
Each patch is a tensor grid, uniform in

    u = |T - Tc|^(1/3)    and    v = y^(1/4),    y = ln(P/Pridge(T)) / ln(Pend/Pridge(T)),

with `Pend` the highest pressure of the surface on the dense side and the lowest on the light side.
The roots crowd the nodes where properties bend, at the saturation line and the critical point; a
grid in T and P fails there.  Between nodes the surface is a bicubic spline through ln(property), or through the
property itself for enthalpy, kept as Hermite data so that one gather serves one point.

`make_surfaces` writes the files; nothing here imports CoolProp.
"""

from __future__ import annotations

import functools
import io
import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

import numpy as np
import numpy.typing as npt

from methodlint.fluids.co2.cubic_pieces import (
    cell,
    cubic_along,
    hermite_weights,
    line_slopes,
    spline_slopes,
)
from methodlint.fluids.co2.surface_grid import DATA_FILE, LINEAR, RECORD_FILE, ROOT_V, SurfaceGrid

__all__ = ["PropertySurfaces", "SurfaceIsotherms", "load_surfaces", "read_record"]

FloatArray = npt.NDArray[np.float64]

_DATA_FOLDER: Final = Path(__file__).parent.parent / "data"


class PropertySurfaces:
    """Evaluator of the shipped surfaces and lines.

    Parameters
    ----------
    grid : Grid
        Where the nodes lie.
    values : mapping of str to numpy.ndarray
        ``SURFACES`` names to arrays (2 cold/hot, 2 dense/light, nodes_u, nodes_v), ``LINES``
        names to arrays (nodes_line,), ``"isochore_pressure"`` to (nodes_line,); SI units.
    """

    def __init__(self, grid: SurfaceGrid, values: Any) -> None:
        self.grid = grid
        self._values = values
        self._packed: dict[str, FloatArray] = {}
        self._lines: dict[str, FloatArray] = {}
        tc = grid.critical_temperature
        spans = np.cbrt([tc - grid.coldest, grid.hottest - tc])
        self._u_scale = (grid.nodes_u - 1) / spans
        line_spans = np.sqrt([tc - grid.triple_temperature, grid.hottest - tc])
        self._line_scale = (grid.nodes_line - 1) / line_spans
        ridge = np.stack(
            [np.log(values["saturation_pressure"]), np.log(values["isochore_pressure"])]
        )
        slopes = line_slopes(ridge)
        self._ridge = np.stack([ridge.ravel(), slopes.ravel()])
        self._ln_ends = np.log([grid.highest, grid.lowest])
        # order of the 16 numbers of a cell: slope in u or not, slope in v or not, side in u, side
        # in v; `_nodes` keeps the first two together
        self._corners = np.array([0, 1, grid.nodes_v, grid.nodes_v + 1])[:, None]

    def evaluate(self, T: FloatArray, P: FloatArray, names: tuple[str, ...]) -> list[FloatArray]:
        """Properties at states inside the grid.

        Parameters
        ----------
        T, P : numpy.ndarray
            Temperatures [K] and pressures [Pa], one-dimensional, of equal length, inside the
            grid (not checked here).
        names : tuple of str
            Members of ``SURFACES``.

        Returns
        -------
        list of numpy.ndarray
            One array per name, SI units.
        """
        if T.size == 1:
            # Sums over one column are made in another order: a state is the same in any company.
            return [pair[:1] for pair in self.evaluate(T.repeat(2), P.repeat(2), names)]
        grid = self.grid
        offset = T - grid.critical_temperature
        hot = (offset > 0.0).astype(np.intp)
        distance = np.abs(offset)
        ln_ridge = self._ln_ridge(distance, hot)
        above = np.log(P) - ln_ridge
        light = (above < 0.0).astype(np.intp)
        share = above / (self._ln_ends[light] - ln_ridge)
        i, du = cell(np.cbrt(distance) * self._u_scale[hot], grid.nodes_u)
        j, dv = cell(np.sqrt(np.sqrt(share)) * (grid.nodes_v - 1), grid.nodes_v)
        first = ((2 * hot + light) * grid.nodes_u + i) * grid.nodes_v + j
        along_u = hermite_weights(du).reshape(2, 2, -1).swapaxes(0, 1)[:, None, :, None]
        along_v = hermite_weights(dv).reshape(2, 2, -1).swapaxes(0, 1)[None, :, None, :]
        weights = (along_u * along_v).reshape(16, -1)
        corners = first + self._corners
        found = []
        for name in names:
            # One property at a time and in place: larger temporary arrays cost more than the
            # arithmetic, since they are fetched from the system each time.
            data = self._nodes(name).take(corners, axis=1).reshape(16, -1)
            data *= weights
            values = data.sum(axis=0)
            found.append(values if name in LINEAR else np.exp(values))
        return found

    def isotherms(self, T: FloatArray, names: tuple[str, ...]) -> SurfaceIsotherms:
        """The surfaces at a few temperatures [K], for many pressures at each.

        What is left of the bicubic pieces at one temperature are cubic ones: the same values as
        by `evaluate` within rounding, for a quarter of the numbers to fetch.
        """
        grid = self.grid
        offset = T - grid.critical_temperature
        hot = (offset > 0.0).astype(np.intp)
        distance = np.abs(offset)
        ln_ridge = self._ln_ridge(distance, hot)
        i, du = cell(np.cbrt(distance) * self._u_scale[hot], grid.nodes_u)
        left, left_slope, right, right_slope = hermite_weights(du)[:, :, None, None]
        lines = []
        for name in names:
            shape = (4, 2, 2, grid.nodes_u, grid.nodes_v)
            value, along_v, along_u, twist = self._nodes(name).reshape(shape)
            lines.append(
                [
                    (
                        left * known[hot, :, i]
                        + left_slope * rising[hot, :, i]
                        + right * known[hot, :, i + 1]
                        + right_slope * rising[hot, :, i + 1]
                    ).ravel()
                    for known, rising in ((value, along_u), (along_v, twist))
                ]
            )
        return SurfaceIsotherms(
            names=names,
            ln_ridge=ln_ridge,
            # twice: dense and light of each temperature
            width=(self._ln_ends - ln_ridge[:, None]).ravel(),
            lines=lines,
            nodes_v=grid.nodes_v,
        )

    def ridge_pressure(self, T: FloatArray) -> FloatArray:
        """Saturation pressure below, critical-isochore pressure [Pa] above Tc, at `T` [K]."""
        offset = T - self.grid.critical_temperature
        hot = (offset > 0.0).astype(np.intp)
        return np.asarray(np.exp(self._ln_ridge(np.abs(offset), hot)))

    def line(self, T: FloatArray, name: str) -> FloatArray:
        """Property along the saturation line [SI units].

        Parameters
        ----------
        T : numpy.ndarray
            Temperatures [K], one-dimensional, from the triple to the critical point (not checked).
        name : str
            Member of ``LINES``.
        """
        below = np.maximum(self.grid.critical_temperature - T, 0.0)
        return self._along_line(np.sqrt(below) * self._line_scale[0], name)

    def saturation_temperature(self, P: FloatArray) -> FloatArray:
        """Temperature [K] at which `P` [Pa] is the saturation pressure; ends beyond the line."""
        last = self.grid.nodes_line - 1
        values, slopes = line = self._ridge[:, : last + 1]
        target = np.clip(np.log(P), values[-1], values[0])
        # pressure falls along the line, so its negative is the rising key to search
        k = np.clip(np.searchsorted(-values, -target) - 1, 0, last - 1)
        rise, start, end = values[k + 1] - values[k], slopes[k], slopes[k + 1]
        t = (target - values[k]) / rise
        for _ in range(5):
            bend, twist = 6.0 * rise - 4.0 * start - 2.0 * end, start + end - 2.0 * rise
            slope = start + t * bend + 3.0 * t * t * twist
            # the line starts flat in u at the critical point
            step = (cubic_along(line, k, t) - target) / np.minimum(slope, 1e-3 * rise)
            t = np.clip(t - step, 0.0, 1.0)
        root = (k + t) / self._line_scale[0]
        return np.asarray(self.grid.critical_temperature - root**2)

    def pressure_along(self, T: FloatArray, share: FloatArray, light: bool) -> FloatArray:
        """Pressure [Pa] at `share` = v (0 ridge, 1 end) of the dense or light side at `T` [K]."""
        ridge = self.ridge_pressure(T)
        end = self.grid.lowest if light else self.grid.highest
        return np.asarray(ridge * np.exp(np.log(end / ridge) * share**ROOT_V))

    def sublimation_line(self, T: FloatArray, name: str) -> FloatArray:
        """Property of the vapour over solid CO2 [SI units].

        Parameters
        ----------
        T : numpy.ndarray
            Temperatures [K], one-dimensional, between the ends of the line (not checked).
        name : str
            Member of ``SUBLIMATION_LINES``.
        """
        start, end = self.grid.coldest_solid, self.grid.triple_temperature
        share = np.clip((T - start) / (end - start), 0.0, 1.0)
        return self._along_line(share * (self.grid.nodes_sublimation - 1), name)

    def _along_line(self, x: FloatArray, name: str) -> FloatArray:
        if name not in self._lines:
            values = np.asarray(self._values[name], dtype=float)
            values = values if name in LINEAR else np.log(values)
            slopes = line_slopes(values)
            self._lines[name] = np.stack([values, slopes])
        nodes = self._lines[name]
        found = cubic_along(nodes, *cell(x, nodes.shape[1]))
        return found if name in LINEAR else np.asarray(np.exp(found))

    def _ln_ridge(self, distance: FloatArray, hot: npt.NDArray[np.intp]) -> FloatArray:
        k, d = cell(np.sqrt(distance) * self._line_scale[hot], self.grid.nodes_line)
        return cubic_along(self._ridge, hot * self.grid.nodes_line + k, d)

    def _nodes(self, name: str) -> FloatArray:
        """Hermite data, shape (4, nodes): value, slope in v, slope in u, twist."""
        if name not in self._packed:
            slope_u = spline_slopes(self.grid.nodes_u)
            slope_v = spline_slopes(self.grid.nodes_v).T
            values = np.asarray(self._values[name], dtype=float)
            values = values if name in LINEAR else np.log(values)
            along_v, along_u = values @ slope_v, slope_u @ values
            twist = along_u @ slope_v
            data = np.stack([values, along_v, along_u, twist]).reshape(4, -1)
            self._packed[name] = np.ascontiguousarray(data)
        return self._packed[name]


@dataclass(frozen=True)
class SurfaceIsotherms:
    """Properties along lines of constant temperature; see `PropertySurfaces.isotherms`."""

    names: tuple[str, ...]
    ln_ridge: FloatArray
    width: FloatArray
    lines: list[list[FloatArray]]
    nodes_v: int

    def evaluate(self, which: npt.NDArray[np.intp], P: FloatArray) -> list[FloatArray]:
        """Properties [SI units] at pressures `P` [Pa], each at the temperature of a number.

        Parameters
        ----------
        which, P : numpy.ndarray
            One-dimensional, of equal length; pressures inside the grid (not checked here).
        """
        above = np.log(P) - self.ln_ridge.take(which)
        patch = 2 * which + (above < 0.0)
        share = above / self.width.take(patch)
        j, t = cell(np.sqrt(np.sqrt(share)) * (self.nodes_v - 1), self.nodes_v)
        j += patch * self.nodes_v
        found = []
        for name, (values, slopes) in zip(self.names, self.lines, strict=True):
            along = cubic_along((values, slopes), j, t)
            found.append(along if name in LINEAR else np.exp(along, out=along))
        return found


def read_record() -> dict[str, Any]:
    """The record shipped beside the surfaces: generator, library version, grid, hash."""
    record: dict[str, Any] = json.loads((_DATA_FOLDER / RECORD_FILE).read_text("utf-8"))
    return record


@functools.cache
def load_surfaces() -> PropertySurfaces:
    """The shipped surfaces, read once per process."""
    raw = (_DATA_FOLDER / DATA_FILE).read_bytes()
    return PropertySurfaces(
        SurfaceGrid(**read_record()["grid"]), np.load(io.BytesIO(raw), allow_pickle=False)
    )
