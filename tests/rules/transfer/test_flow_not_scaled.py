"""F2 = F1 (d2^2 dp1)/(d1^2 dp2) (USP <621>, from memory): 3.0 mL/min on 4.6 mm with 5 um are
2.13 mL/min on 3.0 mm with 3 um. Within 10 %, and 50 % for a fault: common practice, no source.
"""

from __future__ import annotations

import re

import pytest

from tests.rules.harness import findings
from tests.rules.transfer.pairs import FROM, ISOCRATIC, WIDE

RULE = "transfer.flow-not-scaled"


def test_silent_without_a_source():
    assert findings("kind: method\nflow: 0.5 mL/min\n", RULE) == []


def test_silent_on_a_transfer_to_the_same():
    assert findings(ISOCRATIC + FROM, RULE) == []


def test_the_flow_by_geometry_is_silent():
    """3.0 -> 2.13 mL/min (common practice, no source)."""
    text = ISOCRATIC + "flow: 2.13 mL/min" + FROM + "flow: 3.0 mL/min\ncolumn: wide" + WIDE
    assert findings(text, RULE) == []


def test_silent_within_a_tenth():
    """2.127 mL/min by geometry x 1.09 = 2.32 mL/min (arithmetic)."""
    text = ISOCRATIC + "flow: 2.32 mL/min" + FROM + "flow: 3.0 mL/min\ncolumn: wide" + WIDE
    assert findings(text, RULE) == []


def test_a_change_on_record_is_silent():
    text = ISOCRATIC + "flow: 1.2 mL/min\ntransfer: {flow_reason: shortened on purpose}" + FROM
    assert findings(text + "flow: 3.0 mL/min\ncolumn: wide" + WIDE, RULE) == []


@pytest.mark.parametrize(("flow", "grade"), [("1.6 mL/min", "caution"), ("0.9 mL/min", "fault")])
def test_another_flow_is_found(flow, grade):
    text = ISOCRATIC + f"flow: {flow}" + FROM + "flow: 3.0 mL/min\ncolumn: wide" + WIDE
    (found,) = findings(text, RULE)
    assert found.grade == grade
    assert "2.13 mL/min" in found.message
    assert found.limit.value == pytest.approx(2.127, abs=0.001)


def test_the_flow_inside_the_column_is_off_by_nearly_as_much():
    """3.0 mL/min by geometry are 2.127, so 1.6 are 25 % less (arithmetic); densities differ little."""
    text = ISOCRATIC + "flow: 1.6 mL/min" + FROM + "flow: 3.0 mL/min\ncolumn: wide" + WIDE
    (found,) = findings(text, RULE)
    assert "flow 1.6 mL/min is -25 % off" in found.message
    inside = re.search(r"inside the column it is ([-+]\d+) % off", found.message)
    assert inside is not None
    assert float(inside[1]) == pytest.approx(-25, abs=4)


def test_the_remedy_of_the_flow_was_tried():
    text = ISOCRATIC + "flow: 1.6 mL/min" + FROM + "flow: 3.0 mL/min\ncolumn: wide" + WIDE
    (found,) = findings(text, RULE)
    assert found.remedy == "set the flow to 2.13 mL/min"


def test_a_flow_that_the_programme_changes_is_not_set_for_the_user():
    rows = "programme: [{time: 0 min, modifier_share: 10 % v/v, flow: 1.6 mL/min}]\n"
    text = ISOCRATIC.replace("programme: []\n", rows) + FROM + "flow: 3.0 mL/min\ncolumn: wide"
    (found,) = findings(text + WIDE, RULE)
    assert found.solutions == ()
    assert "scale the times with it" in found.remedy
