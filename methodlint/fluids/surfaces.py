"""Shipped property surfaces of pure CO2 and their evaluation with numpy alone.

A surface is four patches, {colder, warmer than critical} x {dense, light}.  They meet at the
*ridge*: the saturation line below the critical temperature and the critical isochore above it.
Each patch is a tensor grid, uniform in

    u = |T - Tc|^(1/2)    and    v = y^(1/3),    y = ln(P/Pridge(T)) / ln(Pend/Pridge(T)),

with `Pend` the highest pressure of the surface on the dense side and the lowest on the light side.
The two roots undo the shapes that properties take at the critical point, where a grid in T and P
fails.  Between nodes the surface is a bicubic spline through ln(property), or through the
property itself for enthalpy, kept as Hermite data so that one gather serves one point.

`make_surfaces` writes the files; nothing here imports CoolProp.
"""

from __future__ import annotations

import functools
import importlib.resources
import io
import json
from dataclasses import dataclass
from typing import Any, Final

import numpy as np
import numpy.typing as npt

__all__ = [
    "DATA_FILE",
    "LINEAR",
    "LINES",
    "RECORD_FILE",
    "SUBLIMATION_LINES",
    "SURFACES",
    "Grid",
    "PropertySurfaces",
    "load_surfaces",
    "read_record",
    "spline_slopes",
]

FloatArray = npt.NDArray[np.float64]

DATA_FILE: Final = "co2_surfaces.npz"
RECORD_FILE: Final = "co2_surfaces.json"

#: Surfaces over (T, P), in SI units.
SURFACES: Final = (
    "density",
    "viscosity",
    "enthalpy",
    "heat_capacity",
    "compressibility",
    "expansivity",
)
#: Properties along the saturation line from the critical to the triple point.
LINES: Final = (
    "saturation_pressure",
    "liquid_density",
    "vapour_density",
    "liquid_enthalpy",
    "vapour_enthalpy",
    "vapour_heat_capacity",
)
#: Properties of the vapour over solid CO2, up to the triple point.
SUBLIMATION_LINES: Final = (
    "sublimation_vapour_density",
    "sublimation_vapour_enthalpy",
    "sublimation_vapour_heat_capacity",
)
#: Interpolated as they are; the rest as their logarithm.
LINEAR: Final = frozenset(
    {"enthalpy", "liquid_enthalpy", "vapour_enthalpy", "sublimation_vapour_enthalpy"}
)


