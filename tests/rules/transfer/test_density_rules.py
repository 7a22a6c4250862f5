"""Density and the settings that keep it: silent cases first."""

from __future__ import annotations

import pytest

from methodlint.scaling import comparison
from methodlint.scaling.settled import NotCovered
from tests.rules.harness import findings, judged

from .pairs import WIDE

MISMATCH = "transfer.density-mismatch"
UNSAFE = "transfer.density-fix-unsafe"


def pair(target: int, source: int, share: int = 5, celsius: int = 40, card: str = "") -> str:
    """4.6 x 250, 5 um at 3.0 mL/min -> 3.0 x 150, 3 um at 2.13 mL/min."""
    shared = f"programme: []\nmobile_phase: {{modifier_share: {share} % v/v}}\noven_temperature: {celsius} degC\n"
    return (
        f"kind: method\ntransferred_from: source\nflow: 2.13 mL/min\noutlet_pressure: {target} bar\n{shared}"
        f"---\nkind: method\nx-name: source\ncolumn: wide\nflow: 3.0 mL/min\n"
        f"outlet_pressure: {source} bar\n{shared}" + WIDE + card
    )


@pytest.mark.parametrize("rule", [MISMATCH, UNSAFE])
def test_silent_without_a_source(rule):
    assert findings("kind: method\noutlet_pressure: 90 bar\n", rule) == []


@pytest.mark.parametrize(("share", "celsius"), [(45, 40), (60, 40), (5, 25), (5, 30)])
def test_a_stiff_liquid_is_a_note_at_most(share, celsius):
    found = findings(pair(120, 120, share, celsius), MISMATCH)
    assert all(finding.grade == "note" for finding in found)
    assert findings(pair(120, 120, share, celsius), UNSAFE) == []


def test_the_setting_that_equalises_is_silent():
    assert findings(pair(98, 120), MISMATCH) == []


def test_the_same_setting_is_found():
    """+3.5 % with ideal mixing of volumes; the real mixture is near that: a caution."""
    report = judged(pair(120, 120), MISMATCH)
    (found,) = report.findings
    assert found.grade == "caution"
    assert found.found.value == pytest.approx(3.5, abs=1.2)
    assert "phase boundary" in found.message
    assert "%/bar" in found.message
    assert report.not_checked == []


def test_its_remedy_was_tried_and_clears_it():
    (found,) = findings(pair(120, 120), MISMATCH)
    assert (found.grade, found.limit.value) == ("caution", 2.0)
    assert found.remedy.startswith("set the outlet pressure to")
    setting = int(found.remedy.split()[-2])
    assert findings(pair(setting, 120), MISMATCH) == []


def test_more_than_five_per_cent_is_a_fault():
    (found,) = findings(pair(150, 110), MISMATCH)
    assert (found.grade, found.limit.value) == ("fault", 5.0)


# The setting itself ----------------------------------------------------------------------------


def test_little_left_is_silent():
    """Far above the boundary the solved setting can be run."""
    assert findings(pair(128, 150), UNSAFE) == []
    assert findings(pair(150, 150), UNSAFE) == []


def test_a_setting_too_near_the_boundary_is_a_fault():
    report = judged(pair(85, 105), UNSAFE)
    (found,) = report.findings
    assert found.grade == "fault"
    assert found.found.value < found.limit.value
    # Boundary of about 81 bar at 40 degC (literature 82 bar, from memory) + 15 bar.
    assert "phase boundary" in found.message or "compressibility" in found.message
    assert "lower the flow" in found.remedy
    assert report.not_checked == []


def test_the_regulators_own_span_counts():
    card = "\n---\nkind: instrument\nregulator: {lowest: 118 bar}\n"
    (found,) = findings(pair(118, 120, card=card), UNSAFE)
    assert "regulator" in found.message
    assert found.grade == "caution"


def test_a_mismatch_folds_beneath_it():
    report = judged(pair(97, 105), UNSAFE, MISMATCH)
    tops = {finding.rule for finding in report.findings}
    assert tops <= {UNSAFE, MISMATCH}
    if UNSAFE in tops:
        assert MISMATCH not in tops


# What cannot be compared ------------------------------------------------------------------------

OTHER_SHARE = pair(120, 120).replace("modifier_share: 5 %", "modifier_share: 15 %", 1)


@pytest.mark.parametrize("rule", [MISMATCH, UNSAFE])
def test_methods_without_a_common_composition_are_not_checked(rule):
    report = judged(OTHER_SHARE, rule)
    assert report.findings == []
    (left,) = report.not_checked
    assert left.missing == ("method.outlet_pressure",)
    assert left.reason == "no composition of the source is set here within 5 %"


def test_a_setting_that_no_model_covers_is_not_checked(monkeypatch):
    def beyond(*_):
        raise NotCovered("outside the range of the model by 12 bar")

    monkeypatch.setattr(comparison, "solve_outlet_pressures", beyond)
    (left,) = judged(pair(120, 120), UNSAFE).not_checked
    assert left.reason == "outside the range of the model by 12 bar"
    (found,) = findings(pair(120, 120), MISMATCH)
    assert "was not found: outside the range of the model by 12 bar" in found.remedy


def test_states_that_no_model_covers_are_not_checked(monkeypatch):
    def beyond(_):
        raise NotCovered("method.flow is missing")

    monkeypatch.setattr(comparison, "settled_states", beyond)
    report = judged(pair(85, 105), MISMATCH, UNSAFE)
    assert report.findings == []
    assert {left.reason for left in report.not_checked} == {"method.flow is missing"}
    assert {left.rule for left in report.not_checked} == {MISMATCH, UNSAFE}
