"""The pump draws what its bottles hold: methanol on modifier-1 and ethanol on modifier-2 at the
bench of the sound lab, 2-propanol as needle wash, a salt in methanol as makeup."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "sequence.flush-liquid-missing"
SAMPLE = "  - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}\n"
AMINE = "liquid: methanol, additives: [{additive: diethylamine, level: 0.1 % v/v}]"


def _flush(liquid: str, *more: str) -> str:
    written = (f"kind: flush, liquid: {liquid}, duration: 10 min", *more)
    lines = "".join(f"  - {{{line}}}\n" for line in written)
    return f"kind: sequence\nlines:\n{SAMPLE}{lines}---\n"


def _bottles(*lines: str) -> str:
    text = "".join(f"  - {{{line}, fill: 900 mL, dead_volume: 60 mL}}\n" for line in lines)
    return f"kind: solvents\nbottles:\n{text}---\n"


def _method(modifier: str) -> str:
    return f"kind: method\nmobile_phase: {{modifier: {{{modifier}, line: modifier-1}}}}\n"


AMINE_ONLY = _bottles(f"line: modifier-1, {AMINE}") + _method(AMINE)


# Silent --------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["methanol", "MeOH", "methyl alcohol", "EtOH", "Ethanol"])
def test_silent_for_a_bottle_of_it_under_any_name(name: str) -> None:
    assert findings(_flush(name), RULE) == []


def test_silent_for_a_flush_without_a_liquid_and_for_none() -> None:
    text = f"kind: sequence\nlines:\n{SAMPLE}  - {{kind: flush, duration: 10 min}}\n"
    assert judged(text, RULE).checked == 0
    assert judged(f"kind: sequence\nlines:\n{SAMPLE}", RULE).checked == 0


def test_silent_without_a_list_of_bottles() -> None:
    report = judged(_flush("toluene") + "kind: sequence\nsolvents: null\n", RULE)
    assert report.findings == []
    assert [lacking.missing for lacking in report.not_checked] == [("solvents.bottles",)]


def test_silent_for_a_second_bottle_without_the_amine() -> None:
    pure = _bottles(f"line: modifier-1, {AMINE}", "line: modifier-2, liquid: MeOH")
    assert findings(_flush("methanol") + pure + _method(AMINE), RULE) == []


def test_silent_for_a_flush_that_names_the_additive() -> None:
    named = "{liquid: MeOH, additives: [{additive: DEA, level: 0.1 % v/v}]}"
    assert findings(_flush(named) + AMINE_ONLY, RULE) == []


def test_silent_for_a_blend_that_a_bottle_holds() -> None:
    blend = "liquids: [{liquid: IPA, share: 50 %}, {liquid: MeOH, share: 50 %}]"
    both = _bottles("line: modifier-1, liquid: methanol", f"line: modifier-2, {blend}")
    assert findings(_flush(f"{{{blend}}}") + both, RULE) == []


def test_silent_for_the_volatile_salt_that_ran_before() -> None:
    salt = "liquid: MeOH, additives: [{additive: ammonium formate, level: 20 mM}]"
    bottle = _bottles(f"line: modifier-1, {salt}")
    assert findings(_flush("methanol") + bottle + _method(salt), RULE) == []
    # A salt that nothing before has brought is no less than a surprise.
    (found,) = findings(_flush("methanol") + bottle + _method("liquid: methanol"), RULE)
    assert found.grade == "caution"
    assert "modifier-1 holds methanol + 20 mM ammonium formate" in found.message


def test_silent_for_co2_alone() -> None:
    assert findings(_flush("CO2"), RULE) == []


# Firing --------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["toluene", "acetonitrile"])
def test_a_liquid_that_no_bottle_holds_is_a_caution(name: str) -> None:
    (found,) = findings(_flush(name), RULE)
    assert found.grade == "caution"
    assert found.message == (
        f"line 2 flushes with {name}, which no bottle of the modifier pump holds; there is "
        "methanol on modifier-1, ethanol on modifier-2"
    )
    assert found.remedy == f"put a bottle of {name} on a line"
    assert found.at.path == ("lines", 1, "liquid")


def test_washes_and_makeup_are_not_on_the_modifier_pump() -> None:
    assert [found.grade for found in findings(_flush("2-propanol"), RULE)] == ["caution"]
    makeup = "{liquid: MeOH, additives: [{additive: ammonium formate, level: 5 mM}]}"
    assert [found.grade for found in findings(_flush(makeup), RULE)] == ["caution"]


def test_lines_that_the_card_does_not_give_are_all_but_washes_and_makeup() -> None:
    card = "kind: instrument\nmodifier_pump: {lines: []}\n---\n"
    assert findings(card + _flush("ethanol"), RULE) == []
    assert len(findings(card + _flush("2-propanol"), RULE)) == 1


def test_the_amine_that_the_flush_should_remove_is_a_fault() -> None:
    (found,) = findings(_flush("methanol") + AMINE_ONLY, RULE)
    assert found.grade == "fault"
    assert found.message == (
        "line 2 flushes with methanol, but modifier-1 holds methanol + 0.1 % v/v diethylamine: "
        "diethylamine goes through the column, not out of it"
    )
    assert found.remedy == (
        "put a bottle of methanol on a line or write that the flush draws "
        "methanol + 0.1 % v/v diethylamine"
    )
    assert found.also[0].path == ("bottles", 0)


@pytest.mark.parametrize("additive", ["TFA", "potassium phosphate", "triethylamine"])
def test_what_a_column_or_a_line_keeps_is_a_fault(additive: str) -> None:
    kept = f"liquid: methanol, additives: [{{additive: {additive}, level: 5 mM}}]"
    text = _flush("methanol") + _bottles(f"line: modifier-1, {kept}") + _method(kept)
    assert [found.grade for found in findings(text, RULE)] == ["fault"]


def test_what_the_booking_before_left_counts() -> None:
    before = f"kind: sequence\nprevious: {{modifier: {{{AMINE}}}}}\n---\n"
    amine = _bottles(f"line: modifier-2, {AMINE}", "line: modifier-1, liquid: ethanol")
    method = _method("liquid: ethanol")
    assert [f.grade for f in findings(_flush("MeOH") + before + amine + method, RULE)] == ["fault"]
    assert [f.grade for f in findings(_flush("MeOH") + amine + method, RULE)] == ["caution"]


def test_an_additive_that_the_bottle_lacks_is_a_caution() -> None:
    (found,) = findings(
        _flush("{liquid: MeOH, additives: [{additive: TFA, level: 0.1 % v/v}]}"), RULE
    )
    assert found.grade == "caution"
    assert "but modifier-1 holds methanol" in found.message


def test_one_liquid_in_several_lines_is_one_finding() -> None:
    again = "kind: flush, liquid: Toluene, duration: 5 min"
    (found,) = findings(_flush("toluene", again, again), RULE)
    assert found.message.startswith("line 2 and 2 others flush with toluene")


def test_a_liquid_that_is_not_known_is_not_checked() -> None:
    report = judged(_flush("our own mixture"), RULE)
    assert report.findings == []
    assert report.not_checked[0].reason == "our own mixture is not known"
