"""Additives and pH (common practice, no source; the column card first).

0.5 % v/v diethylamine is 0.005 x 707 kg/m3 / 0.07314 kg/mol = 48 mM (CRC Handbook of Chemistry and
Physics, density at 20 degC from memory).
"""

from __future__ import annotations

import pytest

from methodlint.judging.finding import Finding
from tests.rules.harness import findings, judged

RULE = "column.additive-or-ph-forbidden"


def method(additive: str, level: str, more: str = "", liquid: str = "ethanol") -> str:
    entry = f"{{additive: {additive}, level: {level}}}"
    return (
        "kind: method\nmobile_phase:\n"
        f"  modifier: {{liquid: {liquid}, line: null, additives: [{entry}]{more}}}\n"
    )


def said(column: str, *parts: str) -> list[Finding]:
    return findings("---\n".join([f"kind: column\n{column}\n", *parts]), RULE)


def test_silent_for_an_aqueous_limit_and_formate_in_methanol() -> None:
    limits = "ph_limits: [2, 8]"
    assert said(limits, method("ammonium formate", "20 mM", ", ph: 9.5")) == []
    blend = (
        "kind: method\nmobile_phase: {modifier: {line: null, ph: 9.5, liquids: "
        "[{liquid: methanol, share: 70 %}, {liquid: water, share: 30 %}]}}\n"
    )
    (finding,) = said(limits, blend)
    assert "at pH 9.5" in finding.message and "pH 2 to 8: 1.5 outside" in finding.message
    assert said(limits, blend.replace("30 %", "15 %").replace("70 %", "85 %")) == []


@pytest.mark.parametrize("level", ["0.1 % v/v", "0.5 % v/v", "20 mM"])
@pytest.mark.parametrize("additive", ["DEA", "diethylamine"])
def test_silent_up_to_half_a_percent_on_a_coated_phase(additive: str, level: str) -> None:
    assert said("phase: coated polysaccharide", method(additive, level)) == []


@pytest.mark.parametrize("phase", ["immobilised polysaccharide", "bonded silica"])
def test_silent_where_nothing_sets_a_limit(phase: str) -> None:
    assert said(f"phase: {phase}", method("DEA", "1 % v/v")) == []


def test_half_a_percent_in_another_unit_is_the_same_limit() -> None:
    assert said("phase: coated polysaccharide", method("DEA", "47 mM")) == []
    (finding,) = said("phase: coated polysaccharide", method("DEA", "60 mM"))
    assert finding.found is not None and finding.limit is not None
    assert finding.found.value == pytest.approx(60.0)
    assert finding.limit.value == pytest.approx(0.005 * 707.0 / 0.07314, rel=0.02)


@pytest.mark.parametrize(
    ("phase", "additive", "grade"),
    [
        ("coated polysaccharide", "TFA", "fault"),
        ("coated polysaccharide", "DEA", "fault"),
        ("coated polysaccharide", "formic acid", "caution"),
        ("bare silica", "isopropylamine", "caution"),
    ],
)
def test_classes(phase: str, additive: str, grade: str) -> None:
    (finding,) = said(f"phase: {phase}", method(additive, "1 % v/v"))
    assert finding.grade == grade
    assert "0.5 % v/v" in finding.message
    assert finding.at.path == ("mobile_phase", "modifier", "additives", 0)


def test_the_card_s_limit_comes_first_by_name_or_by_kind() -> None:
    card = "phase: coated polysaccharide\nadditive_limits: [{additive: amine, level: 2 % v/v}]"
    assert said(card, method("DEA", "1 % v/v")) == []
    (finding,) = said(card, method("DEA", "3 % v/v"))
    assert "the column card" in finding.message
    none = "additive_limits: [{additive: TFA}]"
    (finding,) = said(none, method("TFA", "0.1 % v/v"))
    assert "none of it" in finding.message


def test_a_limit_of_the_whole_mobile_phase() -> None:
    # 40 % of modifier at most: 20 mM there are 8 mM in all.
    card = "additive_limits: [{{additive: AmF, level: {} mM, of: total}}]"
    assert said(card.format(8.1), method("AmF", "20 mM")) == []
    (finding,) = said(card.format(7.9), method("AmF", "20 mM"))
    assert finding.found is not None
    assert finding.found.value == pytest.approx(8.0)


def test_a_flush_counts_and_the_diluent_does_not() -> None:
    liquid = "{liquid: ethanol, additives: [{additive: TFA, level: 1 % v/v}]}"
    sequence = f"kind: sequence\ndiluent: {liquid}\n"
    assert said("phase: coated polysaccharide", sequence) == []
    flush = (
        "kind: sequence\nlines:\n  - {kind: sample, sample: x, well: A1}\n"
        f"  - {{kind: flush, duration: 5 min, liquid: {liquid}}}\n"
    )
    (finding,) = said("phase: coated polysaccharide", flush)
    assert "as flush" in finding.message


def test_the_printed_remedy_was_tried() -> None:
    (finding,) = said("phase: coated polysaccharide", method("DEA", "1 % v/v"))
    assert finding.remedy == "lower DEA to 0.5 % v/v"


def test_missing_figures_are_not_checked() -> None:
    bare = (
        "kind: method\nmobile_phase: {modifier: {liquid: ethanol, line: null, "
        "additives: [{additive: DEA}]}}\n"
    )
    report = judged(f"kind: column\nphase: coated polysaccharide\n---\n{bare}", RULE)
    assert report.not_checked[0].missing == ("level of DEA",)
    aqueous = (
        "kind: method\nmobile_phase: {modifier: {line: null, ph: 9, liquids: "
        "[{liquid: methanol, share: 70 %}, {liquid: water, share: 30 %}]}}\n"
    )
    report = judged(aqueous, RULE)
    assert report.not_checked[0].missing == ("column.ph_limits",)
