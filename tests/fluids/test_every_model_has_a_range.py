"""Every model has its range as data, and leaving it is said: all of them are walked."""

from __future__ import annotations

import importlib
import math
import pkgutil
import re
from types import ModuleType

import numpy as np
import pytest

import methodlint.fluids
import methodlint.hydraulics
from methodlint.fluids.co2 import properties as co2
from methodlint.fluids.liquids.density_dymond_1988 import VALIDITY as TAIT
from methodlint.fluids.liquids.known import LIQUIDS
from methodlint.fluids.liquids.liquid_correlation import Published, TemperatureCorrelation
from methodlint.fluids.liquids.viscosity_lucas_1981 import VALIDITY as LUCAS
from methodlint.fluids.mixtures.boundary import PhaseBoundary
from methodlint.fluids.mixtures.mixture import MixtureModel
from methodlint.fluids.mixtures.mixture_choice import model_for
from methodlint.fluids.validity import OutOfRange, StateRange, ValidityRange
from methodlint.hydraulics import columns
from methodlint.hydraulics.march import HIGHEST_MODEL_PRESSURE, march
from methodlint.hydraulics.train import Segment, Train
from methodlint.rehearsal.run.rehearse import rehearse
from tests.rehearsal.runs import planned

PUBLISHED = re.compile(r"_(\d{4})$")


def _modules() -> list[ModuleType]:
    names = [
        found.name
        for package in (methodlint.fluids, methodlint.hydraulics)
        for found in pkgutil.walk_packages(package.__path__, f"{package.__name__}.")
    ]
    return [importlib.import_module(name) for name in names]


CORRELATIONS = [m for m in _modules() if PUBLISHED.search(m.__name__)]
#: The cubic is never asked by itself: its answers are tables, each with a range of its own.
IN_TABLES = {"methodlint.fluids.peng_robinson_1976": PhaseBoundary}
RANGES = [
    (f"{module.__name__.rpartition('.')[2]} {name}", value)
    for module in _modules()
    for name, value in vars(module).items()
    if isinstance(value, (ValidityRange, StateRange))
]
CURVES = [
    (name, curve)
    for name, liquid in sorted(LIQUIDS.items())
    for curve in (liquid.density, liquid.viscosity, liquid.vapour_pressure)
    if curve is not None
]
PUBLISHED_TABLES = [
    value
    for module in CORRELATIONS
    for value in vars(module).values()
    if isinstance(value, Published)
]
BLENDS: list[str | tuple[tuple[str, float], ...]] = [
    "carbon dioxide",
    "methanol",
    "ethanol",
    "2-propanol",
    "acetonitrile",
    (("methanol", 0.5), ("ethanol", 0.5)),
    (("methanol", 0.95), ("water", 0.05)),
]


def test_something_was_walked() -> None:
    assert len(CORRELATIONS) >= 12
    assert len(RANGES) >= 10
    assert len(CURVES) > 70
    assert len(PUBLISHED_TABLES) == 7


@pytest.mark.parametrize("module", CORRELATIONS, ids=lambda m: m.__name__.rpartition(".")[2])
def test_every_published_correlation_has_its_range(module: ModuleType) -> None:
    own = getattr(module, "VALIDITY", None)
    kinds = (Published, TemperatureCorrelation)
    curves = [value for value in vars(module).values() if isinstance(value, kinds)]
    table = IN_TABLES.get(module.__name__)
    assert isinstance(own, (ValidityRange, StateRange)) or curves or hasattr(table, "validity")


@pytest.mark.parametrize("table", PUBLISHED_TABLES, ids=lambda t: t.source)
def test_every_published_constant_is_used_within_limits_in_order(table: Published) -> None:
    """Constants that no liquid is computed with by default have their range too."""
    for name in table.rows:
        liquid = LIQUIDS[name]
        freezing_point = liquid.freezing_point or 0.0
        curve = table.curve(name, liquid.molar_mass, freezing_point, band=0.1)
        assert 0.0 < curve.lower < curve.upper < math.inf
        with pytest.raises(OutOfRange):
            curve(curve.upper + 1.0)
        assert np.isfinite(curve([curve.lower, curve.upper])).all()


@pytest.mark.parametrize(("name", "limits"), RANGES, ids=[name for name, _ in RANGES])
def test_every_range_has_limits_in_order_and_reports_both_sides(
    name: str, limits: ValidityRange | StateRange
) -> None:
    for one in limits if isinstance(limits, StateRange) else (limits,):
        assert -math.inf < one.lower < one.upper < math.inf
        assert one.quantity
        assert one.model
        below, above = one.lower - 0.1 * abs(one.upper), 1.1 * one.upper
        assert one.outside_by(below) < 0.0 < one.outside_by(above)
        assert one.outside_by([one.lower, one.upper]) == 0.0
        with pytest.raises(OutOfRange) as caught:
            one.require(above)
        assert caught.value.outside_by == pytest.approx(0.1 * one.upper)


@pytest.mark.parametrize(("name", "curve"), CURVES, ids=[c.quantity for _, c in CURVES])
def test_every_curve_of_a_liquid_refuses_other_temperatures(
    name: str, curve: TemperatureCorrelation
) -> None:
    assert curve.source
    assert 0.0 < curve.band < 0.25
    for kelvin, distance in ((curve.lower - 1.0, -1.0), (curve.upper + 2.0, 2.0)):
        with pytest.raises(OutOfRange) as caught:
            curve([0.5 * (curve.lower + curve.upper), kelvin])
        assert caught.value.outside_by == pytest.approx(distance)
        assert name in str(caught.value)


