"""The flow goes where geometry says, and no lower than it has to."""

from __future__ import annotations

import pytest

from methodlint.scaling.geometry import flow_ratio
from methodlint.transfer import flow_choice
from methodlint.transfer.attempt import attempt

from .lab import GRADIENT, make_lab, moved

UHP = """
kind: instrument
x-name: there
co2_pump: {lowest_flow: 0.05 mL/min, highest_flow: 10 mL/min, pressure_rating: 900 bar, head_temperature: 8 degC, metering: volume, inlet: liquid}
modifier_pump: {lowest_flow: 0.01 mL/min, highest_flow: 10 mL/min, pressure_rating: 900 bar, lines: [modifier-1]}
"""


def aim(length: float, bore: float, particle: float) -> str:
    """A target column that bears more than any pump gives."""
    return (
        f"kind: column\nx-name: aim\nlength: {length} mm\ninner_diameter: {bore} mm\n"
        f"particle_size: {particle} um\npressure_rating: 900 bar\ndrop_rating: 900 bar\n"
    )


@pytest.mark.parametrize(
    ("source", "length", "bore", "particle", "flow"),
    [
        # F2 = F1 (d2/d1)^2 dp1/dp2, USP <621> (from memory), by hand
        ("wide", 150, 4.6, 3.0, "5 mL/min"),  # 3.0 x 1 x 5/3
        ("narrow", 250, 4.6, 5.0, "4.23 mL/min"),  # 3.0 x 2.351 x 3/5
        ("narrow", 75, 3.0, 2.5, "3.6 mL/min"),  # 3.0 x 1 x 3/2.5
    ],
)
def test_a_wider_bore_or_finer_particles_get_the_higher_flow_of_geometry(
    tmp_path, source, length, bore, particle, flow
):
    method = GRADIENT.replace("column: wide", f"column: {source}")
    done = moved(make_lab(tmp_path, method, UHP, aim(length, bore, particle)), column="aim")
    (entry,) = [entry for entry in done.entries if entry.item == "flow"]
    assert entry.proposed == flow
    assert entry.limit == ""


@pytest.mark.parametrize(
    ("outlet", "length", "bore", "particle"),
    [
        (105, 150, 3.0, 1.7),
        (150, 250, 3.0, 2.5),
        pytest.param(105, 250, 3.0, 2.5, marks=pytest.mark.long),
        pytest.param(150, 170, 3.0, 1.7, marks=pytest.mark.long),
    ],
)
def test_a_flow_below_geometry_is_the_highest_that_is_not_refused(
    tmp_path, outlet, length, bore, particle
):
    """Faster ones are tried, each on its own; the search stops within 2 %."""
    method = GRADIENT.replace("outlet_pressure: 150", f"outlet_pressure: {outlet}")
    done = moved(make_lab(tmp_path, method, UHP, aim(length, bore, particle)), column="aim")
    chosen = done.attempt.factor
    geometry = flow_ratio(done.sides.source.bed, done.sides.target.bed)
    assert chosen < geometry
    for step in (1.04, 1.06, 1.1, 1.15):
        if chosen * step > geometry:
            break
        faster = attempt(done.sides, chosen * step)
        assert faster.beyond or faster.worst_residual > 0.05, f"{step} x the flow would do as well"


def test_the_slowest_flow_is_tried_before_none_is_said_to_do(tmp_path, monkeypatch):
    """A long step downwards may go past the only flows that do."""
    tried = []
    found = flow_choice._too_fast

    def only_near_the_slowest(sides, attempted, factor, tolerated):
        tried.append(factor)
        slowest = flow_choice.SLOWEST * flow_ratio(sides.source.bed, sides.target.bed)
        if factor > 1.1 * slowest:
            return "column: too much", 0.1 * factor
        return found(sides, attempted, factor, tolerated)

    monkeypatch.setattr(flow_choice, "_too_fast", only_near_the_slowest)
    done = moved(make_lab(tmp_path))
    geometry = flow_ratio(done.sides.source.bed, done.sides.target.bed)
    assert tried[1] == pytest.approx(0.25 * geometry)
    assert done.attempt.factor == pytest.approx(0.275 * geometry, rel=0.021)
