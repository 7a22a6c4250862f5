"""Which waste must not meet: hazard charts for mixed chemical waste (from memory); common practice."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "waste.streams-incompatible"


def _vessel(contents: str, rest: str = "") -> str:
    return (
        f"kind: room\nwaste:\n  - {{name: bottle, capacity: 5 L, contents: [{contents}]{rest}}}\n"
    )


@pytest.mark.parametrize("contents", ["methanol", "ethanol, acetonitrile, water", "heptane"])
def test_silent_for_the_usual_waste(contents: str) -> None:
    assert findings(_vessel(contents), RULE) == []


def test_silent_for_a_little_acid_and_amine_as_additives() -> None:
    phase = (
        "kind: method\nmobile_phase: {modifier: {liquid: methanol, line: modifier-1, additives: "
    )
    phase += "[{additive: DEA, level: 0.1 % v/v}, {additive: TFA, level: 0.1 % v/v}]}}\n---\n"
    assert findings(phase + _vessel("methanol"), RULE) == []


def test_silent_when_the_stream_ends_in_another_vessel() -> None:
    text = _vessel("nitric acid", ", receives: [seal wash]")
    text += "  - {name: other, capacity: 5 L, receives: [mobile phase, needle wash]}\n"
    assert findings(text, RULE) == []


@pytest.mark.parametrize(
    ("contents", "why"),
    [
        ("nitric acid", "burns or explodes"),
        ("hydrogen peroxide", "burns or explodes"),
        ("sodium azide, formic acid", "hydrazoic"),
        ("sodium cyanide, acetic acid", "hydrogen cyanide"),
        ("hydrochloric acid, sodium hydroxide", "boils over"),
        ("chloroform, acetone, sodium hydroxide", "reacts violently"),
        ("halogen-free waste, DCM", "spoils"),
    ],
)
def test_what_must_not_meet_is_a_stop(contents: str, why: str) -> None:
    (found,) = findings(_vessel(contents), RULE)
    assert found.grade == "stop"
    assert why in found.message


def test_a_list_of_vessels_that_is_not_given_is_not_checked() -> None:
    report = judged("kind: room\nwaste: []\n", RULE)
    assert report.not_checked[0].missing == ("room.waste",)


def test_a_harmless_vessel_before_does_not_end_the_look() -> None:
    text = (
        "kind: room\nwaste:\n"
        "  - {name: first, capacity: 5 L, contents: [methanol], receives: [seal wash]}\n"
        "  - {name: second, capacity: 5 L, contents: [sodium azide, formic acid],"
        " receives: [needle wash]}\n"
    )
    assert any("'second'" in found.message for found in findings(text, RULE))


def test_the_first_pair_is_named_and_the_others_are_counted() -> None:
    alone = findings(_vessel("sodium azide, formic acid", ", receives: []"), RULE)
    (both,) = findings(_vessel("sodium azide, formic acid, nitric acid", ", receives: []"), RULE)
    assert alone
    assert "sodium azide" in both.message
    assert "more pair" in both.message


def _chlorinated(vessel: str, liquid: str = "dichloromethane") -> str:
    return (
        f"kind: method\nmobile_phase: {{modifier: {{liquid: {liquid}, line: modifier-1}}}}\n---\n"
        f"kind: room\nwaste: [{{name: bottle, capacity: 5 L, level: 1 L{vessel}}}]\n"
    )


def test_silent_for_chlorinated_liquid_in_a_vessel_of_its_own() -> None:
    assert findings(_chlorinated(", contents: [ethanol], halogenated: true"), RULE) == []
    assert findings(_chlorinated(", contents: [chloroform]"), RULE) == []
    assert findings(_chlorinated(""), RULE) == []


def test_silent_for_flammable_liquids_together() -> None:
    assert findings(_chlorinated(", contents: [ethanol]", "methanol"), RULE) == []


@pytest.mark.parametrize("contents", ["ethanol", "water"])
def test_chlorinated_liquid_into_flammable_or_aqueous_waste_is_a_caution(contents: str) -> None:
    (found,) = findings(_chlorinated(f", contents: [{contents}]"), RULE)
    assert found.grade == "caution"
    assert "all of it becomes halogenated waste" in found.message