@dataclass(frozen=True)
class Grid:
    """Where the nodes of the surfaces and lines lie.

    Parameters
    ----------
    critical_temperature, coldest, hottest, triple_temperature, coldest_solid : float
        Temperatures [K].
    lowest, highest : float
        Pressures [Pa].
    nodes_u, nodes_v : int
        Nodes of a patch along temperature and along pressure.
    nodes_line : int
        Nodes of the saturation line, and of the critical isochore.
    nodes_sublimation : int
        Nodes of the sublimation line, evenly spaced from `coldest_solid` to the triple point.
    """

    critical_temperature: float
    coldest: float
    hottest: float
    triple_temperature: float
    coldest_solid: float
    lowest: float
    highest: float
    nodes_u: int
    nodes_v: int
    nodes_line: int
    nodes_sublimation: int

    def patch_temperatures(self, hot: bool) -> FloatArray:
        """Node temperatures [K] of the colder or the warmer patches, from critical outwards."""
        end = self.hottest if hot else self.coldest
        return self._from_critical(end, self.nodes_u)

    def line_temperatures(self, hot: bool) -> FloatArray:
        """Node temperatures [K] of the critical isochore (`hot`) or the saturation line."""
        end = self.hottest if hot else self.triple_temperature
        return self._from_critical(end, self.nodes_line)

    def sublimation_temperatures(self) -> FloatArray:
        """Node temperatures [K] of the sublimation line, rising."""
        return np.linspace(self.coldest_solid, self.triple_temperature, self.nodes_sublimation)

    def patch_pressures(self, ridge: float, light: bool) -> FloatArray:
        """Node pressures [Pa] at one temperature, from the ridge pressure [Pa] outwards."""
        end = np.log((self.lowest if light else self.highest) / ridge)
        return np.asarray(ridge * np.exp(end * np.linspace(0.0, 1.0, self.nodes_v) ** 3))

    def _from_critical(self, end: float, count: int) -> FloatArray:
        span = end - self.critical_temperature
        return np.asarray(self.critical_temperature + span * np.linspace(0.0, 1.0, count) ** 2)


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

    def __init__(self, grid: Grid, values: Any) -> None:
        self.grid = grid
        self._values = values
        self._packed: dict[tuple[str, ...], FloatArray] = {}
        self._lines: dict[str, FloatArray] = {}
        tc = grid.critical_temperature
        spans = np.sqrt([tc - grid.coldest, grid.hottest - tc])
        self._u_scale = (grid.nodes_u - 1) / spans
        line_spans = np.sqrt([tc - grid.triple_temperature, grid.hottest - tc])
        self._line_scale = (grid.nodes_line - 1) / line_spans
        ridge = np.stack(
            [np.log(values["saturation_pressure"]), np.log(values["isochore_pressure"])]
        )
        slopes = ridge @ spline_slopes(grid.nodes_line).T
        self._ridge = np.stack([ridge, slopes], axis=-1).reshape(-1, 2)
        self._ln_ends = np.log([grid.highest, grid.lowest])
        # order of the 16 numbers of a cell: side in u, side in v, slope in u or not, slope in v
        # or not; `_nodes` keeps the last two together
        self._corners = np.array([0, 1, grid.nodes_v, grid.nodes_v + 1])

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
        grid = self.grid
        offset = T - grid.critical_temperature
        hot = (offset > 0.0).astype(np.intp)
        root = np.sqrt(np.abs(offset))
        ln_ridge = self._ln_ridge(root, hot)
        above = np.log(P) - ln_ridge
        light = (above < 0.0).astype(np.intp)
        share = above / (self._ln_ends[light] - ln_ridge)
        i, du = _cell(root * self._u_scale[hot], grid.nodes_u)
        j, dv = _cell(np.cbrt(share) * (grid.nodes_v - 1), grid.nodes_v)
        first = ((2 * hot + light) * grid.nodes_u + i) * grid.nodes_v + j
        along_u = _hermite(du).reshape(-1, 2, 1, 2, 1)
        along_v = _hermite(dv).reshape(-1, 1, 2, 1, 2)
        weights = (along_u * along_v).reshape(-1, 1, 16)
        nodes = self._nodes(names)
        data = nodes[first[:, None] + self._corners].reshape(-1, 16, len(names))
        found = np.matmul(weights, data)[:, 0, :]
        return [
            found[:, k] if name in LINEAR else np.exp(found[:, k]) for k, name in enumerate(names)
        ]

    def ridge_pressure(self, T: FloatArray) -> FloatArray:
        """Saturation pressure below, critical-isochore pressure [Pa] above Tc, at `T` [K]."""
        offset = T - self.grid.critical_temperature
        hot = (offset > 0.0).astype(np.intp)
        return np.asarray(np.exp(self._ln_ridge(np.sqrt(np.abs(offset)), hot)))

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
        line = self._ridge[: last + 1]
        target = np.clip(np.log(P), line[-1, 0], line[0, 0])
        # pressure falls along the line, so its negative is the rising key to search
        k = np.clip(np.searchsorted(-line[:, 0], -target) - 1, 0, last - 1)
        t = (target - line[k, 0]) / (line[k + 1, 0] - line[k, 0])
        for _ in range(5):
            rise = line[k + 1, 0] - line[k, 0]
            slope = (
                line[k, 1]
                + t * (6.0 * rise - 4.0 * line[k, 1] - 2.0 * line[k + 1, 1])
                + 3.0 * t * t * (line[k, 1] + line[k + 1, 1] - 2.0 * rise)
            )
            # the line starts flat in u at the critical point
            t = np.clip(t - (_along(line, k, t) - target) / np.minimum(slope, 1e-3 * rise), 0, 1)
        return np.asarray(self.grid.critical_temperature - ((k + t) / self._line_scale[0]) ** 2)

    def pressure_along(self, T: FloatArray, share: FloatArray, light: bool) -> FloatArray:
        """Pressure [Pa] at `share` = v (0 ridge, 1 end) of the dense or light side at `T` [K]."""
        ridge = self.ridge_pressure(T)
        end = self.grid.lowest if light else self.grid.highest
        return np.asarray(ridge * np.exp(np.log(end / ridge) * share**3))

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
            slopes = spline_slopes(values.size) @ values
            self._lines[name] = np.stack([values, slopes], axis=-1)
        nodes = self._lines[name]
        found = _along(nodes, *_cell(x, len(nodes)))
        return found if name in LINEAR else np.asarray(np.exp(found))

    def _ln_ridge(self, root: FloatArray, hot: npt.NDArray[np.intp]) -> FloatArray:
        k, d = _cell(root * self._line_scale[hot], self.grid.nodes_line)
        return _along(self._ridge, hot * self.grid.nodes_line + k, d)

    def _nodes(self, names: tuple[str, ...]) -> FloatArray:
        """Hermite data, shape (nodes, 4, names): value, slope in v, slope in u, twist."""
        if names not in self._packed:
            slope_u = spline_slopes(self.grid.nodes_u)
            slope_v = spline_slopes(self.grid.nodes_v).T
            columns = []
            for name in names:
                values = np.asarray(self._values[name], dtype=float)
                values = values if name in LINEAR else np.log(values)
                along_v, along_u = values @ slope_v, slope_u @ values
                twist = along_u @ slope_v
                columns.append(np.stack([values, along_v, along_u, twist], axis=-1).reshape(-1, 4))
            self._packed[names] = np.ascontiguousarray(np.stack(columns, axis=-1))
        return self._packed[names]


