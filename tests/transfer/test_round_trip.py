"""Properties over random feasible pairs: there and back, and what has to stay the same."""

from __future__ import annotations

import itertools
import tempfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from methodlint.transfer.sides import CannotTransfer

from .lab import ISOCRATIC, make_lab, moved

_GENTLE = settings(max_examples=15, deadline=None, suppress_health_check=list(HealthCheck))

columns = st.tuples(
    st.sampled_from([100, 150, 250]),
    st.sampled_from([2.1, 3.0, 4.6]),
    st.sampled_from([2.5, 3.0, 5.0]),
)
cases = st.fixed_dictionaries(
    {
        "one": columns,
        "two": columns,
        "share": st.integers(5, 60),
        "celsius": st.integers(25, 55),
        "outlet": st.integers(130, 220),
    }
)
_numbers = itertools.count()


def lab_of(case, root: Path) -> Path:
    length, bore, particle = case["one"]
    flow = 3.0 * (bore / 4.6) ** 2 * 5.0 / particle * 0.5
    cards = []
    for name, (a, b, c) in (("wide", case["one"]), ("narrow", case["two"])):
        cards.append(
            f"kind: column\nx-name: {name}\nlength: {a} mm\ninner_diameter: {b} mm\n"
            f"particle_size: {c} um\ntemperature_limit: 60 degC\n"
        )
    text = ISOCRATIC.replace("3.0 mL/min", f"{flow:.3g} mL/min")
    text = text.replace("20 % v/v", f"{case['share']} % v/v").replace(
        "40 degC", f"{case['celsius']} degC"
    )
    text = text.replace("150 bar", f"{case['outlet']} bar")
    assert length
    return make_lab(root / str(next(_numbers)), text, *cards)


@_GENTLE
@given(cases)
def test_there_and_back_returns_the_start(case):
    with tempfile.TemporaryDirectory() as folder:
        file = lab_of(case, Path(folder))
        try:
            there = moved(file)
        except CannotTransfer:
            assume(False)
        assume(there.feasible)
        assume(there.entry("flow").how != "limited by")
        assume(not there.attempt.limited)
        second = file.with_name("there.yaml")
        second.write_text(there.text, encoding="utf-8")
        back = moved(second, to="here", column="wide")
        assume(back.feasible)
        assume(back.entry("flow").how != "limited by")
        start, end = there.sides.rows[0], back.attempt.rows[0]
        assert end.flow == pytest.approx(start.flow, rel=0.012)
        assert end.share == start.share
        soft = there.attempt.matches[0].stiffness * 1e5
        assert abs(end.outlet_pressure - start.outlet_pressure) <= 2.1e5 + 0.02e5 / max(soft, 1e-3)
        one, two = there.sides.typed.run_length.si, back.proposed.model.run_length.si
        assert two == pytest.approx(one, rel=0.03)
        if there.entry("injection volume").how != "limited by":
            volume = back.proposed.model.injection.volume.si
            assert volume == pytest.approx(there.sides.typed.injection.volume.si, rel=0.01)


@_GENTLE
@given(cases)
def test_invariants_are_kept_or_explained(case):
    """Reduced velocity, column volumes of the run, share of the injection, mean density."""
    with tempfile.TemporaryDirectory() as folder:
        file = lab_of(case, Path(folder))
        try:
            result = moved(file)
        except CannotTransfer:
            assume(False)
        if not result.feasible:
            assert result.obstacles[0].message
            assert result.text == ""
            return
        one, two = result.sides.source.bed, result.sides.target.bed
        before, after = result.sides.states[0], result.attempt.states[0]
        velocity = result.attempt.rows[0].flow / result.sides.rows[0].flow
        velocity *= (one.inner_diameter / two.inner_diameter) ** 2
        velocity *= two.particle_size / one.particle_size
        if abs(velocity - 1.0) > 0.006:
            assert result.entry("flow").limit
        volumes = result.sides.typed.run_length.si / before.hold_up_time
        moved_length = result.proposed.model.run_length.si
        assert moved_length / after.hold_up_time == pytest.approx(volumes, rel=0.02)
        entry = result.entry("injection volume")
        if not entry.limit:
            share = result.sides.typed.injection.volume.si / before.run.hold_up_volume
            found = result.proposed.model.injection.volume.si / after.run.hold_up_volume
            assert found == pytest.approx(share, rel=0.01)
        left = abs(result.attempt.residuals[0])
        stiff = case["share"] >= 40 or case["celsius"] <= 30
        if not stiff and not result.entry("outlet pressure").limit:
            assert left < 0.005
        assert result.attempt.beyond == ()
