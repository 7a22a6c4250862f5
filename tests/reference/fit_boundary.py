"""Fit the phase boundary of one modifier to measured bubble points, and validate by left-out sources.

python -m tests.reference.fit_boundary methanol            fits, prints parameters and residuals
python -m tests.reference.fit_boundary methanol --leave    leaves out one source after another

Least squares of the pressures with a soft loss of 2 bar; a critical locus counts where one is
known; a penalty keeps the liquid stable at 0 to 60 C up to 700 bar. A modifier with one source is
left out by isotherm. Minutes of one core; needs scipy.
"""

from __future__ import annotations

import argparse
from dataclasses import dataclass, field, replace

import numpy as np
from scipy.optimize import least_squares

from methodlint.fluids.mixtures.boundary_tracing import PhaseEnvelope, trace
from methodlint.fluids.mixtures.interaction_parameters import CARBON_DIOXIDE, PAIRS, BoundaryFit
from tests.reference.bubble_points import BubblePoint, bubble_points

# Temperature [K], critical pressure and its weight [bar]. Ethanol: Gil et al. 2012 (second-hand);
# methanol: Brunner 1985, Brunner et al. 1987; 2-propanol: Bamberger & Maurer 2000 (from memory).
CREST = {
    "methanol": ((313.15, 82.0, 2.0), (333.15, 107.0, 3.0), (353.15, 130.0, 5.0), (373.15, 150.0, 5.0)),
    "ethanol": ((319.07, 86.05, 1.0), (326.9, 98.17, 1.0), (336.96, 110.88, 1.0), (348.47, 124.29, 1.0)),
    "2-propanol": ((333.15, 105.0, 2.0),),
    "acetonitrile": (),
}  # fmt: skip
FREE = dict.fromkeys(PAIRS, ("k12", "k12_rise", "slope", "slope_rise", "l12"))
FREE["acetonitrile"] = ("k12", "k12_rise", "slope")  # nineteen points bear no more
LOSS = 2.0
LEAST_STABILITY = 0.03


def envelopes(name: str, fit: BoundaryFit, kelvin: list[float]) -> dict[float, PhaseEnvelope]:
    """Isotherms; one that stops near the critical point is traced again in smaller steps."""
    found: dict[float, PhaseEnvelope] = {}
    for T in sorted(set(kelvin)):
        at = np.array([T])
        for points in (60, 160, 320, 700):
            try:
                above = T > CARBON_DIOXIDE.temperature
                found[T] = trace(PAIRS[name].cubic, at, fit.at(at), above, points)[0]
                break
            except ArithmeticError:
                continue
        else:
            raise ArithmeticError(f"no envelope at {T} K")
    return found


@dataclass(frozen=True)
class Problem:
    """One fit: the points, and their bubble points by Newton steps from traced isotherms."""

    name: str
    points: tuple[BubblePoint, ...]
    start: BoundaryFit
    unknowns: np.ndarray = field(init=False)

    def __post_init__(self) -> None:
        """Trace the isotherms of the start and read ln K and ln P at each point."""
        traced = envelopes(self.name, self.start, [point.kelvin for point in self.points])
        columns = []
        for point in self.points:
            e = traced[point.kelvin]
            x2, liquid = 1.0 - point.x_co2, e.liquid[::-1]
            rows = ((1.0 - e.vapour) / (1.0 - e.liquid), e.vapour / e.liquid, e.pressure)
            columns.append([np.interp(x2, liquid, np.log(row[::-1])) for row in rows])
        object.__setattr__(self, "unknowns", np.array(columns).T)

    def pressures(self, fit: BoundaryFit) -> np.ndarray:
        """Bubble pressures [bar]; a point that does not converge keeps that of the start."""
        T = np.array([point.kelvin for point in self.points])
        x1 = np.array([point.x_co2 for point in self.points])
        cubic, interaction, u = PAIRS[self.name].cubic, fit.at(T), self.unknowns.copy()

        def residual(u: np.ndarray) -> np.ndarray:
            P, y1, y2 = np.exp(u[2]), np.exp(u[0]) * x1, np.exp(u[1]) * (1.0 - x1)
            liquid = cubic.log_fugacity_coefficients(1.0 - x1, T, P, interaction, liquid=True)
            vapour = cubic.log_fugacity_coefficients(
                y2 / (y1 + y2), T, P, interaction, liquid=False
            )
            return np.array(
                [u[0] + vapour[0] - liquid[0], u[1] + vapour[1] - liquid[1], y1 + y2 - 1]
            )

        for _ in range(12):
            base, jacobian = residual(u), np.empty((T.size, 3, 3))
            for j in range(3):
                up, down = u.copy(), u.copy()
                up[j] += 1e-6
                down[j] -= 1e-6
                jacobian[:, :, j] = ((residual(up) - residual(down)) / 2e-6).T
            bad = ~np.isfinite(jacobian).all((1, 2)) | ~np.isfinite(base).all(0)
            jacobian[bad], base[:, bad] = np.eye(3), 0.0
            move = -np.linalg.solve(jacobian + 1e-12 * np.eye(3), base.T[:, :, None])[:, :, 0].T
            largest = np.abs(move).max(0)
            u += move * np.minimum(1.0, 0.3 / np.maximum(largest, 1e-300))
        found = (np.abs(residual(u)).max(0) < 1e-6) & ~bad & (np.abs(u[0] - u[1]) > 1e-3)
        return np.exp(np.where(found, u[2], self.unknowns[2])) / 1e5


