"""Spans of time in which something is above its limit do not depend on the times computed."""

from __future__ import annotations

from typing import Any, cast

import numpy as np
import pytest

from methodlint.rehearsal.run.rehearsal import Rehearsal


def _at(*times: float) -> Rehearsal:
    return Rehearsal(plan=cast(Any, None), time=np.array(times))


def test_never_and_always() -> None:
    run = _at(0.0, 60.0, 90.0)
    assert run.windows(np.array([-1.0, 0.0, -2.0])) == []
    assert run.windows(np.array([1.0, 2.0, 0.5])) == [(0.0, 90.0)]


def test_a_span_begins_and_ends_where_a_straight_line_crosses() -> None:
    run = _at(0.0, 60.0, 90.0, 100.0)
    (span,) = run.windows(np.array([-1.0, 3.0, 1.0, -4.0]))
    assert span == (pytest.approx(15.0), pytest.approx(92.0))


def test_two_spans_and_a_single_moment() -> None:
    run = _at(0.0, 10.0, 20.0, 30.0)
    spans = run.windows(np.array([1.0, -1.0, -1.0, 1.0]))
    assert spans == [(0.0, pytest.approx(5.0)), (pytest.approx(25.0), 30.0)]
    assert _at(0.0).windows(np.array([1.0])) == [(0.0, 0.0)]


def test_a_span_beside_an_infinite_margin_ends_at_the_last_time_inside() -> None:
    run = _at(0.0, 10.0, 20.0, 30.0)
    assert run.windows(np.array([-np.inf, 1.0, 1.0, -np.inf])) == [(10.0, 20.0)]


@pytest.mark.parametrize("step", [7.0, 3.0, 0.5])
def test_the_times_computed_do_not_move_a_span(step: float) -> None:
    times = np.append(np.arange(0.0, 100.0, step), 100.0)
    (span,) = _at(*times).windows(times - 42.0)
    assert span == (pytest.approx(42.0), 100.0)
