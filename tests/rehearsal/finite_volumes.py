"""A flow train in finite volumes, written as a check on the rehearsal and independent of it.

Every cell keeps the mass of both components; pressures follow implicitly from the mass that enters
and leaves. Nothing is looked up by a delay: fronts move, mix in the stirred tank, compress and
expand as their balances say. Only the properties of the fluid and the geometry are the product's.

Laws, textbook (Bird, Stewart and Lightfoot 2007): Darcy and Ergun in beds, Hagen and Poiseuille
or Blasius in tubes, the higher of both in the transition. Fronts: van Leer's limiter (1974).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from scipy.linalg import solve_banded

from methodlint.rehearsal.run.rehearsal import Rehearsal

_LIMITED = 0.45
"""Of a cell's mass that may pass it in one step."""
_LONGEST = 0.25  # s


@dataclass
class Cells:
    """The train cut up, flow order; arrays (N,)."""

    volume: np.ndarray
    temperature: np.ndarray
    viscous: np.ndarray
    inertial: np.ndarray
    tube_bore: np.ndarray
    tube_length: np.ndarray
    stirred: np.ndarray
    column_ends: int


@dataclass
class History:
    """What came out: time [s], pump pressure [Pa], mass fraction at the column outlet."""

    time: np.ndarray
    pump_pressure: np.ndarray
    outlet_fraction: np.ndarray


def cells_of(run: Rehearsal, in_column: int) -> Cells:
    """Cut the segments of a rehearsal's train into cells of about one size."""
    train = run.train
    size = train.segments[train.columns[-1]].volume / in_column
    rows: list[tuple[float, ...]] = []
    ends = 0
    for number, segment in enumerate(train.segments):
        if segment.volume <= 0.0:
            continue
        stirred = segment.kind == "mixer"
        count = 1 if stirred else max(1, round(segment.volume / size))
        area = np.pi / 4.0 * segment.bore**2
        viscous = inertial = bore = length = 0.0
        if segment.is_bed:
            eps, dp = segment.external_porosity, segment.particle_size
            viscous = segment.flow_resistance * segment.length / (dp**2 * area)
            inertial = 1.75 * (1.0 - eps) / eps**3 * segment.length / (dp * area**2)
        elif segment.is_tube:
            bore, length = segment.bore, segment.length / count
        kelvin = float(run.temperature[0, run.slices_of(number).start])
        one = segment.volume / count, kelvin, viscous / count, inertial / count, bore, length
        rows += [(*one, float(stirred))] * count
        if number == train.columns[-1]:
            ends = len(rows)
    table = np.array(rows).T
    return Cells(*table[:6], stirred=table[6] > 0.0, column_ends=ends)