def least_stability(name: str, fit: BoundaryFit) -> float:
    """Smallest d(ln f2)/d(ln x2) of the liquid at 0 to 60 C: negative inside a false spinodal."""
    x2, T, bar = np.meshgrid(
        np.linspace(0.02, 0.98, 49),
        np.arange(273.15, 334.0, 10.0),
        np.array([65.0, 80.0, 100.0, 150.0, 250.0, 400.0, 700.0]),
        indexing="ij",
    )
    cubic = PAIRS[name].cubic
    stability = cubic.diffusion_stability(x2, T, bar * 1e5, fit.at(T), liquid=True)
    return float(stability[(T <= 300.0) | (bar >= 120.0)].min())


def crests(name: str, fit: BoundaryFit) -> np.ndarray:
    """Highest pressures of the isotherms of the known critical locus [bar]."""
    at = [kelvin for kelvin, *_ in CREST[name]]
    traced = envelopes(name, fit, at)
    return np.array([traced[kelvin].pressure.max() / 1e5 for kelvin in at])


def fitted(
    name: str, points: tuple[BubblePoint, ...], start: BoundaryFit, rounds: int
) -> BoundaryFit:
    """Parameters after some rounds, each from isotherms traced anew."""
    for _ in range(rounds):
        start = _round(Problem(name, points, start))
    return start


def _round(problem: Problem) -> BoundaryFit:
    name, start, free = problem.name, problem.start, FREE[problem.name]
    measured = np.array([point.bar for point in problem.points])
    aim = np.array([[bar, weight] for _, bar, weight in CREST[name]]).reshape(-1, 2)
    v0, here = np.array([getattr(start, key) for key in free]), crests(name, start)
    slopes = [
        (crests(name, replace(start, **{key: value + 2e-3})) - here) / 2e-3
        for key, value in zip(free, v0, strict=True)
    ]

    def moved(v: np.ndarray) -> BoundaryFit:
        return replace(start, **dict(zip(free, v.tolist(), strict=True)))

    def cost(v: np.ndarray) -> np.ndarray:
        r = (problem.pressures(moved(v)) - measured) / LOSS
        soft = np.sign(r) * np.sqrt(2.0 * (np.sqrt(1.0 + r * r) - 1.0))
        penalty = 300.0 * max(LEAST_STABILITY - least_stability(name, moved(v)), 0.0)
        locus = (here + np.array(slopes).T @ (v - v0) - aim[:, 0]) / aim[:, 1]
        return np.concatenate([soft, [penalty], locus])

    found = least_squares(cost, v0, x_scale=np.full(v0.size, 0.02), diff_step=1e-4, max_nfev=25)
    return moved(found.x)


def main() -> None:
    """Command line."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("modifier", choices=sorted(PAIRS))
    parser.add_argument("--leave", action="store_true", help="leave out one source after another")
    chosen = parser.parse_args()
    name, shipped = chosen.modifier, PAIRS[chosen.modifier].boundary
    excluded = {doi for doi, _ in shipped.excluded}
    points = tuple(point for point in bubble_points(name) if point.doi not in excluded)
    one_source = len({point.doi for point in points}) < 3
    groups = {point: f"{point.kelvin} K" if one_source else point.doi for point in points}
    fit = fitted(name, points, shipped, 2)
    print(fit)
    for group in sorted(set(groups.values())):
        left = tuple(point for point in points if groups[point] == group)
        used = fit
        if chosen.leave:
            used = fitted(name, tuple(p for p in points if groups[p] != group), fit, 1)
        off = Problem(name, left, used).pressures(used) - np.array([point.bar for point in left])
        print(
            f"{group}: {off.size} points, mean {off.mean():+.1f} bar, {off.min():+.1f} to {off.max():+.1f}"
        )


if __name__ == "__main__":
    main()
