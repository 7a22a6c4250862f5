"""Volume and viscosity of carbon dioxide + modifier from CO2 at equal reduced density.

Rule (ours; in the family of density-dependent volume translations, e.g. G. F. Chou & J. M.
Prausnitz, AIChE J. 35 (1989) 1487; P. M. Mathias, T. Naheiri & E. M. Oh, Fluid Phase Equilib. 47
(1989) 77): the cubic gives the volume V of the mixture and with it the reduced density b/V. The
factor that corrects the cubic's volume of *pure* carbon dioxide to the reference equation is read
at the pressure P* at which pure carbon dioxide has that same reduced density, not at the pressure
of the mixture::

    V_mix = V [1 + x1 (f(T, P*) - 1)] + x2 (V2 - V2,cubic) + x1 x2 v12
    ln eta_mix = x1 ln eta_CO2(T, P*) + x2 ln eta_2(T, P) + x1 x2 G12

Both pure ends are exact. Why not read carbon dioxide at the pressure of the mixture: near its
critical point carbon dioxide expands and thins enormously while the mixture stays a liquid, so a
volume or a viscosity taken there describes neither.

Figures for density, relative to PC-SAFT (Gross & Sadowski 2001, 2002), 25-60 C, 100-300 bar, 1-95
mol % modifier, at least 40 bar above our boundary and above that of PC-SAFT (which lies up to 50
bar too high): root mean square (largest) deviation.

=================================  ==============  ==============  ==============
rule                               methanol        ethanol         2-propanol
=================================  ==============  ==============  ==============
ideal volumes                      4.7 % (-11 %)   4.2 % (-12 %)   4.0 % (-11 %)
ideal + 0.6 x excess of the cubic  2.2 % (+5 %)    1.0 % (+2 %)    0.9 % (+2 %)
ideal + excess of the cubic        6.6 % (+16 %)   4.1 % (+10 %)   3.0 % (+7 %)
this rule, v12 = 0                 2.5 % (+4.4 %)  0.7 % (+2.3 %)  1.3 % (-2.9 %)
this rule                          1.6 % (+3.7 %)  as above        as above
=================================  ==============  ==============  ==============

Damping by 0.6 does as well far from the boundary, but 15-30 bar above it it is still 5-13 % low
and at the boundary it fails, since it starts from a volume of gaseous carbon dioxide; this rule
needs no number for it. For methanol alone v12 is set (4 cm3/mol), because the cubic's covolume of
methanol is a quarter too large. Published models at 40 C, 150 bar, 80 mol % CO2 give 845-852
(PC-SAFT), 869 (PCP-SAFT, Esper et al. 2023), 892 (cubic) and 901 kg/m3 (linear multi-fluid); v12
takes this rule from 879 to 867. About 2 % of each deviation is PC-SAFT's own error for pure
carbon dioxide. The excess volume is negative at 80-300 bar; above 500 bar and below 20 C it may
reach +0.8 cm3/mol. No oracle was at hand for acetonitrile: its band is 1 % wider.

Measured check of the density, not fitted to (but for k12, from a bubble pressure of the same
paper): CO2 + tetrahydrofuran, 16.6 mol % CO2, 60 C, 102 bar (Sato et al. 2010) has 852.6 kg/m3;
this rule gives 852.2, ideal volumes are 16 % low.

Viscosity: G12 (Grunberg & Nissan, Nature 164, 1949, 799) is fitted to the two viscosities of the
same paper, 0.318 and 0.300 mPa s at 11.9 and 16.6 mol % CO2, and taken for every modifier: no
other measured viscosity of CO2 with an organic liquid was at hand. Without it the rule is 4.5 and
6.5 % high there, plain logarithmic mixing at the pressure of the mixture 17 and 22 % low.
Published calculations for CO2 + methanol at 40 C lie to both sides: entropy scaling
(Loetgering-Lin & Gross 2018) on average 8 % above, at most 22 %; cubic-root mixing (Kendall &
Monroe 1917) of the pure viscosities at 200 bar up to about 25 % below.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from methodlint.fluids.co2 import states as co2_states
from methodlint.fluids.co2.constants import CRITICAL_TEMPERATURE, MOLAR_MASS
from methodlint.fluids.co2.saturation import saturation_pressure
from methodlint.fluids.mixtures.interaction_parameters import CARBON_DIOXIDE
from methodlint.fluids.mixtures.modifier_liquid import (
    LiquidIsotherms,
    ModifierLiquid,
    root_attraction,
)
from methodlint.fluids.peng_robinson_1976 import GAS_CONSTANT, compressibility_roots

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]

# Pure carbon dioxide is known to 700 bar; denser mixtures continue its trends from just below.
_DENSEST_PRESSURE = 695e5
_THINNEST_PRESSURE = 0.6e5
# Slope of f with reduced density at 695 bar (0.19-0.38 between 0 and 100 C) and how fast it fades.
_FACTOR_RISE, _FACTOR_FADE = 0.024, 11.0
# Half the slope of ln eta of CO2 at 695 bar (3.1-4.7): agrees with entropy scaling to 70 mol %
# methanol.
_LOG_VISCOSITY_SLOPE = 2.0

# Fitted to Sato et al. 2010, see above.
_GRUNBERG_NISSAN = -0.44

# Square of the reduced density at which half the modifier counts as liquid for viscosity; a
# liquid has 0.35-0.9, a gas at 20 bar 0.02.
_THIN_DENSITY_SQUARED = 0.01


@dataclass(frozen=True, slots=True)
class TemperatureTerms:
    """What the rule needs to know of temperatures; arrays of one shape.

    Attributes
    ----------
    T, RT : ndarray
        [K], [J/mol].
    root_first, root_second : ndarray
        Square roots of the attraction of carbon dioxide and of the modifier.
    k12 : ndarray
        Interaction parameter [-].
    densest : ndarray
        Reduced density of carbon dioxide at 695 bar [-].
    saturation : ndarray
        Saturation pressure of carbon dioxide [Pa]; that at the ends of the line beyond them.
    """

    T: Array
    RT: Array
    root_first: Array
    root_second: Array
    k12: Array
    densest: Array
    saturation: Array

    def take(self, which: NDArray[np.intp]) -> TemperatureTerms:
        """Those of some of the temperatures, in any order."""
        return TemperatureTerms(
            self.T.take(which),
            self.RT.take(which),
            self.root_first.take(which),
            self.root_second.take(which),
            self.k12.take(which),
            self.densest.take(which),
            self.saturation.take(which),
        )


@dataclass(frozen=True, slots=True)
class Temperatures:
    """Temperatures of many states of which few differ.

    Attributes
    ----------
    which : ndarray of int, (N,)
        Number of the temperature of each state.
    terms : TemperatureTerms
        Of every state.
    carbon_dioxide : co2_states.Isotherms
        At the few temperatures.
    modifier : LiquidIsotherms
        The same.
    """

    which: NDArray[np.intp]
    terms: TemperatureTerms
    carbon_dioxide: co2_states.CarbonDioxideIsotherms
    modifier: LiquidIsotherms


@dataclass(frozen=True)
class MixtureVolume:
    """The rule above for one modifier.

    Attributes
    ----------
    modifier : ModifierLiquid
        The liquid or blend.

    """

    modifier: ModifierLiquid

    @cached_property
    def _densest(self) -> tuple[Array, Array]:
        T = np.linspace(233.15, 373.15, 141)
        p, q = root_attraction(None)
        RT = GAS_CONSTANT * T
        A = (p + q * np.sqrt(T)) ** 2 * _DENSEST_PRESSURE / RT**2
        B = CARBON_DIOXIDE.covolume * _DENSEST_PRESSURE / RT
        return T, B / compressibility_roots(A, B)[0]

    @cached_property
    def _saturation(self) -> tuple[Array, Array]:
        T = np.append(np.arange(233.15, CRITICAL_TEMPERATURE - 0.01, 0.2), CRITICAL_TEMPERATURE)
        return T, np.asarray(saturation_pressure(T), dtype=float)

    @cached_property
    def _nodes_k12(self) -> tuple[Array, Array]:
        T = np.linspace(263.15, 383.15, 241)
        return T, self.modifier.k12(T)

    def terms(self, T: Array) -> TemperatureTerms:
        """What the rule needs to know of temperatures [K]."""
        root_T = np.sqrt(T)
        p, q = root_attraction(None)
        r1 = p + q * root_T
        p, q = self.modifier.root_attraction
        return TemperatureTerms(
            T=T,
            RT=GAS_CONSTANT * T,
            root_first=r1,
            root_second=p + q * root_T,
            k12=np.interp(T, *self._nodes_k12),
            densest=np.interp(T, *self._densest),
            saturation=np.interp(T, *self._saturation),
        )

    def equivalent_state(
        self, x2: Array, T: Array | TemperatureTerms, P: Array, dense: Mask
    ) -> tuple[Array, Array, Array]:
        """The state of pure carbon dioxide at the reduced density of the mixture.

        Parameters
        ----------
        x2 : ndarray
            Mole fraction of the modifier [-].
        T, P : ndarray
            Temperature [K], or what `terms` says of it, and pressure [Pa], of the same shape as
            `x2`.
        dense : ndarray of bool
            Which root of the cubic to take where there are three.

        Returns
        -------
        V : ndarray
            Molar volume of the mixture by the cubic [m3/mol].
        P_star : ndarray
            Pressure of carbon dioxide [Pa].
        excess_density : ndarray
            Reduced density beyond that of carbon dioxide at 695 bar [-], else 0.

        """
        at = T if isinstance(T, TemperatureTerms) else self.terms(T)
        b1, b2 = CARBON_DIOXIDE.covolume, self.modifier.covolume
        r1 = at.root_first
        r2 = x2 * at.root_second
        x1 = 1.0 - x2
        x1r1 = x1 * r1
        a = (x1r1 + r2) ** 2 - 2.0 * at.k12 * x1r1 * r2
        b = x1 * b1 + x2 * b2
        RT = at.RT
        P_RT = P / RT
        B = b * P_RT
        Z = _root(a * P_RT / RT, B, dense)
        V = Z / P_RT
        delta = b / V
        excess = np.maximum(delta - at.densest, 0.0)
        delta = delta - excess
        V1 = b1 / delta
        P_star = RT / (V1 - b1) - r1 * r1 / (V1 * (V1 + 2.0 * b1) - b1 * b1)
        P_star = np.minimum(np.maximum(P_star, _THINNEST_PRESSURE), 700e5)
        cold = at.T < CRITICAL_TEMPERATURE
        if cold.any():
            # On its own carbon dioxide would change phase between P and P*: stay on the mixture's
            # side.
            saturation = at.saturation
            held = np.where(
                dense,
                np.maximum(P_star, saturation * (1.0 + 2e-5)),
                np.minimum(P_star, saturation * (1.0 - 2e-5)),
            )
            P_star = np.where(cold, held, P_star)
        return V, P_star, excess

    def density_and_viscosity(
        self, x2: Array, T: Array | Temperatures, P: Array, dense: Mask
    ) -> tuple[Array, Array]:
        """Density [kg/m3] and viscosity [Pa s]; arguments as for `equivalent_state`."""
        at = T.terms if isinstance(T, Temperatures) else self.terms(T)
        V, P_star, excess = self.equivalent_state(x2, at, P, dense)
        if isinstance(T, Temperatures):
            rho1, eta1 = T.carbon_dioxide.density_and_viscosity(T.which, P_star)
            translation, log_eta2 = T.modifier.translation_and_log_viscosity(T.which, P)
        else:
            rho1, eta1 = co2_states.density_and_viscosity(T, P_star)
            translation, log_eta2 = self.modifier.translation_and_log_viscosity(T, P)
        rho, reduced = self._density(x2, V, P_star, excess, rho1, translation)
        log_eta = np.log(eta1)
        if excess.any():
            log_eta = log_eta + _LOG_VISCOSITY_SLOPE * excess
        # In a thin gas the modifier is a vapour too and thickens it no more than carbon dioxide
        # does.
        thinness = _THIN_DENSITY_SQUARED / (reduced * reduced)
        share = x2 / (1.0 + thinness * thinness)
        mixing = share * (log_eta2 - log_eta + (1.0 - share) * _GRUNBERG_NISSAN)
        return rho, np.exp(log_eta + mixing)

    def density(self, x2: Array, T: Array, P: Array, dense: Mask) -> Array:
        """Density alone [kg/m3]; arguments as for `equivalent_state`."""
        V, P_star, excess = self.equivalent_state(x2, T, P, dense)
        rho1 = co2_states.density(T, P_star)
        return self._density(x2, V, P_star, excess, rho1, self.modifier.translation(T, P))[0]

    def _density(
        self, x2: Array, V: Array, P_star: Array, excess: Array, rho1: Array, translation: Array
    ) -> tuple[Array, Array]:
        """Density of the mixture [kg/m3], and its reduced density without the excess [-]."""
        b1, b2 = CARBON_DIOXIDE.covolume, self.modifier.covolume
        x1 = 1.0 - x2
        reduced = (x1 * b1 + x2 * b2) / V - excess
        factor = MOLAR_MASS / rho1 * reduced / b1
        if excess.any():
            factor = factor + _FACTOR_RISE * (1.0 - np.exp(-_FACTOR_FADE * excess))
        thin = P_star <= _THINNEST_PRESSURE
        if thin.any():
            factor = np.where(thin, 1.0, factor)
        volume = (
            V * (1.0 + x1 * (factor - 1.0))
            + x2 * translation
            + (x1 * x2) * self.modifier.excess_volume
        )
        return (x1 * MOLAR_MASS + x2 * self.modifier.molar_mass) / volume, reduced


def _root(A: Array, B: Array, dense: Mask) -> Array:
    """Compressibility factor: of three real roots the liquid where `dense`, else the vapour."""
    smallest, largest, three = compressibility_roots(A, B)
    if dense.all() or not three.any():
        return smallest
    return np.where(dense, smallest, largest)