def simulate(
    run: Rehearsal,
    settings: Callable[[float], tuple[float, float, float]],
    ends: float,
    in_column: int = 100,
) -> History:
    """Let a run happen.

    Parameters
    ----------
    run
        Gives geometry, temperatures and fluid.
    settings
        Modifier share v/v, flow [m3/s] and outlet pressure [Pa] at a time [s].
    ends
        [s].
    in_column
        Cells of the column.
    """
    cells, fluid, head = cells_of(run, in_column), run.fluid, run.plan.head_temperature
    liquid = float(fluid.modifier_density(293.15, 101325.0))
    plain = ~cells.stirred & ~np.roll(cells.stirred, 1)

    def pumped(time: float, pressure: float) -> tuple[float, float]:
        share, flow, _ = settings(time)
        co2 = flow * (1.0 - share) * float(fluid.density(0.0, head, pressure))
        return co2, flow * share * liquid

    def balance(
        w: np.ndarray,
        before: np.ndarray,
        start: np.ndarray,
        through: np.ndarray,
        dt: float,
        at: float,
    ) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        """Pressure, mass and flow through the faces [kg/s], (N + 1,), after a step."""
        pressure, outlet = start, settings(at)[2]
        last = np.zeros(w.size)
        for turn in range(60):
            rho, eta = fluid.density_and_viscosity(w, cells.temperature, pressure)
            softer = fluid.density(w, cells.temperature, pressure + 1e4)
            storage = cells.volume * (softer - rho) / 1e4 / dt
            flow = 0.5 * (through[1:] + through[:-1])
            half = 0.5 * np.maximum(_loss(cells, rho, eta, flow) / flow, 1e5)
            faces = np.append(half[1:] + half[:-1], half[-1])
            if turn > 5:  # a cell at Re 2100 would change its law in turn
                faces = last + (faces - last) / (turn - 4)
            last, conducts = faces, 1.0 / faces
            feed = sum(pumped(at, pressure[0]))
            right = storage * pressure - (rho * cells.volume - before) / dt
            right[0] += feed
            right[-1] += conducts[-1] * outlet
            middle = storage + conducts
            middle[1:] += conducts[:-1]
            bands = np.zeros((3, w.size))
            bands[0, 1:], bands[1], bands[2, :-1] = -conducts[:-1], middle, -conducts[:-1]
            new = solve_banded((1, 1), bands, right)
            through = np.concatenate([[feed], conducts * (new - np.append(new[1:], outlet))])
            moved = float(np.max(np.abs(new - pressure)))
            pressure = new
            if moved < 200.0:
                break
        else:
            raise AssertionError(f"the pressures do not come to rest at {at} s")
        mass = before + dt * (through[:-1] - through[1:])
        return pressure, mass, through

    outlet = settings(0.0)[2]
    start = np.full(cells.volume.size, outlet + 50e5)
    co2, modifier = pumped(0.0, start[0])
    w = np.full(cells.volume.size, 0.0)
    pressure = start
    through = np.full(w.size + 1, co2 + modifier)
    for _ in range(20):  # nothing is stored in a very long step
        co2, modifier = pumped(0.0, float(pressure[0]))
        w[:] = modifier / (co2 + modifier)
        stored = cells.volume * fluid.density(w, cells.temperature, pressure)
        pressure, mass, through = balance(w, stored, pressure, through, 1e12, 0.0)
    mass = cells.volume * fluid.density(w, cells.temperature, pressure)
    time = 0.0
    told = [(time, float(pressure[0]), float(w[cells.column_ends - 1]))]
    moving = ~cells.stirred
    while time < ends - 1e-9:
        fastest = float(np.max(through[1:][moving] / mass[moving]))
        dt = min(_LIMITED / fastest, _LONGEST, ends - time)
        time += dt
        courant = through[1:] * dt / mass
        co2, modifier = pumped(time - 0.5 * dt, float(pressure[0]))
        enters = modifier / (co2 + modifier)
        leaving = w + _slope(enters, w, courant) * plain
        moves = through * np.append(enters, leaving)
        modifier_mass = w * mass + dt * (moves[:-1] - moves[1:])
        total = mass + dt * (through[:-1] - through[1:])
        w = np.clip(modifier_mass / total, 0.0, 1.0)
        pressure, mass, through = balance(w, mass, pressure, through, dt, time)
        told.append((time, float(pressure[0]), float(w[cells.column_ends - 1])))
    return History(*np.array(told).T)


def _slope(enters: float, w: np.ndarray, courant: np.ndarray) -> np.ndarray:
    """What van Leer's limiter adds to the upstream value at the outlet of each cell."""
    ahead, behind = np.diff(w, append=w[-1]), np.diff(w, prepend=enters)
    both = ahead * behind
    safe = np.where(both > 0.0, ahead + behind, 1.0)
    return np.where(both > 0.0, (1.0 - courant) * both / safe, 0.0)


def _loss(cells: Cells, rho: np.ndarray, eta: np.ndarray, flow: np.ndarray) -> np.ndarray:
    """Pressure lost in every cell [Pa] at a mass flow [kg/s]."""
    bed = flow / rho * (cells.viscous * eta + cells.inertial * flow)
    bore = np.where(cells.tube_bore > 0.0, cells.tube_bore, 1.0)
    area = np.pi / 4.0 * bore**2
    reynolds = flow * bore / (area * eta)
    laminar = 32.0 * eta * cells.tube_length * flow / (rho * area * bore**2)
    friction = 0.3164 * np.maximum(reynolds, 1.0) ** -0.25
    rough = friction * cells.tube_length / bore * flow**2 / (2.0 * rho * area**2)
    high = np.where(reynolds > 4000.0, rough, np.maximum(laminar, rough))
    turbulent = np.clip((reynolds - 2090.0) / 20.0, 0.0, 1.0)
    return bed + laminar + turbulent * (high - laminar)
