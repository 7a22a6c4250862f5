"""Additives that a column keeps; 20 to 50 hold-up volumes: common practice, no source.

The column of the sound lab holds 0.689 mL: 20 of them are 13.8 mL, 9.2 min at 1.5 mL/min.
"""

from __future__ import annotations

import pytest

from methodlint.judging.finding import Finding
from tests.rules.harness import findings, judged

RULE = "column.carries-other-additive"


def last(additive: str) -> str:
    entry = f"[{{additive: {additive}, level: 20 mM}}]"
    return f"kind: column\nlast_mobile_phase: {{liquid: methanol, additives: {entry}}}\n"


def said(additive: str, sequence: str = "equilibration: 2 min", *parts: str) -> list[Finding]:
    texts = [last(additive), f"kind: sequence\n{sequence}\n", *parts]
    return findings("---\n".join(texts), RULE)


@pytest.mark.parametrize("additive", ["ammonium formate", "ammonium acetate", "ammonia"])
def test_silent_for_volatile_ammonium_salts(additive: str) -> None:
    assert said(additive) == []


def test_silent_where_the_method_uses_the_same_additive() -> None:
    own = (
        "kind: method\nmobile_phase: {modifier: {liquid: methanol, line: null, "
        "additives: [{additive: Et2NH, level: 0.1 % v/v}]}}\n"
    )
    assert said("diethylamine", "equilibration: 2 min", own) == []


def test_silent_for_a_new_column() -> None:
    text = last("TFA") + "injections: {count: 0}\n---\nkind: sequence\nequilibration: 2 min\n"
    assert findings(text, RULE) == []


@pytest.mark.parametrize("additive", ["diethylamine", "TFA", "SDS"])
def test_persistent_additives(additive: str) -> None:
    (finding,) = said(additive)
    assert finding.grade == "caution"
    assert "3 mL go through it before the first injection, 13.8 mL take it off" in finding.message


def test_twenty_hold_up_volumes_before_the_first_injection_are_enough() -> None:
    assert said("TFA", "equilibration: 9.2 min") == []
    assert len(said("TFA", "equilibration: 9.1 min")) == 1
    lines = (
        "equilibration: null\nlines:\n  - {{kind: flush, liquid: {}, duration: 10 min}}\n"
        "  - {{kind: sample, sample: x, well: A1}}\n"
    )
    assert said("TFA", lines.format("methanol")) == []
    dirty = "{liquid: methanol, additives: [{additive: TFA, level: 0.1 % v/v}]}"
    assert len(said("TFA", lines.format(dirty))) == 1
    late = (
        "equilibration: null\nlines:\n  - {kind: sample, sample: x, well: A1}\n"
        "  - {kind: flush, liquid: methanol, duration: 10 min}\n"
    )
    assert len(said("TFA", late)) == 1


def test_the_printed_remedy_was_tried() -> None:
    (finding,) = said("TFA")
    # 13.8 mL less the 3 mL of the equilibration, at 1.5 mL/min: 7.2 min
    assert "8 min" in finding.remedy
    assert "a first line 'flush', methanol" in finding.remedy


def test_a_method_alone_is_told_the_volume() -> None:
    report = judged(last("TFA") + "---\nkind: sequence\nmethod: null\nlines: []\n", RULE)
    (finding,) = report.findings
    assert "flush with 13.8 mL to 34.5 mL" in finding.remedy


def test_an_unknown_last_mobile_phase_is_not_checked() -> None:
    report = judged("kind: column\nlast_mobile_phase: null\n", RULE)
    assert report.not_checked[0].missing == ("column.last_mobile_phase",)
