"""Heat at the regulator against the reference equation of CO2 (Span and Wagner 1996, as CoolProp
computes it); methanol 81.1 J/(mol K), liquid, 25 degC (CRC Handbook of Chemistry and Physics)."""

from __future__ import annotations

import pytest
from CoolProp.CoolProp import PropsSI  # type: ignore[import-untyped]

from methodlint.rehearsal.run.regulator import worst_regulator_load
from methodlint.rulebook.examples import lab_with
from tests.rehearsal.runs import rehearsed

ISOCRATIC = "kind: method\nprogramme: []\nmobile_phase: {modifier: {liquid: methanol}, "
ISOCRATIC += "modifier_share: SHARE v/v}\n"
METHANOL = 81.1 / 0.032042


def _load(text: str):  # type: ignore[no-untyped-def]
    documents = lab_with(text)
    load = worst_regulator_load(rehearsed(text), documents["method"], documents["instrument"])
    assert load is not None
    return load


def test_specific_heat_of_the_expansion() -> None:
    """216 kJ/kg from 150 bar and 40 degC to gas at 20 degC."""
    load = _load(ISOCRATIC.replace("SHARE", "10 %"))
    by_reference = PropsSI("H", "T", 293.15, "P", 101325, "CO2") - PropsSI(
        "H", "T", 313.15, "P", 150e5, "CO2"
    )
    assert by_reference == pytest.approx(216e3, rel=0.01)
    assert load.co2_watts / load.co2_mass_flow == pytest.approx(by_reference, rel=0.01)


def test_liquids_bring_their_warmth_along() -> None:
    text = ISOCRATIC.replace("SHARE", "30 %")
    run = rehearsed(text)
    load = _load(text)
    warmth = float(run.modifier_mass_flow[0]) * METHANOL * 20.0
    assert load.watts == pytest.approx(load.co2_watts - warmth, rel=0.01)


def test_makeup_in_front_of_the_regulator_counts() -> None:
    text = ISOCRATIC.replace("SHARE", "10 %")
    makeup = "makeup: {liquid: methanol, flow: 1 mL/min, tee: before the regulator}\n"
    # 1 mL/min of methanol, 792 kg/m3 at 20 degC, arrives 20 K warmer than it leaves
    warmth = 792.0 * 1e-6 / 60.0 * METHANOL * 20.0
    assert _load(text).watts - _load(text + makeup).watts == pytest.approx(warmth, rel=0.02)


def test_a_warmer_regulator_needs_more() -> None:
    warm = "---\nkind: instrument\nregulator: {temperature: 60 degC}\n"
    text = ISOCRATIC.replace("SHARE", "10 %")
    assert _load(text + warm).watts > _load(text).watts + 0.5


def test_the_leanest_moment_of_a_gradient_decides() -> None:
    load = _load("")
    assert load.share == pytest.approx(0.05, abs=0.01)
    assert load.least_share == pytest.approx(0.05, abs=1e-6)


def test_solid_below_the_triple_point() -> None:
    """CO2 at 1 atm is solid below -78.5 degC (sublimation point: Span and Wagner 1996)."""
    load = _load(ISOCRATIC.replace("SHARE", "5 %"))
    assert load.solid
    assert load.end_temperature == pytest.approx(194.7, abs=0.2)


def test_nothing_without_a_rehearsal() -> None:
    from methodlint.rehearsal.run.rehearse import rehearse
    from tests.rehearsal.runs import planned

    text = "kind: instrument\nco2_pump: {head_temperature: null}\n"
    run = rehearse(planned(text))
    documents = lab_with(text)
    assert worst_regulator_load(run, documents["method"], documents["instrument"]) is None