def _cell(x: FloatArray, count: int) -> tuple[npt.NDArray[np.intp], FloatArray]:
    """Index of the cell that holds grid coordinate `x`, and the place inside it, 0 to 1."""
    k = np.minimum(x.astype(np.intp), count - 2)
    return k, x - k


def _hermite(t: FloatArray) -> FloatArray:
    """Weights, shape (points, 4): value and slope at the left, value and slope at the right."""
    weights = np.empty((t.size, 4))
    square = t * t
    cube = square * t
    right = 3.0 * square - 2.0 * cube
    weights[:, 0] = 1.0 - right
    weights[:, 1] = t - 2.0 * square + cube
    weights[:, 2] = right
    weights[:, 3] = cube - square
    return weights


def _along(nodes: FloatArray, k: npt.NDArray[np.intp], t: FloatArray) -> FloatArray:
    """Cubic along a line whose `nodes` are (count, 2): value and slope."""
    left, right = nodes[k], nodes[k + 1]
    rise = right[:, 0] - left[:, 0]
    bend = left[:, 1] - rise
    twist = left[:, 1] + right[:, 1] - 2.0 * rise
    return np.asarray(left[:, 0] + t * (rise + (1.0 - t) * (bend - t * twist)))


@functools.lru_cache(maxsize=8)
def spline_slopes(count: int) -> FloatArray:
    """Matrix that turns values at `count` unit-spaced nodes into the slopes of their cubic spline.

    The spline is the not-a-knot one: its first two and last two pieces are one cubic each.

    Raises
    ------
    ValueError
        If `count` is below 4.
    """
    if count < 4:
        raise ValueError(f"a not-a-knot spline needs 4 nodes, not {count}")
    left, right = np.zeros((count, count)), np.zeros((count, count))
    inner = np.arange(1, count - 1)
    left[inner, inner - 1], left[inner, inner], left[inner, inner + 1] = 1.0, 4.0, 1.0
    right[inner, inner - 1], right[inner, inner + 1] = -3.0, 3.0
    left[0, :2], right[0, :3] = (1.0, 2.0), (-2.5, 2.0, 0.5)
    left[-1, -2:], right[-1, -3:] = (2.0, 1.0), (-0.5, -2.0, 2.5)
    return np.asarray(np.linalg.solve(left, right))


def read_record() -> dict[str, Any]:
    """The record shipped beside the surfaces: generator, library version, grid, hash."""
    text = importlib.resources.files(__package__).joinpath("data", RECORD_FILE).read_text("utf-8")
    record: dict[str, Any] = json.loads(text)
    return record


@functools.cache
def load_surfaces() -> PropertySurfaces:
    """The shipped surfaces, read once per process."""
    raw = importlib.resources.files(__package__).joinpath("data", DATA_FILE).read_bytes()
    return PropertySurfaces(
        Grid(**read_record()["grid"]), np.load(io.BytesIO(raw), allow_pickle=False)
    )
