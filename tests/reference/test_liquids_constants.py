"""Constants of the liquids against open data collections, used as independent oracles."""

from __future__ import annotations

import pytest

from methodlint.fluids.liquids.known import LIQUIDS

# the thermo library leaves a data file open when it is imported
pytestmark = [
    pytest.mark.filterwarnings("ignore::ResourceWarning"),
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
]

NAMES = sorted(LIQUIDS)
ORGANIC = [name for name in NAMES if name != "water"]


@pytest.mark.parametrize("name", NAMES)
def test_identity_agrees_with_the_registry_number(name: str) -> None:
    """Oracle: identifier tables and atomic weights of the chemicals library."""
    import chemicals

    liquid = LIQUIDS[name]
    assert chemicals.check_CAS(liquid.cas)
    assert pytest.approx(chemicals.MW(liquid.cas) / 1e3, rel=1e-4) == liquid.molar_mass
    assert chemicals.search_chemical(liquid.cas).formula == liquid.formula


# the methods that answer are experimental collections: CRC, open melting points, Yaws, Wikidata
@pytest.mark.parametrize("name", NAMES)
def test_boiling_and_freezing_points(name: str) -> None:
    import chemicals

    liquid = LIQUIDS[name]
    for value, oracle, apart in (
        (liquid.normal_boiling_point, chemicals.Tb(liquid.cas), 2.0),
        # 2-propanol and the ethers freeze at 0.3 to 3 K apart in the collections
        (liquid.freezing_point, chemicals.Tm(liquid.cas), 3.0),
    ):
        if value is not None and oracle is not None:
            assert value == pytest.approx(oracle, abs=apart)
    assert liquid.normal_boiling_point is not None


@pytest.mark.parametrize("name", ORGANIC)
def test_flash_points_and_limits_agree_between_two_standards(name: str) -> None:
    """IEC 60079-20-1:2010 against NFPA 497:2008, both as tabulated in the chemicals library."""
    import chemicals

    liquid = LIQUIDS[name]
    compared = 0
    for method in ("IEC 60079-20-1 (2010)", "NFPA 497 (2008)"):
        if method in chemicals.T_flash_methods(CASRN=liquid.cas):
            assert liquid.flash_point is not None
            # the two disagree by 53 K on one ether: only the IEC value is followed there
            apart = 60.0 if name == "methyl tert-butyl ether" else 9.0
            oracle = chemicals.T_flash(CASRN=liquid.cas, method=method)
            assert liquid.flash_point == pytest.approx(oracle, abs=apart)
            compared += 1
        if method in chemicals.LFL_methods(CASRN=liquid.cas):
            oracle = chemicals.LFL(CASRN=liquid.cas, method=method)
            assert liquid.lower_flammable_limit == pytest.approx(oracle, abs=0.007)
        if method in chemicals.UFL_methods(CASRN=liquid.cas):
            oracle = chemicals.UFL(CASRN=liquid.cas, method=method)
            # the ethers' upper limits differ most: 21 against 7.9 % for diisopropyl ether
            apart = 0.14 if name == "diisopropyl ether" else 0.04
            assert liquid.upper_flammable_limit == pytest.approx(oracle, abs=apart)
    by_hand = {"dichloromethane", "chloroform", "dimethyl sulfoxide", "2-methyltetrahydrofuran"}
    assert compared > 0 or name in by_hand


# rows of IEC 60079-20-1:2010 and NFPA 497:2008, transcribed: flash point [C], limits [vol%]
@pytest.mark.parametrize(
    ("name", "flash", "lower", "upper"),
    [
        ("methanol", 9.0, 6.0, 36.0),
        ("ethanol", 12.0, 3.1, 19.0),
        ("2-propanol", 12.0, 2.0, 12.7),
        ("acetonitrile", 2.0, 3.0, 16.0),
        ("acetone", -20.0, 2.5, 14.3),
        ("n-hexane", -22.0, 1.0, 8.9),
        ("n-heptane", -7.0, 0.85, 6.7),
        ("tetrahydrofuran", -14.0, 1.5, 12.4),
        ("1,4-dioxane", 11.0, 1.4, 22.5),
        ("diethyl ether", -45.0, 1.7, 39.2),
    ],
)
def test_safety_rows(name: str, flash: float, lower: float, upper: float) -> None:
    liquid = LIQUIDS[name]
    assert liquid.flash_point == pytest.approx(flash + 273.15, abs=0.01)
    assert liquid.lower_flammable_limit == pytest.approx(lower / 100.0)
    assert liquid.upper_flammable_limit == pytest.approx(upper / 100.0)


