"""Flow trains: what is refused, volumes, slices."""

import math
from dataclasses import replace

import numpy as np
import pytest

from methodlint.hydraulics.layout import NULL_SEGMENT, stack_layouts
from methodlint.hydraulics.train import Segment, Train

from .trains import COLUMN, bench_a, one_tube


def test_places_of_column_cell_and_regulator():
    train = bench_a()
    assert train.columns == (4,)
    assert train.cell == 6
    assert train.regulator == 7
    assert train.index("tube to cell") == 5
    with pytest.raises(KeyError):
        train.index("nowhere")


def test_hold_up_volume_of_a_three_by_hundred_column():
    # 3.0 x 100 mm, total porosity 0.65: 0.459 mL (geometry)
    assert COLUMN.volume == pytest.approx(0.4595e-6, rel=1e-3)


def test_volume_before_the_column_sums_tubes_and_parts():
    tubes = math.pi / 4.0 * (0.25e-3**2 + 0.15e-3**2) * 0.3
    train = bench_a()
    assert train.volume_before(4) == pytest.approx(320e-9 + tubes, rel=1e-12)


def test_slices_carry_the_whole_volume_and_resistance():
    train = bench_a()
    layout = train.layout()
    assert layout.slices == 30 + 3 + 4
    volume = sum(segment.volume for segment in train.segments)
    assert layout.volume.sum() == pytest.approx(volume, rel=1e-12)
    finer = train.layout(refine=2)
    assert finer.viscous.sum() == pytest.approx(layout.viscous.sum(), rel=1e-12)
    assert finer.turbulent.sum() == pytest.approx(layout.turbulent.sum(), rel=1e-12)
    part = train.slices_of(layout, train.index("column"))
    assert part.stop - part.start == 30
    assert layout.is_column[part].all()


def test_a_tube_is_cut_up_where_it_loses_a_part_worth_telling():
    """By geometry alone, or a measured resistance would change the slices it was measured with."""
    narrow = Segment("narrow tube", "tube", 0.60, 0.1e-3)
    wide = Segment("wide tube", "tube", 0.60, 0.25e-3)
    for column in (COLUMN, replace(COLUMN, flow_resistance=50.0), replace(COLUMN, loss=False)):
        train = Train((narrow, column, wide))
        numbers = train.layout().segment.tolist()
        assert (numbers.count(0), numbers.count(1), numbers.count(2)) == (3, 30, 1)
    assert one_tube(0.6, 0.15e-3).layout().slices == 3


def test_own_temperature_wins_over_the_surroundings():
    train = Train((COLUMN, Segment("cell", "cell", temperature=303.15)))
    layout = train.layout(per_column=2)
    assert layout.temperatures(313.15).tolist() == [313.15, 313.15, 303.15]
    rows = layout.temperatures(np.array([[313.15], [323.15]]))
    assert rows[:, 0].tolist() == [313.15, 323.15]
    assert rows[:, 2].tolist() == [303.15, 303.15]


def test_tube_known_by_volume_alone_has_no_loss():
    train = Train((Segment("line", "tube", swept_volume=50e-9, loss=False),))
    layout = train.layout()
    assert layout.volume.sum() == pytest.approx(50e-9)
    assert not layout.is_tube.any()


def test_padding_is_behind_the_regulator():
    stacked = stack_layouts([bench_a().layout(), one_tube(0.5, 1e-4).layout()], [2, 1])
    assert stacked.segment.shape == (3, 37)
    assert (stacked.segment[2, 3:] == NULL_SEGMENT).all()
    assert stacked.viscous[2, 3:].sum() == stacked.volume[2, 3:].sum() == 0.0
    assert stacked.losses.take(np.array([2])).viscous.shape == (1, 37)


@pytest.mark.parametrize("missing", ["length", "bore", "particle_size", "total_porosity"])
def test_a_column_without_a_dimension_is_refused(missing):
    with pytest.raises(ValueError, match=missing):
        replace(COLUMN, **{missing: 0.0})


def test_a_tube_with_loss_needs_its_bore():
    with pytest.raises(ValueError, match="bore"):
        Segment("tube", "tube", length=0.5)


def test_names_are_unique_and_a_train_is_never_empty():
    with pytest.raises(ValueError, match="column"):
        Train((COLUMN, COLUMN))
    with pytest.raises(ValueError, match="at least one"):
        Train(())
    with pytest.raises(ValueError, match="stacking"):
        stack_layouts([], [])
