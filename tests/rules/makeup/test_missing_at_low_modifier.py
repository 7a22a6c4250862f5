"""0.1 mL/min for an electrospray: common practice, no source. 5 % of 1.5 mL/min is 0.075 mL/min."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "makeup.missing-at-low-modifier"
MS = "kind: method\ndetectors: [{type: MS, source: ESI, polarity: positive}]\n"
SALT = "mobile_phase: {modifier: {liquid: methanol, line: modifier-1, additives: "
SALT += "[{additive: ammonium formate, level: 5 mM}]}}\n"
SPLITTER = """---
kind: instrument
train:
  - {part: mixer, name: mixer, volume: 0.2 mL}
  - {part: column}
  - {part: splitter, name: splitter, split_ratio: 10 %, active: true}
  - {part: tee, name: makeup tee}
  - {part: regulator, name: regulator, pressure_rating: 380 bar}
  - {part: source, name: source, detector: MS}
"""


def test_silent_with_uv_only() -> None:
    assert findings("", RULE) == []


def test_silent_with_makeup_enough() -> None:
    makeup = "makeup: {liquid: methanol, flow: 0.1 mL/min, tee: before the regulator}\n"
    assert findings(MS + makeup, RULE) == []


def test_silent_for_photoionisation_of_lipids() -> None:
    appi = "kind: method\nanalytes: lipids\ndetectors: [{type: MS, source: APPI}]\n"
    assert findings(appi, RULE) == []


def test_silent_behind_a_splitter_with_its_own_makeup() -> None:
    makeup = "makeup: {liquid: methanol, flow: 0.05 mL/min, tee: after the regulator}\n"
    assert findings(MS + makeup + SPLITTER, RULE) == []


def test_a_splitter_without_any_makeup_is_as_lean() -> None:
    """5 % of 1.5 mL/min upstream of the splitter; what it sends on keeps the proportion."""
    (found,) = findings(MS + SPLITTER, RULE)
    assert found.grade == "caution"
    assert "0.075 mL/min of liquid is left for the electrospray before the splitter" in (
        found.message
    )


def test_lean_start_without_makeup_is_a_caution() -> None:
    (found,) = findings(MS, RULE)
    assert found.grade == "caution"
    assert found.found is not None
    assert found.found.value == pytest.approx(0.075)
    assert found.limit is not None
    assert found.limit.value == pytest.approx(0.1)
    assert found.when is not None
    assert found.when.start == 0.0


def test_with_a_salt_it_is_a_fault() -> None:
    (found,) = findings(MS + SALT, RULE)
    assert found.grade == "fault"
    assert "ammonium formate dries out" in found.message


def test_remedy_lifts_the_leanest_moment_to_the_aim() -> None:
    (found,) = findings(MS, RULE)
    assert found.remedy == "add 0.12 mL/min of methanol as makeup before the regulator"
    makeup = "makeup: {liquid: methanol, flow: 0.01 mL/min, tee: before the regulator}\n"
    (found,) = findings(MS + makeup, RULE)
    assert found.remedy == "raise the makeup flow to 0.12 mL/min"


def test_a_source_that_is_not_named_is_not_checked() -> None:
    text = "kind: method\ndetectors: [{type: MS}]\n---\nkind: instrument\nms: {source: null}\n"
    assert judged(text, RULE).not_checked[0].missing == ("instrument.ms.source",)
