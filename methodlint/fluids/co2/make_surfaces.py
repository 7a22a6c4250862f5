"""Generate the shipped property surfaces of CO2 from CoolProp, or check them against it.

``python -m methodlint.fluids.co2.make_surfaces`` writes the data file and its record;
with ``--check`` it regenerates them in memory, compares and writes nothing.
"""

from __future__ import annotations

import argparse
import dataclasses
import hashlib
import io
import json
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Final

import numpy as np
import numpy.typing as npt

from methodlint.fluids.co2.sublimation_span_wagner_1996 import sublimation_pressure
from methodlint.fluids.co2.surface_grid import (
    DATA_FILE,
    LINES,
    RECORD_FILE,
    SUBLIMATION_LINES,
    SURFACES,
    SurfaceGrid,
)
from methodlint.fluids.co2.surfaces import read_record

__all__ = ["compare", "generate", "library_version", "main", "shipped_grid"]

FloatArray = npt.NDArray[np.float64]

#: Relative difference that a regenerated node may show before the check fails.  Round-off of the
#: library's own solvers is 1e-8 away from the critical point; another release of it may differ.
TOLERANCE: Final = 1e-5

#: Properties that are infinite at the critical point.
UNBOUNDED: Final = ("heat_capacity", "compressibility", "expansivity")

_DATA_FOLDER = Path(__file__).parent.parent / "data"


def shipped_grid() -> SurfaceGrid:
    """The grid of the shipped surfaces, a little wider than what is promised of them."""
    return SurfaceGrid(
        critical_temperature=304.1282,
        coldest=233.0,
        hottest=374.0,
        triple_temperature=216.592,
        coldest_solid=170.0,
        lowest=0.49e5,
        highest=702e5,
        nodes_u=52,
        nodes_v=64,
        nodes_line=240,
        nodes_sublimation=40,
    )


def library_version() -> str:
    """Version of the property library that generates the surfaces."""
    from CoolProp import __version__

    return str(__version__)


class _Library:
    """CO2 states of CoolProp by temperature [K] and pressure [Pa], as tuples of properties."""

    def __init__(self) -> None:
        from CoolProp import CoolProp

        self._library = CoolProp
        self._state = CoolProp.AbstractState("HEOS", "CO2")
        self.critical_density = float(self._state.rhomass_critical())
        self.pressure_at_density(self._state.T_critical(), self.critical_density)
        self.critical_enthalpy = float(self._state.hmass())

    def single_phase(self, T: float, P: float, light: bool) -> tuple[float, ...]:
        # naming the phase keeps the solver on its side of the saturation line
        named = self._library.iphase_gas if light else self._library.iphase_liquid
        below = self._state.T_critical() > T and self._state.p_critical() > P
        if below:
            self._state.specify_phase(named)
        self._state.update(self._library.PT_INPUTS, P, T)
        found = self._read()
        self._state.unspecify_phase()
        return found

    def saturated(self, T: float, light: bool) -> tuple[float, ...]:
        self._state.update(self._library.QT_INPUTS, float(light), T)
        return self._read()

    def saturation_pressure(self, T: float) -> float:
        self._state.update(self._library.QT_INPUTS, 0.0, T)
        return float(self._state.p())

    def pressure_at_density(self, T: float, density: float) -> float:
        self._state.update(self._library.DmassT_INPUTS, density, T)
        return float(self._state.p())

    def gas_below_triple(self, T: float, P: float) -> tuple[float, float, float]:
        self._state.specify_phase(self._library.iphase_gas)
        self._state.update(self._library.PT_INPUTS, P, T)
        found = (self._state.rhomass(), self._state.hmass(), self._state.cpmass())
        self._state.unspecify_phase()
        return found

    def _read(self) -> tuple[float, ...]:
        s = self._state
        return (
            s.rhomass(),
            s.viscosity(),
            s.hmass(),
            s.cpmass(),
            s.isothermal_compressibility(),
            s.isobaric_expansion_coefficient(),
        )


def generate(grid: SurfaceGrid) -> dict[str, FloatArray]:
    """Nodes of all surfaces and lines, computed with CoolProp.

    Returns
    -------
    dict of str to numpy.ndarray
        As `methodlint.fluids.co2.surfaces.PropertySurfaces` takes them, SI units.
    """
    library = _Library()
    values = _lines(grid, library)
    surfaces = np.empty((len(SURFACES), 2, 2, grid.nodes_u, grid.nodes_v))
    for hot in (0, 1):
        for i, T in enumerate(grid.patch_temperatures(bool(hot))):
            if hot or i == 0:
                ridge = library.pressure_at_density(T, library.critical_density)
            else:
                ridge = library.saturation_pressure(T)
            for light in (0, 1):
                pressures = grid.patch_pressures(ridge, bool(light))
                for j, P in enumerate(pressures):
                    on_line = not hot and i > 0 and j == 0
                    surfaces[:, hot, light, i, j] = (
                        library.saturated(T, bool(light))
                        if on_line
                        else library.single_phase(T, P, bool(light))
                    )
    found = values | dict(zip(SURFACES, surfaces, strict=True))
    found["density"][:, :, 0, 0] = library.critical_density
    found["enthalpy"][:, :, 0, 0] = library.critical_enthalpy
    for name in UNBOUNDED:
        found[name][:, :, 0, 0] = np.nan
        _mend(found[name])
    return found


