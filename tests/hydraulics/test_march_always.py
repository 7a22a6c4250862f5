"""What holds for every march, whatever the numbers."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from methodlint.hydraulics.march import march
from methodlint.hydraulics.train import Segment, Train

from .constant_fluid import ProportionalFluid

FLUID = ProportionalFluid()


def train(bore, particle_size):
    return Train(
        (
            Segment("line", "tube", 0.5, bore),
            Segment("column", "column", 0.1, 3.0e-3, particle_size),
            Segment("outlet line", "tube", 0.5, bore),
        )
    )


@settings(max_examples=60, deadline=None)
@given(
    bore=st.floats(0.1e-3, 0.5e-3),
    particle_size=st.floats(1.7e-6, 20e-6),
    flow=st.floats(1e-6, 8e-5),
    outlet=st.floats(80e5, 300e5),
)
def test_pressure_falls_along_the_flow_and_rises_with_it(bore, particle_size, flow, outlet):
    layout = train(bore, particle_size).layout()
    found = march(FLUID, layout, [outlet, outlet], [flow, 1.5 * flow], 0.0, 308.15)
    assert found.settled.all()
    assert (np.diff(found.pressure, axis=1) <= 0.0).all()
    assert (found.pressure[1, :-1] > found.pressure[0, :-1]).all()
    assert (found.pressure_alternative <= found.pressure * (1.0 + 1e-12)).all()
    drops = found.pressure[:, 0] - found.pressure[:, -1]
    assert np.allclose(found.segment_drops().sum(axis=1), drops, rtol=1e-9)


@settings(max_examples=30, deadline=None)
@given(
    particle_size=st.floats(1.7e-6, 10e-6),
    flow=st.floats(1e-6, 5e-5),
    outlet=st.floats(80e5, 300e5),
)
def test_halving_the_steps_changes_nothing_worth_reporting(particle_size, flow, outlet):
    system = train(0.15e-3, particle_size)
    coarse = march(FLUID, system.layout(), [outlet], [flow], 0.0, 308.15)
    fine = march(FLUID, system.layout(refine=2), [outlet], [flow], 0.0, 308.15)
    assert abs(coarse.pump_pressure[0] / fine.pump_pressure[0] - 1.0) < 0.002
