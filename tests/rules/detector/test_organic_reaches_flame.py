"""detector.organic-reaches-flame: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings

RULE = "detector.organic-reaches-flame"
FLAME = "kind: method\ndetectors: [{type: FID}]\n"


@pytest.mark.parametrize(
    "phase",
    [
        "mobile_phase: null\nprogramme: null\n",
        "mobile_phase: {modifier: water}\n",
        "mobile_phase: {modifier: {liquid: formic acid}}\n",
    ],
)
def test_silent_for_what_does_not_burn(phase: str) -> None:
    assert findings(FLAME + phase, RULE) == []


def test_silent_for_other_detectors() -> None:
    assert findings("kind: method\ndetectors: [{type: ELSD}]\n", RULE) == []


def test_methanol_burns() -> None:
    (found,) = findings(FLAME, RULE)
    assert (found.grade, found.at.path) == ("fault", ("mobile_phase", "modifier"))
    assert found.message.startswith("methanol in the modifier burns in the FID")


def test_a_blend_is_named_by_what_burns_in_it() -> None:
    blend = (
        "mobile_phase: {modifier: {liquids: [{liquid: ethanol, share: 95 %}, "
        "{liquid: water, share: 5 %}]}}\n"
    )
    (found,) = findings(FLAME + blend, RULE)
    assert found.message.startswith("ethanol in the modifier")


def test_an_organic_makeup_burns_in_neat_co2_too() -> None:
    makeup = "mobile_phase: null\nprogramme: null\nmakeup: {liquid: methanol, flow: 0.1 mL/min}\n"
    (found,) = findings(FLAME + makeup, RULE)
    assert found.at.path == ("makeup",)
