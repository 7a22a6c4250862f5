"""Methanol and heptane part at 20 degC: upper critical solution temperature about 51 degC
(miscibility table of this tool, with its source); five volumes: common practice, no source."""

from __future__ import annotations

import re

from tests.rules.harness import findings
from tests.rules.sequence.lines import line, samples, sequence

RULE = "sequence.method-switch-no-flush"
OTHER = line("sample", "extract 9", method="second")


def _second(liquid: str, extra: str = "") -> str:
    phase = f"mobile_phase: {{modifier: {{liquid: {liquid}, line: modifier-2}}}}"
    return f"kind: method\nx-name: second\n{phase}\n{extra}---\n"


def test_silent_for_the_same_liquid() -> None:
    assert findings(_second("methanol") + sequence(samples(1), OTHER), RULE) == []


def test_silent_between_alcohols_with_a_purge() -> None:
    assert findings(_second("ethanol") + sequence(samples(1), OTHER), RULE) == []


def test_silent_behind_a_flush_that_bridges() -> None:
    flush = line("flush", liquid="2-propanol", flush_volume="15 mL", duration="10 min")
    assert findings(_second("heptane") + sequence(samples(1), flush, OTHER), RULE) == []


def test_two_liquids_that_part_are_a_fault() -> None:
    (found,) = findings(_second("heptane") + sequence(samples(1), OTHER), RULE)
    assert found.grade == "fault"
    assert found.at.path == ("lines", 1)
    assert "methanol and n-heptane do not mix" in found.message
    assert re.search("of (ethanol|2-propanol) before line 2", found.remedy), "both mix with both"


def test_a_flush_that_is_too_small_does_not_count() -> None:
    flush = line("flush", liquid="2-propanol", flush_volume="1 mL", duration="1 min")
    (found,) = findings(_second("heptane") + sequence(samples(1), flush, OTHER), RULE)
    assert found.grade == "fault"


def test_a_flush_with_one_of_the_two_does_not_count() -> None:
    flush = line("flush", liquid="methanol", flush_volume="15 mL", duration="10 min")
    (found,) = findings(_second("heptane") + sequence(samples(1), flush, OTHER), RULE)
    assert found.grade == "fault"


def test_alcohols_without_a_purge_or_flush_are_a_caution() -> None:
    bench = "kind: solvents\npurge_volume: null\n---\n"
    (found,) = findings(bench + _second("ethanol") + sequence(samples(1), OTHER), RULE)
    assert found.grade == "caution"
    assert "methanol and ethanol mix" in found.message


def test_a_switch_forth_and_back_is_two_findings_and_no_more() -> None:
    text = sequence(samples(1), OTHER, samples(1), OTHER, samples(1))
    assert len(findings(_second("heptane") + text, RULE)) == 2


def test_the_flush_was_tried_and_its_volume_is_rounded_up() -> None:
    bench = "kind: solvents\npurge_volume: null\n---\n"
    (found,) = findings(bench + _second("ethanol") + sequence(samples(1), OTHER), RULE)
    (flush,) = found.solutions
    value = flush.changes[0].value
    assert flush.changes[0].insert
    assert float(value["flush_volume"].split()[0]) >= found.limit.value  # type: ignore[union-attr]
    assert value["liquid"] in found.remedy
