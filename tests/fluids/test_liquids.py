"""Finding liquids, calling their correlations, and what is said where nothing is known."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from methodlint.fluids.liquids.exposure_limits import listed_limit
from methodlint.fluids.liquids.known import LIQUIDS, find_liquid
from methodlint.fluids.liquids.liquid_correlation import TemperatureCorrelation
from methodlint.fluids.validity import OutOfRange

ASKED_FOR = (
    "methanol",
    "ethanol",
    "1-propanol",
    "2-propanol",
    "acetonitrile",
    "water",
    "n-pentane",
    "n-hexane",
    "n-heptane",
    "isooctane",
    "cyclohexane",
    "ethyl acetate",
    "dichloromethane",
    "chloroform",
    "acetone",
    "tetrahydrofuran",
    "1,4-dioxane",
    "toluene",
    "dimethyl sulfoxide",
    "N,N-dimethylformamide",
    "methyl tert-butyl ether",
    "diethyl ether",
    "diisopropyl ether",
    "2-methyltetrahydrofuran",
    "acetic acid",
    "formic acid",
    "tert-butanol",
    "1-butanol",
)


@pytest.mark.parametrize("name", ASKED_FOR)
def test_every_liquid_is_known_by_its_own_name(name: str) -> None:
    liquid = find_liquid(name)
    assert liquid is not None
    assert liquid is LIQUIDS[name]


def test_the_list_is_complete() -> None:
    assert sorted(LIQUIDS) == sorted(ASKED_FOR)


# trade abbreviations (common practice, no source)
@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("IPA", "2-propanol"),
        ("iso-propanol", "2-propanol"),
        ("Isopropyl Alcohol", "2-propanol"),
        ("propan-2-ol", "2-propanol"),
        ("2 Propanol", "2-propanol"),
        ("MeOH", "methanol"),
        ("meoh", "methanol"),
        ("MeCN", "acetonitrile"),
        ("ACN", "acetonitrile"),
        ("DCM", "dichloromethane"),
        ("THF", "tetrahydrofuran"),
        ("MTBE", "methyl tert-butyl ether"),
        ("tert-butyl methyl ether", "methyl tert-butyl ether"),
        ("DMSO", "dimethyl sulfoxide"),
        ("dimethyl sulphoxide", "dimethyl sulfoxide"),
        ("DMF", "N,N-dimethylformamide"),
        ("heptane", "n-heptane"),
        ("2,2,4-trimethylpentane", "isooctane"),
        ("EtOAc", "ethyl acetate"),
        ("H2O", "water"),
        ("67-56-1", "methanol"),
        ("1 4-dioxane", "1,4-dioxane"),
    ],
)
def test_usual_names(text: str, name: str) -> None:
    liquid = find_liquid(text)
    assert liquid is not None
    assert liquid.name == name


@pytest.mark.parametrize(
    "text", ["", "meth", "methanol 90", "carbon dioxide", "propanol", "alcohol"]
)
def test_an_unknown_or_ambiguous_name_is_not_guessed(text: str) -> None:
    assert find_liquid(text) is None


@pytest.mark.parametrize("name", ASKED_FOR)
def test_density_and_viscosity_reach_from_0_to_80_celsius_or_are_not_claimed(name: str) -> None:
    liquid = LIQUIDS[name]
    for correlation in (liquid.density, liquid.viscosity):
        if correlation is None:
            assert name == "2-methyltetrahydrofuran"
            continue
        assert liquid.freezing_point is not None
        # below its freezing point nothing is claimed of the liquid; 1.5 K for two handbooks' freezing points
        assert correlation.lower <= max(273.15, liquid.freezing_point) + 1.5
        # diisopropyl ether: the book ends at its boiling point, 68 C
        assert correlation.upper >= (341.0 if name == "diisopropyl ether" else 353.15)
        assert 0.0 < correlation.band <= 0.2
        assert correlation.source


@pytest.mark.parametrize("name", ASKED_FOR)
def test_properties_move_the_right_way_with_temperature(name: str) -> None:
    liquid = LIQUIDS[name]
    for correlation, sign in (
        (liquid.density, -1),
        (liquid.viscosity, -1),
        (liquid.vapour_pressure, 1),
    ):
        if correlation is None:
            continue
        # water is densest at 4 C
        lowest = max(correlation.lower, 278.15)
        values = correlation(np.linspace(lowest, min(correlation.upper, 353.15), 40))
        assert (sign * np.diff(values) > 0.0).all()


def test_a_call_keeps_the_shape() -> None:
    density = LIQUIDS["methanol"].density
    assert density is not None
    assert density(298.15).shape == ()
    assert density(np.full((2, 3), 298.15)).shape == (2, 3)
    assert density([280.0, 300.0]).shape == (2,)


@pytest.mark.parametrize("temperature", [200.0, 400.0, float("nan")])
def test_leaving_the_range_is_an_error_with_the_limits(temperature: float) -> None:
    density = LIQUIDS["methanol"].density
    assert density is not None
    with pytest.raises(OutOfRange) as caught:
        density([298.15, temperature])
    assert (caught.value.lower, caught.value.upper) == (density.lower, density.upper)
    assert "density of methanol" in str(caught.value)
    assert not density.covers(temperature)
    assert density.validity.unit == "K"


def test_what_is_not_known_is_none() -> None:
    """No published curve for this one was at hand; its flash point has only been remembered."""
    liquid = LIQUIDS["2-methyltetrahydrofuran"]
    assert liquid.density is None
    assert liquid.viscosity is None
    assert liquid.heat_capacity is None
    assert liquid.exposure_limit_ppm is None
    assert "(unverified)" in liquid.sources["flash_point"]


@pytest.mark.parametrize("name", ASKED_FOR)
def test_every_number_has_a_source(name: str) -> None:
    liquid = LIQUIDS[name]
    without = {"molar_mass"}
    for field in dataclasses.fields(liquid):
        value = getattr(liquid, field.name)
        if isinstance(value, TemperatureCorrelation):
            assert value.source
            assert bool(value.level_source) == (value.level != 1.0)
        elif isinstance(value, float) and field.name not in without:
            assert liquid.sources.get(field.name), field.name
    for field_name, source in liquid.sources.items():
        assert hasattr(liquid, field_name)
        assert source


def test_flammability_of_the_unusual_ones() -> None:
    """Dichloromethane has no flash point but limits of 13 to 22 % (handbook, from memory)."""
    dichloromethane = LIQUIDS["dichloromethane"]
    assert dichloromethane.flash_point is None
    assert dichloromethane.flammable is True
    assert dichloromethane.lower_flammable_limit == pytest.approx(0.13)
    assert LIQUIDS["water"].flammable is False
    assert LIQUIDS["chloroform"].flammable is False


def test_peroxide_formers() -> None:
    """Common practice, no source; the tert-butyl ether forms them only slowly and is left out."""
    formers = {name for name, liquid in LIQUIDS.items() if liquid.peroxide_former}
    assert formers == {
        "tetrahydrofuran",
        "1,4-dioxane",
        "diethyl ether",
        "diisopropyl ether",
        "2-methyltetrahydrofuran",
    }


def test_order_of_strength_as_a_diluent() -> None:
    """Sulfoxide, water, methanol > ethanol > 2-propanol, acetonitrile > chlorinated, ether > alkane
    (common practice, no source)."""
    rank = {name: liquid.strength_rank for name, liquid in LIQUIDS.items()}
    assert rank["dimethyl sulfoxide"] == rank["water"] == rank["methanol"]
    assert rank["methanol"] > rank["ethanol"] > rank["2-propanol"] == rank["acetonitrile"]
    assert rank["acetonitrile"] > rank["methyl tert-butyl ether"] == rank["dichloromethane"]
    assert rank["dichloromethane"] > rank["n-heptane"]


@pytest.mark.parametrize(
    ("liquid", "jurisdiction", "ppm"),
    [
        # directives 2006/15/EC, 2000/39/EC, 2017/164/EU, 2009/161/EU (unverified)
        ("n-hexane", "EU", 20), ("chloroform", "EU", 2), ("diethyl ether", "EU", 100),
        ("ethyl acetate", "EU", 200), ("DMF", "EU", 5), ("n-pentane", "EU", 1000),
        # 29 CFR 1910.1052 and table Z-1 (unverified)
        ("dichloromethane", "US", 25), ("n-heptane", "US", 500), ("acetone", "US", 1000),
        # without a list of its own the lowest of all lists counts
        ("dichloromethane", None, 25), ("chloroform", "Ruritania", 2), ("n-hexane", None, 20),
        ("n-heptane", None, 400), ("n-pentane", None, 600), ("acetone", None, 500),
    ],
)  # fmt: skip
def test_the_lowest_listed_exposure_limit(liquid: str, jurisdiction: str | None, ppm: int) -> None:
    found = listed_limit(liquid, jurisdiction)
    assert found is not None
    assert found.fraction == pytest.approx(ppm * 1e-6)
    assert found.words.endswith(")")


def test_no_list_names_a_liquid_that_nobody_limits() -> None:
    assert listed_limit("water", None) is None
    assert listed_limit("oil of nowhere", "EU") is None


@pytest.mark.parametrize(
    ("liquid", "iec", "nfpa"),
    [
        # [C]: IEC 60079-20-1:2010 and NFPA 497:2008 (open data of the chemicals library)
        ("methanol", 440, 385), ("ethanol", 400, 363), ("2-propanol", 399, 399),
        ("n-heptane", 204, 204), ("toluene", 530, 480), ("tetrahydrofuran", 230, 321),
        ("diethyl ether", 175, 160), ("1,4-dioxane", 375, 180), ("acetone", 539, 465),
        ("ethyl acetate", 470, 427), ("DMF", 440, 455), ("acetonitrile", 523, 524),
        ("acetic acid", 510, 426), ("formic acid", 525, 434),
    ],
)  # fmt: skip
def test_the_lower_of_two_autoignition_temperatures(liquid: str, iec: int, nfpa: int) -> None:
    known = find_liquid(liquid)
    assert known is not None
    assert known.autoignition_temperature == pytest.approx(min(iec, nfpa) + 273.15)
