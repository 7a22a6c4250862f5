"""The density of the mobile phase in both columns; the same mixture and the same beds make the answer
known beforehand. Limits: common practice, no source.
"""

from __future__ import annotations

import pytest

from methodlint.scaling import comparison
from methodlint.scaling.settled import NotCovered
from tests.rules.harness import findings, judged
from tests.rules.transfer.pairs import pair

RULE = "transfer.density-fix-unsafe"


OTHER_SHARE = pair(120, 120).replace("modifier_share: 5 %", "modifier_share: 15 %", 1)


def test_silent_without_a_source():
    assert findings("kind: method\noutlet_pressure: 90 bar\n", RULE) == []


@pytest.mark.parametrize(("share", "celsius"), [(45, 40), (60, 40), (5, 25), (5, 30)])
def test_silent_for_a_stiff_liquid(share, celsius):
    assert findings(pair(120, 120, share, celsius), RULE) == []


def test_little_left_is_silent():
    """Far above the boundary the solved setting can be run."""
    assert findings(pair(128, 150), RULE) == []
    assert findings(pair(150, 150), RULE) == []


def test_a_setting_too_near_the_boundary_is_a_fault():
    report = judged(pair(85, 105), RULE)
    (found,) = report.findings
    assert found.grade == "fault"
    assert found.found.value < found.limit.value
    # Boundary of about 81 bar at 40 degC (literature 82 bar, from memory) + 15 bar.
    assert "phase boundary" in found.message or "compressibility" in found.message
    assert "lower the flow" in found.remedy
    assert report.not_checked == []


def test_the_regulators_own_span_counts():
    card = "\n---\nkind: instrument\nregulator: {lowest: 118 bar}\n"
    (found,) = findings(pair(118, 120, card=card), RULE)
    assert "regulator" in found.message
    assert found.grade == "caution"


def test_what_is_left_is_the_mismatch_at_the_nearest_setting():
    """At the compressibility of the solved setting, which is a little lower 20 bar above it."""
    card = "\n---\nkind: instrument\nregulator: {lowest: 118 bar}\n"
    (found,) = findings(pair(118, 120, card=card), RULE, "transfer.density-mismatch")
    (mismatch,) = found.because
    left = float(found.message.partition("which leaves ")[2].partition(" %")[0])
    assert left == pytest.approx(mismatch.found.value, rel=0.2)
    assert found.remedy.startswith(f"accept {left} %")


def test_a_mismatch_folds_beneath_it():
    (found,) = findings(pair(97, 105), RULE, "transfer.density-mismatch")
    assert found.rule == RULE
    assert [child.rule for child in found.because] == ["transfer.density-mismatch"]


def test_methods_without_a_common_composition_are_not_checked():
    report = judged(OTHER_SHARE, RULE)
    assert report.findings == []
    (left,) = report.not_checked
    assert left.missing == ("method.outlet_pressure",)
    assert left.reason == "no composition of the source is set here within 5 %"


def test_a_setting_that_no_model_covers_is_not_checked(monkeypatch):
    def beyond(*_):
        raise NotCovered("outside the range of the model by 12 bar")

    monkeypatch.setattr(comparison, "solve_outlet_pressures", beyond)
    (left,) = judged(pair(120, 120), RULE).not_checked
    assert left.reason == "outside the range of the model by 12 bar"


def test_states_that_no_model_covers_are_not_checked(monkeypatch):
    def beyond(_):
        raise NotCovered("method.flow is missing")

    monkeypatch.setattr(comparison, "settled_states", beyond)
    report = judged(pair(85, 105), RULE)
    assert report.findings == []
    assert {left.reason for left in report.not_checked} == {"method.flow is missing"}
