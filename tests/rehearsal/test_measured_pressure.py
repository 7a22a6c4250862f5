"""A measured pressure sets the column's permeability, and narrows the band where it was read."""

from __future__ import annotations

import numpy as np
import pytest

from methodlint.hydraulics.drop_band import CALIBRATED_BAND
from methodlint.rehearsal.plan.run_plan import plan_run
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.rehearse import rehearse
from methodlint.rulebook.examples import lab_with
from tests.rehearsal.runs import planned, rehearsed

ISOCRATIC = "kind: method\nprogramme: []\nmobile_phase: {modifier_share: 20 % v/v}\n"


def drop(run: Rehearsal) -> float:
    return float(run.drop_over(run.plan.analytical_column)[0])


def measured_drop(bar: float, share: str = "20 %", outlet: float = 152.0) -> str:
    return (
        f"---\nkind: column\nmeasured_drop: {{pressure_drop: {bar} bar, flow: 1.5 mL/min, "
        f"modifier: methanol, modifier_share: {share} v/v, temperature: 40 degC, "
        f"outlet_pressure: {outlet} bar}}\n"
    )


def test_a_drop_on_the_card_is_met_by_the_rehearsal() -> None:
    """The bed ends where the tubes behind it begin: that pressure is what the card states."""
    plain = rehearsed(ISOCRATIC)
    outlet = float(plain.column_outlet_pressure[0]) / 1e5
    for factor in (0.7, 1.4):
        wanted = factor * drop(plain) / 1e5
        found = rehearsed(ISOCRATIC + measured_drop(wanted, outlet=outlet))
        # the metered mass follows the pump pressure a little, which tubes in front of it raise
        assert drop(found) / 1e5 == pytest.approx(wanted, rel=0.005)


def test_a_pump_pressure_on_the_method_is_met_by_the_rehearsal() -> None:
    plain = rehearsed(ISOCRATIC)
    wanted = float(plain.pump_pressure[0]) / 1e5 + 12.0
    text = f"measured_pressures: [{{pump_pressure: {wanted} bar, modifier_share: 20 % v/v}}]\n"
    found = rehearsed(ISOCRATIC + text)
    assert float(found.pump_pressure[0]) / 1e5 == pytest.approx(wanted, abs=0.1)
    for side in found.resistance_band:
        assert side == pytest.approx(CALIBRATED_BAND, abs=2e-3)


def test_the_band_is_narrow_where_it_was_measured_and_grows_with_composition() -> None:
    """What is common to all compositions is measured; what the rule of viscosity changes is not."""
    found, plain = (
        rehearsed("kind: method\n" + measured_drop(40.0, share="5 %")),
        rehearsed("kind: method\n"),
    )
    band, wide = found.resistance_band.above, plain.resistance_band.above
    assert band[0] == pytest.approx(CALIBRATED_BAND, abs=0.005)
    rich = int(np.argmax(found.viscosity[:, found.slices_of(found.plan.analytical_column)].mean(1)))
    assert CALIBRATED_BAND + 0.02 < band[rich] < wide[rich]
    assert np.all((wide > 0.28) & (wide < 0.41))


def test_the_regulator_gets_the_accuracy_of_its_card() -> None:
    """Without one +-2 bar, common practice."""
    plain = rehearsed(ISOCRATIC)
    at_regulator = plain.pressure_band(plain.pressure[:, -1])
    assert at_regulator.below == pytest.approx(2e5)
    assert at_regulator.above == pytest.approx(2e5)
    card = "---\nkind: instrument\nregulator: {accuracy: 0.5 bar}\n"
    fine = rehearsed(ISOCRATIC + card)
    assert fine.pressure_band(fine.pressure[:, -1]).above == pytest.approx(0.5e5)
    # Of a drop it is no part, and at the pumps it hardly counts.
    assert fine.resistance_band.above == pytest.approx(plain.resistance_band.above)
    assert fine.highest(fine.pump_pressure).band > 0.9 * plain.highest(plain.pump_pressure).band


def test_two_readings_that_disagree_keep_half_their_distance_as_band() -> None:
    plain = rehearsed(ISOCRATIC)
    tubes = float(plain.pump_pressure[0]) - drop(plain)
    readings = [(tubes + factor * drop(plain)) / 1e5 for factor in (0.8, 1.25)]
    rows = ", ".join(f"{{pump_pressure: {p} bar, modifier_share: 20 % v/v}}" for p in readings)
    found = rehearsed(ISOCRATIC + f"measured_pressures: [{rows}]\n")
    assert drop(found) == pytest.approx(drop(plain), rel=0.02)
    assert found.resistance_band.above == pytest.approx(np.log(1.25 / 0.8) / 2.0, rel=0.05)


@pytest.mark.parametrize(
    ("oven", "share", "flow", "outlet", "pump"),
    [(40, 40, 1.5, 102, 172), (50, 30, 1.3, 171, 250), (60, 40, 0.5, 211, 320)],
)
def test_a_reading_is_met_although_a_march_ends_a_little_before_its_end(
    oven: int, share: int, flow: float, outlet: int, pump: int
) -> None:
    text = (
        f"oven_temperature: {oven} degC\nmeasured_pressures: [{{modifier_share: {share} % v/v, "
        f"flow: {flow} mL/min, pump_pressure: {pump} bar, outlet_pressure: {outlet} bar}}]\n"
    )
    plan = planned(ISOCRATIC + text)
    assert plan.not_calibrated == ""
    assert len(plan.calibrations) == 1


def test_a_reading_below_what_the_regulator_holds_is_refused_and_said() -> None:
    text = "measured_pressures: [{pump_pressure: 140 bar, modifier_share: 20 % v/v}]\n"
    plan = planned(ISOCRATIC + text)
    assert "leaves no drop for the column" in plan.not_calibrated
    assert plan.calibrations == ()
    assert np.all(rehearse(plan).resistance_band.above > 0.28)


def test_a_drop_measured_with_a_liquid_without_a_model_is_refused_and_said() -> None:
    plan = planned(ISOCRATIC + measured_drop(40.0).replace("methanol", "toluene"))
    assert "no model" in plan.not_calibrated


def test_pressures_of_a_method_count_on_its_first_instrument_only() -> None:
    text = "measured_pressures: [{pump_pressure: 260 bar, modifier_share: 20 % v/v}]\n"
    other = ISOCRATIC.replace("kind: method", "kind: method\nruns_on: [elsewhere, instrument]")
    assert planned(ISOCRATIC + text).calibrations
    assert planned(other + text).calibrations == ()


def test_a_guard_without_a_drop_keeps_the_wide_band() -> None:
    documents = lab_with(ISOCRATIC + measured_drop(40.0))
    plain = lab_with(ISOCRATIC)
    plan = plan_run(
        documents["method"], (plain["column"], documents["column"]), documents["instrument"]
    )
    assert plan.train is not None
    assert plan.calibrations == ()
    first, second = (plan.train.segments[number] for number in plan.train.columns)
    assert first.flow_resistance != second.flow_resistance
