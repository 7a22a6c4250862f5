"""How a band decides the class; the words of the rules are those of the bench."""

from __future__ import annotations

import pytest

from methodlint.judging.shared.bands import Judgement, judge_limit


@pytest.mark.parametrize("grade", ["stop", "fault", "caution", "note"])
def test_far_below_the_limit_nothing_is_said(grade: str) -> None:
    assert judge_limit(100.0, 400.0, 20.0, grade) is None  # type: ignore[arg-type]


def test_a_stop_is_judged_at_the_unfavourable_end() -> None:
    assert judge_limit(410.0, 400.0, 20.0, "stop") == Judgement("stop", possible=False)
    assert judge_limit(390.0, 400.0, 20.0, "stop") == Judgement("stop", possible=True)
    assert judge_limit(370.0, 400.0, 20.0, "stop") is None


def test_a_trip_lowers_a_possible_stop_but_never_a_certain_one() -> None:
    assert judge_limit(390.0, 400.0, 20.0, "stop", protected=True) == Judgement(
        "caution", possible=True
    )
    assert judge_limit(410.0, 400.0, 20.0, "stop", protected=True) == Judgement(
        "stop", possible=False
    )


def test_a_fault_needs_the_whole_band_beyond_the_limit() -> None:
    assert judge_limit(430.0, 400.0, 20.0, "fault") == Judgement("fault", possible=False)
    assert judge_limit(410.0, 400.0, 20.0, "fault") == Judgement("caution", possible=True)
    assert judge_limit(390.0, 400.0, 20.0, "fault") == Judgement("caution", possible=True)
    assert judge_limit(379.0, 400.0, 20.0, "fault") is None


def test_limits_from_below_mirror_those_from_above() -> None:
    assert judge_limit(-30.0, 0.0, 5.0, "fault", above=False) == Judgement("fault", possible=False)
    assert judge_limit(3.0, 0.0, 5.0, "fault", above=False) == Judgement("caution", possible=True)
    assert judge_limit(6.0, 0.0, 5.0, "fault", above=False) is None


def test_a_caution_stays_a_caution_inside_its_band() -> None:
    assert judge_limit(401.0, 400.0, 20.0, "caution") == Judgement("caution", possible=True)
    assert judge_limit(399.0, 400.0, 20.0, "caution") is None


def test_the_favourable_half_decides_whether_all_of_the_band_is_beyond() -> None:
    sharp = judge_limit(430.0, 400.0, 50.0, "fault", favourable=20.0)
    assert sharp == Judgement("fault", possible=False)
    assert judge_limit(430.0, 400.0, 50.0, "fault") == Judgement("caution", possible=True)
    wide = judge_limit(410.0, 400.0, 5.0, "fault", favourable=20.0)
    assert wide == Judgement("caution", possible=True)