# Ontario table of exposure limits: eight hours, fifteen minutes [ppm]; ethanol's eight hours from memory
@pytest.mark.parametrize(
    ("name", "eight_hours", "short"),
    [
        ("methanol", 200.0, 250.0),
        ("ethanol", 1000.0, 1000.0),
        ("2-propanol", 200.0, 400.0),
        ("acetonitrile", 20.0, None),
        ("n-hexane", 50.0, None),
        ("n-heptane", 400.0, 500.0),
        ("acetone", 500.0, 750.0),
        ("tetrahydrofuran", 50.0, 100.0),
        ("methyl tert-butyl ether", 40.0, None),
        ("water", None, None),
    ],
)
def test_exposure_limits(name: str, eight_hours: float | None, short: float | None) -> None:
    liquid = LIQUIDS[name]
    assert liquid.exposure_limit_ppm == eight_hours
    assert liquid.short_term_limit_ppm == short


@pytest.mark.parametrize("name", NAMES)
def test_heats_against_other_collections(name: str) -> None:
    """Heat capacity against Poling et al. 2001 or Zabransky et al., vaporization against the handbooks' curves."""
    from thermo import EnthalpyVaporization, HeatCapacityLiquid

    liquid = LIQUIDS[name]
    capacity = HeatCapacityLiquid(CASRN=liquid.cas)
    for method in ("POLING_CONST", "ZABRANSKY_SPLINE", "ZABRANSKY_SPLINE_C"):
        if liquid.heat_capacity is not None and method in capacity.all_methods:
            oracle = capacity.calculate(298.15, method) / liquid.molar_mass
            assert liquid.heat_capacity == pytest.approx(oracle, rel=0.025), method
    heat = EnthalpyVaporization(CASRN=liquid.cas)
    # the vapours of the two acids are dimers: their heat is half of what a curve for monomers gives
    if name in ("acetic acid", "formic acid") or liquid.enthalpy_of_vaporization is None:
        return
    for method in ("DIPPR_PERRY_8E", "VDI_PPDS", "GHARAGHEIZI_HVAP_298"):
        if method in heat.all_methods:
            oracle = heat.calculate(298.15, method) / liquid.molar_mass
            assert liquid.enthalpy_of_vaporization == pytest.approx(oracle, rel=0.045), method


# tables of solvents for liquid chromatography, A = 1 in 1 cm against water: from memory, 5 nm;
# diethyl ether: Illustrated Pocket Dictionary of Chromatography, read
@pytest.mark.parametrize(
    ("name", "nanometres"),
    [
        ("methanol", 205.0),
        ("ethanol", 210.0),
        ("2-propanol", 205.0),
        ("acetonitrile", 190.0),
        ("water", 190.0),
        ("n-hexane", 195.0),
        ("acetone", 330.0),
        ("ethyl acetate", 256.0),
        ("dichloromethane", 233.0),
        ("chloroform", 245.0),
        ("tetrahydrofuran", 212.0),
        ("toluene", 284.0),
        ("dimethyl sulfoxide", 268.0),
        ("1,4-dioxane", 215.0),
        ("cyclohexane", 200.0),
        ("methyl tert-butyl ether", 210.0),
        ("diethyl ether", 215.0),
    ],
)
def test_uv_cutoffs(name: str, nanometres: float) -> None:
    assert LIQUIDS[name].uv_cutoff == pytest.approx(nanometres * 1e-9, abs=5e-9)