def _mend(values: FloatArray) -> None:
    """Replace what is not positive by the geometric mean of its valid neighbours.

    Within 0.005 K of the critical point, where these properties grow without bound, the second
    derivatives of the equation of state lose all their digits.
    """
    valid = np.isfinite(values) & (values > 0.0)
    logarithms = np.log(np.where(valid, values, 1.0))
    for hot, light, i, j in np.argwhere(~valid).tolist():
        rows, columns = slice(max(i - 1, 0), i + 2), slice(max(j - 1, 0), j + 2)
        trusted = valid[hot, light, rows, columns]
        neighbours = logarithms[hot, light, rows, columns][trusted]
        values[hot, light, i, j] = np.exp(np.mean(neighbours))


def _lines(grid: SurfaceGrid, library: _Library) -> dict[str, FloatArray]:
    line = np.empty((len(LINES), grid.nodes_line))
    for i, T in enumerate(grid.line_temperatures(hot=False)):
        if i == 0:
            P = library.pressure_at_density(T, library.critical_density)
            rho, h = library.critical_density, library.critical_enthalpy
            # the heat capacity is infinite here and read at the cold end only
            cp = library.single_phase(T, P * (1.0 - 1e-6), True)[3]
            line[:, i] = (P, rho, rho, h, h, cp)
            continue
        liquid, vapour = library.saturated(T, False), library.saturated(T, True)
        P = library.saturation_pressure(T)
        line[:, i] = (P, liquid[0], vapour[0], liquid[2], vapour[2], vapour[3])
    isochore = [
        library.pressure_at_density(T, library.critical_density)
        for T in grid.line_temperatures(hot=True)
    ]
    solid = [
        library.gas_below_triple(T, float(sublimation_pressure(T)))
        for T in grid.sublimation_temperatures()
    ]
    return (
        dict(zip(LINES, line, strict=True))
        | dict(zip(SUBLIMATION_LINES, np.array(solid).T, strict=True))
        | {"isochore_pressure": np.array(isochore)}
    )


def compare(
    grid: SurfaceGrid, new: Mapping[str, FloatArray], shipped: Mapping[str, FloatArray]
) -> dict[str, float]:
    """Largest relative difference of each array; infinite where one is missing or misshapen.

    Differences within 0.05 K of the critical temperature, where the library's solvers amplify
    round-off, count a thousandth; those of properties without bound there do not count.
    """
    distance = np.stack(
        [np.abs(grid.patch_temperatures(hot) - grid.critical_temperature) for hot in (False, True)]
    )
    near = (distance < 0.05)[:, np.newaxis, :, np.newaxis]
    worst = {}
    for name in sorted(new.keys() | shipped.keys()):
        if name not in new or name not in shipped or new[name].shape != shipped[name].shape:
            worst[name] = float("inf")
            continue
        difference = np.abs(new[name] / shipped[name] - 1.0)
        if name in SURFACES:
            difference = difference * np.where(near, 0.0 if name in UNBOUNDED else 1e-3, 1.0)
        worst[name] = float(np.max(difference))
    return worst


def _write(grid: SurfaceGrid, values: Mapping[str, FloatArray]) -> None:
    buffer = io.BytesIO()
    np.savez(buffer, **values)  # type: ignore[arg-type]
    _DATA_FOLDER.mkdir(exist_ok=True)
    (_DATA_FOLDER / DATA_FILE).write_bytes(buffer.getvalue())
    record: dict[str, Any] = {
        "content": "property surfaces of carbon dioxide, SI units",
        "library": "CoolProp",
        "library_version": library_version(),
        "equations": {
            "density, enthalpy, heat capacity": "Span & Wagner 1996",
            "viscosity": "Laesecke & Muzny 2017",
        },
        "data_file": DATA_FILE,
        "sha256": hashlib.sha256(buffer.getvalue()).hexdigest(),
        "grid": dataclasses.asdict(grid),
    }
    text = json.dumps(record, indent=2) + "\n"
    (_DATA_FOLDER / RECORD_FILE).write_text(text, encoding="utf-8", newline="\n")


def _check() -> int:
    record = read_record()
    raw = (_DATA_FOLDER / DATA_FILE).read_bytes()
    failed = False
    if hashlib.sha256(raw).hexdigest() != record["sha256"]:
        print(f"{DATA_FILE} is not the file that {RECORD_FILE} describes", file=sys.stderr)
        failed = True
    if record["grid"] != dataclasses.asdict(shipped_grid()):
        print("the shipped grid is not the one the generator would write", file=sys.stderr)
        failed = True
    print(f"shipped: CoolProp {record['library_version']}; installed: {library_version()}")
    with np.load(io.BytesIO(raw), allow_pickle=False) as shipped:
        grid = SurfaceGrid(**record["grid"])
        differences = compare(grid, generate(grid), dict(shipped))
    for name, worst in differences.items():
        within = worst <= TOLERANCE
        failed = failed or not within
        print(f"{name:28s} {worst:9.1e}  {'agrees' if within else 'DIFFERS'}")
    return int(failed)


def main(arguments: list[str] | None = None) -> int:
    """Write the surfaces, or check them; returns the exit status."""
    parser = argparse.ArgumentParser(
        prog="python -m methodlint.fluids.co2.make_surfaces",
        description="Generate the shipped property surfaces of CO2 with CoolProp.",
    )
    parser.add_argument(
        "--check", action="store_true", help="regenerate in memory and compare; write nothing"
    )
    if parser.parse_args(arguments).check:
        return _check()
    grid = shipped_grid()
    _write(grid, generate(grid))
    return 0


if __name__ == "__main__":
    sys.exit(main())
