"""What is kept about one liquid, put together from the tables."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from methodlint.fluids.liquids.curves import CURVES, Choice
from methodlint.fluids.liquids.liquid_correlation import TemperatureCorrelation
from methodlint.fluids.liquids.liquid_tables import COLUMNS, IDENTITY, RANK

__all__ = ["LiquidRecord", "liquid_record"]


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


def liquid_record(name: str) -> LiquidRecord:
    """Put a liquid of the tables together, each of its numbers with its source."""
    formula, cas, molar_mass, family, rank, flammable, synonyms = IDENTITY[name]
    values: dict[str, Any] = {}
    sources = {"strength_rank": RANK}
    for column, usual_source, cells in COLUMNS:
        cell = cells[name]
        value, source = cell if isinstance(cell, tuple) else (cell, usual_source)
        if value is not None:
            values[column] = value
        if cell is not None:
            sources[column] = source
    for molar in ("heat_capacity", "enthalpy_of_vaporization"):
        if molar in values:
            values[molar] /= molar_mass

    def curve(choice: Choice) -> TemperatureCorrelation | None:
        if choice is None or isinstance(choice, TemperatureCorrelation):
            return choice
        published, *fit = choice
        return published.curve(name, molar_mass, values["freezing_point"], *fit)

    density, viscosity, vapour_pressure = map(curve, CURVES[name])
    return LiquidRecord(
        name=name,
        synonyms=synonyms,
        formula=formula,
        cas=cas,
        molar_mass=molar_mass,
        family=family,
        strength_rank=rank,
        flammable=flammable,
        density=density,
        viscosity=viscosity,
        vapour_pressure=vapour_pressure,
        sources=sources,
        **values,
    )
