"""Interaction parameters of the cubic for carbon dioxide with each modifier, and where they come
from.

Each set holds only with the critical constants beside it and with the original alpha function of
Peng & Robinson (1976). There are two sets per pair, because one cubic cannot serve both well:

* the phase boundary: k12 linear in temperature and in composition, and l12, fitted to measured
  bubble pressures (`tests/reference/co2_modifier_bubble_points.csv`, the ThermoML archive) by
  `tests.reference.fit_boundary`, under the condition that no second liquid appears between 0 and
  60 C up to 700 bar (none has been reported for these pairs);
* the volume of the mixture (`mixture_volume`): k12 against temperature alone.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from methodlint.fluids.peng_robinson_1976 import BinaryCubic, CriticalConstants, Interaction

CARBON_DIOXIDE = CriticalConstants(304.1282, 7.3773e6, 0.22394)


REFERENCE_TEMPERATURE = 313.15
TEMPERATURE_STEP = 20.0


@dataclass(frozen=True)
class BoundaryFit:
    """Parameters of the phase boundary of one pair.

    Attributes
    ----------
    k12, k12_rise : float
        At 40 C, and what it rises by in 20 K [-].
    slope, slope_rise : float
        Part of k12 in proportion to x1 - x2 at 40 C, and what it rises by in 20 K [-].
    l12 : float
        Of the covolume [-].
    excluded : tuple of (str, str)
        DOI of each source left out of the fit, and why.

    """

    k12: float
    k12_rise: float
    slope: float
    slope_rise: float
    l12: float
    excluded: tuple[tuple[str, str], ...] = ()

    def at(self, T: ArrayLike) -> Interaction:
        """Parameters at T [K]."""
        steps = (np.asarray(T, dtype=float) - REFERENCE_TEMPERATURE) / TEMPERATURE_STEP
        return Interaction(
            self.k12 + self.k12_rise * steps, self.slope + self.slope_rise * steps, self.l12
        )


@dataclass(frozen=True)
class PairParameters:
    """One pair: constants of the modifier, k12 against temperature, sources.

    Attributes
    ----------
    name : str
        Name of the modifier as in the table of liquids.
    molar_mass : float
        Of the modifier [kg/mol].
    critical : CriticalConstants
        Of the modifier.
    boundary : BoundaryFit
        Of the phase boundary.
    knots : tuple of (float, float)
        Of the volume: temperature [K] and k12 [-]; straight lines between, constant outside.
    sources : tuple of str
        What the knots rest on.
    excess_volume : float
        Coefficient of x1 x2 added to the molar volume [m3/mol]; see `mixture_volume`.

    """

    name: str
    molar_mass: float
    critical: CriticalConstants
    boundary: BoundaryFit
    knots: tuple[tuple[float, float], ...]
    sources: tuple[str, ...]
    excess_volume: float = 0.0

    def k12(self, T: ArrayLike) -> NDArray[np.float64]:
        """Interaction parameter of the volume [-] at T [K]."""
        temperatures, values = zip(*self.knots, strict=True)
        return np.asarray(np.interp(np.asarray(T, dtype=float), temperatures, values))

    @property
    def cubic(self) -> BinaryCubic:
        """The equation of state of the pair."""
        return BinaryCubic(CARBON_DIOXIDE, self.critical)


PAIRS: dict[str, PairParameters] = {
    pair.name: pair
    for pair in (
        PairParameters(
            name="methanol",
            molar_mass=0.0320419,
            critical=CriticalConstants(512.5, 8.084e6, 0.5625),
            boundary=BoundaryFit(
                0.21480,
                0.00516,
                -0.08976,
                -0.00546,
                0.16986,
                excluded=(
                    (
                        "10.1016/j.fluid.2009.12.030",
                        "6 to 11 bar above every other source below x(CO2) 0.5 at 40 and 57 C",
                    ),
                ),
            ),
            knots=((313.15, 0.0583), (353.15, 0.0450)),
            sources=(
                "0.0583 to 40 C: DECHEMA VLE data collection, Peng-Robinson k12, page p623",
                (
                    "0.0450 from 80 C: set to the critical pressures of Brunner 1985, Brunner et al. 1987 and "
                    "Yeo et al. 2000 (130 bar at 80 C, 150 bar at 100 C; rounded) (unverified)"
                ),
                "critical constants: Gude & Teja 1995 (IUPAC); acentric factor of the reference equation",
            ),
            excess_volume=4.0e-6,
        ),
        PairParameters(
            name="ethanol",
            molar_mass=0.0460684,
            critical=CriticalConstants(514.0, 6.137e6, 0.644),
            boundary=BoundaryFit(
                0.08277,
                0.00668,
                -0.00290,
                -0.00387,
                -0.01571,
                excluded=(
                    (
                        "10.1021/je2008186",
                        "up to 15 bar below five other sources at 60 to 100 C, to the unsafe side",
                    ),
                ),
            ),
            knots=(
                (278.15, 0.0800),
                (303.15, 0.0880),
                (313.15, 0.0905),
                (333.15, 0.0820),
                (373.15, 0.0500),
            ),
            sources=(
                (
                    "0.0905 at 40 C: fitted to the bubble pressures at 313.14 K of Galicia-Luna, "
                    "Ortega-Rodriguez & Richon 2000, J. Chem. Eng. Data 45, 265, as far as the bubble line stays "
                    "monotonic (mean deviation 3.7 %; 0.0926 gives 2.6 % and a false second liquid)"
                ),
                "below 31 C: the largest values, with a margin, that leave one liquid phase",
                (
                    "0.0820 at 60 C and the fall to 100 C: set to the critical pressures of Galicia-Luna 2000, "
                    "Yeo 2000, Joung 2001 (106 bar at 60 C, 143 bar at 100 C; rounded) (unverified)"
                ),
                "critical constants: Gude & Teja 1995 (IUPAC)",
            ),
        ),
        PairParameters(
            name="2-propanol",
            molar_mass=0.0600950,
            critical=CriticalConstants(508.3, 4.764e6, 0.665),
            boundary=BoundaryFit(0.0707, 0.0029, 0.0078, -0.0045, -0.0597),
            knots=((313.15, 0.1000),),
            sources=(
                (
                    "0.1000: set to the critical pressure at 60 C of Bamberger & Maurer 2000 (105 bar; rounded) "
                    "(unverified); published values run from 0.09 to 0.12 (unverified)"
                ),
                "critical constants: Gude & Teja 1995 (IUPAC)",
            ),
        ),
        PairParameters(
            name="acetonitrile",
            molar_mass=0.0410519,
            critical=CriticalConstants(545.5, 4.85e6, 0.33),
            boundary=BoundaryFit(0.06834, 0.00125, 0.01396, 0.0, 0.0),
            knots=((313.15, 0.0700),),
            sources=(
                (
                    "0.0700: assumed, middle of published values 0.05 to 0.09 (unverified); no isotherm was at "
                    "hand. The crest hardly depends on it: 0 moves it by 1 bar at 40 C and 1.4 bar at 60 C; "
                    "bubble pressures of modifier-rich mixtures would fall by up to 15 bar"
                ),
                "critical constants: open data of the chemicals library",
            ),
        ),
    )
}
