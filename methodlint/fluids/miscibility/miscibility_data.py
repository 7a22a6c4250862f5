"""Critical solution temperatures and mutual solubilities of pairs of liquids.

Every entry carries its own mark. "measured" means that the value was read in a publication, an evaluated
collection or a copy of one (second-hand); "unverified" means that the page was not before us.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

__all__ = ["CHART", "PAIRS", "Gap", "Pair", "Sureness"]

Sureness = Literal["measured", "unverified", "estimated", "unknown"]

_SDS = "IUPAC-NIST Solubility Data Series"
_SDS_COPY = f"{_SDS} (second-hand)"
_DICTIONARY = "Illustrated Pocket Dictionary of Chromatography, 20 C"
_TABLES = "tables of solvents for liquid chromatography, 20 C (unverified)"
CHART = "miscibility charts of liquid chromatography (unverified)"
_LITERATURE = "literature on liquid-liquid equilibria (unverified)"


@dataclass(frozen=True)
class Gap:
    """Compositions of the two liquids that stand together at one temperature.

    Parameters
    ----------
    temperature : float
        [K].
    lean, rich : float
        Fraction of the pair's first liquid in the layer poor in it and in the layer rich in it.
    basis : {"mole", "mass"}
        What the two fractions are of.
    critical : float or None
        Fraction of the first liquid at the critical point, same basis.
    band : float
        Relative error of the smaller fraction in either layer.
    how_sure, source : str
        Mark and origin of the two fractions.
    """

    temperature: float
    lean: float
    rich: float
    basis: Literal["mole", "mass"]
    critical: float | None
    band: float
    how_sure: Sureness
    source: str


@dataclass(frozen=True)
class Pair:
    """What is known of two liquids.

    Parameters
    ----------
    first, second : str
        Names of the liquids.
    upper : float or None
        Upper critical solution temperature [K]: one phase above it.
    loop : tuple of float or None
        Lower and upper end [K] of a closed gap: one phase outside.
    mixes : bool or None
        For pairs without a critical temperature in reach: True if they mix at every lab temperature.
    band_K : float
        Uncertainty of the temperatures [K].
    how_sure, source : str
        Mark and origin.
    gap : Gap or None
        Compositions of the layers, where known.
    """

    first: str
    second: str
    upper: float | None = None
    loop: tuple[float, float] | None = None
    mixes: bool | None = None
    band_K: float = 0.0
    how_sure: Sureness = "unverified"
    source: str = _LITERATURE
    gap: Gap | None = None


def _water(
    name: str,
    in_water: float,
    water_in: float,
    how_sure: Sureness = "unverified",
    source: str = _TABLES,
    temperature: float = 293.15,
) -> Pair:
    """Pair of water and a liquid, solubilities as mass fractions."""
    gap = Gap(
        temperature,
        lean=water_in,
        rich=1.0 - in_water,
        basis="mass",
        critical=None,
        band=0.15 if how_sure == "measured" else 0.3,
        how_sure=how_sure,
        source=source,
    )
    return Pair("water", name, mixes=False, how_sure=how_sure, source=source, gap=gap)


def _alkane_gap(
    temperature: float,
    lean: float,
    rich: float,
    critical: float,
    band: float = 0.3,
    source: str = _LITERATURE,
) -> Gap:
    return Gap(
        temperature,
        lean,
        rich,
        "mole",
        critical,
        band=band,
        how_sure="unverified" if source is _LITERATURE else "measured",
        source=source,
    )


_PAIRS = (
    Pair("methanol", "n-pentane", upper=287.5, band_K=1.5),
    Pair(
        "methanol",
        "n-hexane",
        upper=307.5,
        band_K=1.0,
        how_sure="measured",
        source=(
            f"306.8 K recommended ({_SDS_COPY}), 308.3 K Trejo et al. 2006, "
            "J. Chem. Eng. Data 51, 1070 (second-hand)"
        ),
        gap=_alkane_gap(293.15, 0.210, 0.822, 0.56, 0.15, _SDS_COPY),
    ),
    Pair("methanol", "n-heptane", upper=324.3, band_K=1.5, gap=_alkane_gap(293.15, 0.13, 0.915, 0.61)),
    Pair("methanol", "isooctane", upper=315.5, band_K=2.0),
    Pair("methanol", "cyclohexane", upper=318.7, band_K=1.0, gap=_alkane_gap(298.15, 0.125, 0.828, 0.50)),
    Pair(
        "acetonitrile",
        "n-pentane",
        upper=341.3,
        band_K=0.5,
        how_sure="measured",
        source=f"{_SDS} 78, system 78_47, recommended 341.3 +- 0.1 K",
    ),
    Pair(
        "acetonitrile",
        "n-hexane",
        upper=350.2,
        band_K=1.0,
        how_sure="measured",
        source=f"{_SDS_COPY}: 350.2 K at 0.583 mole fraction acetonitrile",
        gap=_alkane_gap(298.15, 0.06, 0.93, 0.583, 0.3, _SDS_COPY),
    ),
    Pair("acetonitrile", "n-heptane", upper=358.0, band_K=2.0, gap=_alkane_gap(298.15, 0.055, 0.965, 0.63)),
    Pair("acetonitrile", "isooctane", upper=354.0, band_K=3.0),
    Pair("acetonitrile", "cyclohexane", upper=350.0, band_K=3.0, gap=_alkane_gap(298.15, 0.055, 0.925, 0.50)),
    Pair(
        "acetonitrile",
        "water",
        upper=271.0,
        band_K=1.0,
        how_sure="measured",
        source="Che et al. 1996, Huaxue Xuebao 54, 859: 271.0 K at 0.35 mole fraction acetonitrile",
    ),
    Pair("ethanol", "n-hexane", upper=207.0, band_K=10.0),
    Pair("ethanol", "n-heptane", upper=215.0, band_K=10.0),
    Pair("N,N-dimethylformamide", "n-hexane", upper=337.0, band_K=5.0),
    Pair("N,N-dimethylformamide", "n-heptane", upper=342.0, band_K=5.0),
    Pair("N,N-dimethylformamide", "isooctane", upper=342.0, band_K=8.0),
    Pair("N,N-dimethylformamide", "cyclohexane", upper=320.0, band_K=5.0),
    *(
        Pair("dimethyl sulfoxide", alkane, mixes=False, source=CHART)
        for alkane in ("n-pentane", "n-hexane", "n-heptane", "isooctane", "cyclohexane")
    ),
    *(
        Pair("formic acid", alkane, mixes=False, source=CHART)
        for alkane in ("n-pentane", "n-hexane", "n-heptane", "isooctane", "cyclohexane")
    ),
    Pair("dimethyl sulfoxide", "diethyl ether", mixes=False, source=CHART),
    Pair(
        "water",
        "tetrahydrofuran",
        loop=(345.0, 410.3),
        band_K=1.0,
        how_sure="measured",
        source=f"Matous et al. 1972, Collect. Czech. Chem. Commun. 37, 2653 ({_SDS_COPY})",
    ),
    _water("ethyl acetate", 0.087, 0.033, "measured", _DICTIONARY),
    _water("diethyl ether", 0.069, 0.013, "measured", _DICTIONARY),
    _water("methyl tert-butyl ether", 0.048, 0.015),
    _water("diisopropyl ether", 0.012, 0.006),
    _water("2-methyltetrahydrofuran", 0.14, 0.044),
    _water("dichloromethane", 0.016, 0.0024),
    _water("chloroform", 0.008, 0.0007),
    _water("toluene", 0.0005, 0.0005),
    _water("n-hexane", 0.00001, 0.0001),
    *(
        Pair("water", alkane, mixes=False, source="general chemistry (unverified)")
        for alkane in ("n-pentane", "n-heptane", "isooctane", "cyclohexane")
    ),
    # mole fractions 0.0191 and 0.488 of 1-butanol at 25 C, as mass fractions
    _water("1-butanol", 0.0742, 0.2033, "measured", f"{_SDS_COPY}, 25 C", 298.15),
)  # fmt: skip

#: Pairs looked up by the set of their two names.
PAIRS: Mapping[frozenset[str], Pair] = {frozenset((p.first, p.second)): p for p in _PAIRS}
