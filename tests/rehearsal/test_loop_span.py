"""Spans of autosampler modes (common practice, no source)."""

from __future__ import annotations

import pytest

from methodlint.documents.kinds.instrument import Autosampler
from methodlint.rehearsal.batch.loop_span import loop_span


def sampler(**figures: object) -> Autosampler:
    return Autosampler.model_validate({"loop": "10 uL", "lowest_volume": "0.1 uL", **figures})


def test_half_the_loop_without_a_figure_of_the_card() -> None:
    span = loop_span(sampler(), "part-filled loop")
    assert span.highest == pytest.approx(5e-9)
    assert span.tolerated == pytest.approx(7e-9)
    assert span.fitting_loop(8e-9) == pytest.approx(20e-9)
    assert span.fitting_loop(1.0) is None


def test_the_card_s_figures_come_first_and_the_smaller_one_counts() -> None:
    span = loop_span(sampler(largest_part_fill="80 %"), "part-filled loop")
    assert (span.highest, span.tolerated) == (pytest.approx(8e-9), None)
    span = loop_span(sampler(largest_part_fill="80 %", highest_volume="3 uL"), "part-filled loop")
    assert span.highest == pytest.approx(3e-9)
    span = loop_span(sampler(highest_volume="6 uL"), "part-filled loop")
    assert (span.highest, span.tolerated) == (pytest.approx(5e-9), pytest.approx(6e-9))


def test_a_filled_loop_has_one_volume() -> None:
    span = loop_span(sampler(), "filled loop")
    assert span.whole and span.lowest == span.highest == pytest.approx(10e-9)
    assert span.fitting_loop(8e-9) is None


def test_ends_belong_to_the_span() -> None:
    span = loop_span(sampler(), "part-filled loop")
    assert not span.too_little(0.1e-9) and not span.too_much(5e-9)
    assert span.too_little(0.099e-9) and span.too_much(5.001e-9)


@pytest.mark.parametrize(
    ("figures", "mode", "missing"),
    [
        ({"lowest_volume": None}, "filled loop", ()),
        ({"lowest_volume": None}, "metered", "instrument.autosampler.lowest_volume"),
        ({}, "metered", "instrument.autosampler.highest_volume"),
        ({}, None, "method.injection.mode"),
        ({"loop": None}, "filled loop", "instrument.autosampler.loop"),
        ({"flow_through_needle": True}, None, "instrument.autosampler.highest_volume"),
    ],
)
def test_what_is_missing(figures: dict[str, object], mode: str | None, missing: str) -> None:
    found = loop_span(sampler(**figures), mode).missing
    assert missing in found if missing else found == ()
