"""The density of the mobile phase in both columns; the same mixture and the same beds make the answer
known beforehand. Limits: common practice, no source.
"""

from __future__ import annotations

import pytest

from methodlint.scaling import comparison
from methodlint.scaling.settled import NotCovered
from tests.rules.harness import findings, judged
from tests.rules.transfer.pairs import pair

RULE = "transfer.density-mismatch"


OTHER_SHARE = pair(120, 120).replace("modifier_share: 5 %", "modifier_share: 15 %", 1)


def test_silent_without_a_source():
    assert findings("kind: method\noutlet_pressure: 90 bar\n", RULE) == []


@pytest.mark.parametrize(("share", "celsius"), [(45, 40), (60, 40), (5, 25), (5, 30)])
def test_a_stiff_liquid_is_a_note_at_most(share, celsius):
    found = findings(pair(120, 120, share, celsius), RULE)
    assert [finding.grade for finding in found] in ([], ["note"])


def test_the_setting_that_equalises_is_silent():
    assert findings(pair(98, 120), RULE) == []


def test_the_same_setting_is_found():
    """+3.5 % with ideal mixing of volumes; the real mixture is near that: a caution."""
    report = judged(pair(120, 120), RULE)
    (found,) = report.findings
    assert found.grade == "caution"
    assert found.found.value == pytest.approx(3.5, abs=1.2)
    assert "phase boundary" in found.message
    assert "%/bar" in found.message
    assert report.not_checked == []


def test_its_remedy_was_tried_and_clears_it():
    (found,) = findings(pair(120, 120), RULE)
    assert (found.grade, found.limit.value) == ("caution", 2.0)
    assert found.remedy.startswith("set the outlet pressure to")
    setting = int(found.remedy.split()[-2])
    assert findings(pair(setting, 120), RULE) == []


def test_more_than_five_per_cent_is_a_fault():
    (found,) = findings(pair(150, 110), RULE)
    assert (found.grade, found.limit.value) == ("fault", 5.0)


def test_methods_without_a_common_composition_are_not_checked():
    report = judged(OTHER_SHARE, RULE)
    assert report.findings == []
    (left,) = report.not_checked
    assert left.missing == ("method.outlet_pressure",)
    assert left.reason == "no composition of the source is set here within 5 %"


def test_a_setting_that_no_model_covers_is_not_proposed(monkeypatch):
    def beyond(*_):
        raise NotCovered("outside the range of the model by 12 bar")

    monkeypatch.setattr(comparison, "solve_outlet_pressures", beyond)
    (found,) = findings(pair(120, 120), RULE)
    assert "was not found: outside the range of the model by 12 bar" in found.remedy


def test_states_that_no_model_covers_are_not_checked(monkeypatch):
    def beyond(_):
        raise NotCovered("method.flow is missing")

    monkeypatch.setattr(comparison, "settled_states", beyond)
    report = judged(pair(85, 105), RULE)
    assert report.findings == []
    assert {left.reason for left in report.not_checked} == {"method.flow is missing"}