@pytest.mark.parametrize(
    "function",
    [
        co2.density,
        co2.viscosity,
        co2.enthalpy,
        co2.heat_capacity,
        co2.compressibility,
        co2.expansivity,
        co2.isenthalpic_slope,
        co2.gas_density,
    ],
)
@pytest.mark.parametrize(("T", "P"), [(150.0, 1e5), (900.0, 1e5), (300.0, 9e8), (300.0, 1.0)])
def test_every_property_of_co2_refuses_states_that_no_equation_covers(function, T, P) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(OutOfRange) as caught:
        function(T, P)
    assert caught.value.model
    assert caught.value.outside_by != 0.0


@pytest.mark.parametrize(
    ("function", "value"),
    [
        (co2.saturation_pressure, 310.0),
        (co2.saturation_temperature, 80e5),
        (co2.saturated_liquid_density, 200.0),
        (co2.saturated_vapour_density, 310.0),
        (co2.sublimation_pressure, 230.0),
        (co2.sublimation_temperature, 6e5),
        (co2.sublimation_enthalpy, 120.0),
    ],
)
def test_every_line_of_co2_ends_somewhere(function, value) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(OutOfRange):
        function(value, 1.0) if function is co2.sublimation_enthalpy else function(value)


def _mixture(of: str | tuple[tuple[str, float], ...]) -> MixtureModel:
    found = model_for(of)
    assert found is not None
    return found


@pytest.mark.parametrize("of", BLENDS, ids=str)
def test_every_mixture_reports_what_lies_outside(
    of: str | tuple[tuple[str, float], ...],
) -> None:
    model = _mixture(of)
    T, P = model.validity
    assert model.outside(300.0, 150e5) == []
    assert [(r.quantity, d) for r, d in model.outside(T.upper + 5.0, 150e5)] == [
        ("temperature", pytest.approx(5.0))
    ]
    assert [(r.quantity, d) for r, d in model.outside([300.0, T.lower - 3.0], P.upper + 1e5)] == [
        ("temperature", pytest.approx(-3.0)),
        ("pressure", pytest.approx(1e5)),
    ]


@pytest.mark.parametrize("of", BLENDS[1:], ids=str)
def test_what_a_mixture_is_made_of_covers_its_range(
    of: str | tuple[tuple[str, float], ...],
) -> None:
    """The Tait equation, the rule of Lucas and the boundary's table do not check by themselves."""
    model = _mixture(of)
    T, P = model.validity
    assert TAIT.contains([T.lower, T.upper], [P.lower, P.upper]).all()
    assert model.boundary.validity.contains([T.lower, T.upper]).all()
    for pair in model.modifier.pairs:
        assert LUCAS.contains(np.array([T.lower, T.upper]) / pair.critical.temperature).all()
    for liquid in model.modifier.liquids:
        for curve in (liquid.density, liquid.viscosity):
            assert curve is not None
            assert curve.upper >= T.upper


def test_a_march_marks_pressures_and_flows_that_no_model_covers() -> None:
    fluid = _mixture("methanol")
    tube = Train((Segment("tube", "tube", 30.0, 0.05e-3), Segment("end", "regulator"))).layout()
    found = march(fluid, tube, [150e5], [4e-5], 0.2, 313.15)
    assert found.pump_pressure[0] > HIGHEST_MODEL_PRESSURE
    assert found.beyond_model[0, 0]
    assert not found.beyond_model[0, -1]
    wide = Train((Segment("tube", "tube", 0.01, 1.0e-3),)).layout()
    assert march(fluid, wide, [150e5], [2e-2], 0.0, 313.15).beyond_friction_law.all()
    assert not march(fluid, wide, [150e5], [2e-4], 0.0, 313.15).beyond_friction_law.any()


def test_a_march_marks_beds_beyond_ergun() -> None:
    fluid = _mixture("methanol")
    bed = Segment("bed", "column", 0.01, 0.1, 5e-3)
    limit = columns.VALIDITY.upper * (1.0 - columns.DEFAULT_EXTERNAL_POROSITY)
    for flow, beyond in ((0.1, False), (1.0, True)):
        found = march(fluid, Train((bed,)).layout(), [150e5], [flow], 0.0, 313.15)
        assert bool((found.reynolds > limit).any()) is beyond
        assert bool(found.beyond_friction_law.any()) is beyond


@pytest.mark.parametrize(
    ("change", "where", "words"),
    [
        ("oven_temperature: 104 degC", "method.oven_temperature", "by 4 K"),
        ("outlet_pressure: 0.5 bar", "method.outlet_pressure", "outside"),
        ("oven_temperature: 400 degC", "method.oven_temperature", "outside"),
        (
            "---\nkind: instrument\nco2_pump: {head_temperature: 500 degC}",
            "instrument.co2_pump.head_temperature",
            "outside",
        ),
    ],
)
def test_a_rehearsal_says_which_setting_left_the_model_and_how_far(
    change: str, where: str, words: str
) -> None:
    run = rehearse(planned(f"kind: method\n{change}\n"))
    assert not run.done
    assert [item.where for item in run.missing] == [where]
    assert words in run.missing[0].reason


def test_a_rehearsal_marks_pressures_above_the_model() -> None:
    """Such a pressure is a lower bound, and no pump goes there."""
    text = "kind: method\nprogramme: []\nmobile_phase: {modifier_share: 40 % v/v}\nflow: 5 mL/min\n"
    bed = "---\nkind: column\nparticle_size: 1 um\nlength: 250 mm\n"
    run = rehearse(planned(text + bed))
    assert run.done
    assert run.beyond_model.any()
    assert not run.beyond_model[:, -1].any()
    assert not rehearse(planned(text)).beyond_model.any()
