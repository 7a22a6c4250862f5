"""What is kept about one liquid, and the names of the sources the tables are taken from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from methodlint.fluids.liquids.liquid_correlation import TemperatureCorrelation

__all__ = ["LiquidRecord", "joules_per_kilogram"]

#: Where the numbers come from; "from memory" means that the page was not before us.
CRC = (
    "CRC Handbook of Chemistry and Physics, physical constants of organic compounds "
    "(open data of the chemicals library)"
)
CRC_HEAT = (
    "CRC Handbook of Chemistry and Physics, enthalpy of vaporization at 25 C "
    "(open data of the chemicals library)"
)
CRC_CAPACITY = (
    "CRC Handbook of Chemistry and Physics, standard thermodynamic properties, liquid at 25 C "
    "(open data of the chemicals library)"
)
IEC = "IEC 60079-20-1:2010 (as IS/IEC; open data of the chemicals library)"
NFPA = "NFPA 497:2008 (open data of the chemicals library)"
ONTARIO = "Ontario occupational exposure limits table (open data of the chemicals library)"
UV = "tables of solvents for liquid chromatography, A = 1 in 1 cm against water (from memory)"
RANK = "common practice, no source"
MEMORY = "handbook value, from memory"


def joules_per_kilogram(molar: float, molar_mass: float) -> float:
    """Molar energy [J/mol] as energy per mass [J/kg], for a molar mass [kg/mol]."""
    return molar / molar_mass


@dataclass(frozen=True)
class LiquidRecord:
    """A liquid that is pumped, injected or washed with; `None` is "not known", never zero.

    Parameters
    ----------
    name : str
        Name used throughout.
    synonyms : tuple of str
        Other names and the usual abbreviations.
    formula, cas : str
        Molecular formula and registry number.
    molar_mass : float
        [kg/mol].
    family : str
        "alcohol", "alkane", "chlorinated", "ether", "ester", "ketone", "nitrile", "aromatic",
        "sulfoxide", "amide", "water" or "acid".
    strength_rank : int
        Strength as a diluent in CO2, 1 (alkane) to 5 (methanol, water, sulfoxide).
    density : TemperatureCorrelation or None
        Density [kg/m3] at about 1 bar; call it with T [K].
    viscosity : TemperatureCorrelation or None
        Dynamic viscosity [Pa s] at about 1 bar; call it with T [K].
    vapour_pressure : TemperatureCorrelation or None
        Vapour pressure [Pa]; call it with T [K].
    heat_capacity : float or None
        Isobaric, liquid, 25 C [J/(kg K)].
    enthalpy_of_vaporization : float or None
        At 25 C [J/kg].
    normal_boiling_point, freezing_point : float or None
        [K].
    flash_point : float or None
        Closed cup [K]; None also where a standard test finds none (see `flammable`).
    lower_flammable_limit, upper_flammable_limit : float or None
        Volume fraction of vapour in air.
    autoignition_temperature : float or None
        [K].
    flammable : bool or None
        False where no air mixture burns at room conditions.
    uv_cutoff : float or None
        Wavelength [m] at which 1 cm of the liquid absorbs 1 against water.
    exposure_limit_ppm, short_term_limit_ppm : float or None
        Limit in air over eight hours and over 15 minutes [volume parts per million].
    peroxide_former : bool
        True where an unstabilised bottle must be dated and tested.
    sources : mapping of str to str
        Source by field name.
    """

    name: str
    synonyms: tuple[str, ...]
    formula: str
    cas: str
    molar_mass: float
    family: str
    strength_rank: int
    density: TemperatureCorrelation | None = None
    viscosity: TemperatureCorrelation | None = None
    vapour_pressure: TemperatureCorrelation | None = None
    heat_capacity: float | None = None
    enthalpy_of_vaporization: float | None = None
    normal_boiling_point: float | None = None
    freezing_point: float | None = None
    flash_point: float | None = None
    lower_flammable_limit: float | None = None
    upper_flammable_limit: float | None = None
    autoignition_temperature: float | None = None
    flammable: bool | None = None
    uv_cutoff: float | None = None
    exposure_limit_ppm: float | None = None
    short_term_limit_ppm: float | None = None
    peroxide_former: bool = False
    sources: Mapping[str, str] = field(default_factory=dict, repr=False, hash=False)
