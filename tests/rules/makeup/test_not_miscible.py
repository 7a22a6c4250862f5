"""Critical solution temperatures: methanol + n-hexane 306.8 to 308.3 K (IUPAC-NIST Solubility Data
Series; Trejo et al. 2006, J. Chem. Eng. Data 51, 1070), acetonitrile + n-hexane 350.2 K (SDS 78);
methanol + n-heptane about 51 degC, methanol + n-pentane about 14 degC, methanol + cyclohexane about
45 degC: from memory. A tenth of an alcohol as a bridge: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "makeup.not-miscible"
AFTER = "tee: after the regulator"


def _makeup(liquid: str, rest: str = AFTER) -> str:
    return f"kind: method\nmakeup: {{{liquid}, line: makeup, flow: 0.3 mL/min, {rest}}}\n"


def _liquid(name: str) -> str:
    return _makeup(f"liquid: {name}")


# Silent --------------------------------------------------------------------------------------


def test_silent_without_makeup() -> None:
    assert judged("", RULE).checked == 0


@pytest.mark.parametrize("name", ["methanol", "MeOH", "IPA", "ethanol", "MeCN", "water", "toluene"])
def test_silent_for_liquids_that_mix_with_methanol(name: str) -> None:
    assert findings(_liquid(name), RULE) == []


def test_silent_for_heptane_with_ethanol() -> None:
    modifier = "mobile_phase: {modifier: {liquid: EtOH, line: modifier-2}}\n"
    assert findings(_liquid("n-heptane") + modifier, RULE) == []


def test_silent_with_a_tenth_of_2_propanol() -> None:
    blend = "liquids: [{liquid: hexane, share: 88 %}, {liquid: IPA, share: 12 %}]"
    assert findings(_makeup(blend), RULE) == []


def test_a_hundredth_of_2_propanol_is_not_enough() -> None:
    blend = "liquids: [{liquid: hexane, share: 99 %}, {liquid: IPA, share: 1 %}]"
    assert [f.grade for f in findings(_makeup(blend), RULE)] == ["stop"]


def test_silent_above_the_critical_temperature_and_its_reserve() -> None:
    warm = "---\nkind: solvents\ncoldest_place: 42 degC\n---\nkind: room\nlowest_temperature: 42 degC\n"
    assert findings(_liquid("hexane") + warm, RULE) == []


def test_silent_when_the_pair_never_meets() -> None:
    """A heptane needle wash is the business of the autosampler, not of the makeup."""
    wash = (
        "kind: solvents\nbottles:\n  - {line: needle-wash, liquid: n-heptane, fill: 500 mL}\n---\n"
    )
    assert findings(wash + _liquid("methanol"), RULE) == []


# Firing --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "critical"), [("hexane", 34.0), ("heptane", 51.0), ("cyclohexane", 45.0)]
)
def test_methanol_and_alkanes_are_a_stop(name: str, critical: float) -> None:
    (found,) = findings(_liquid(name), RULE)
    assert found.grade == "stop"
    assert not found.possible
    assert found.found is not None
    assert found.found.value == pytest.approx(18.0)
    assert found.limit is not None
    assert found.limit.value == pytest.approx(critical, abs=2.0)
    assert found.band is not None
    assert found.band.unit == "K"
    assert "form two liquid phases" in found.message
    assert "2-propanol mixes with both" in found.message
    assert found.cautions == ("pressure",)


def test_message_says_how_sure() -> None:
    (measured,) = findings(_liquid("hexane"), RULE)
    (recalled,) = findings(_liquid("heptane"), RULE)
    assert "measured: 306.8 K recommended" in measured.message
    assert "unverified" in recalled.message


def test_acetonitrile_with_hexane_in_a_hot_room_is_a_stop() -> None:
    modifier = "mobile_phase: {modifier: {liquid: ACN, line: modifier-1}}\n"
    warm = "---\nkind: solvents\ncoldest_place: 35 degC\n---\nkind: room\nlowest_temperature: 35 degC\n"
    (found,) = findings(_liquid("hexane") + modifier + warm, RULE)
    assert found.grade == "stop"
    assert found.limit is not None
    assert found.limit.value == pytest.approx(77.0, abs=1.0)


def test_pentane_close_above_its_critical_temperature_is_a_possible_stop() -> None:
    (found,) = findings(_liquid("pentane"), RULE)
    assert found.possible
    assert found.grade == "stop"
    assert "3.6 K above" in found.message


def test_before_the_regulator_inside_co2_is_a_caution() -> None:
    (found,) = findings(_makeup("liquid: hexane", "tee: before the regulator"), RULE)
    assert found.grade == "caution"
    assert "CO2 goes down to 60 %" in found.message


def test_before_the_regulator_with_little_co2_is_a_stop() -> None:
    rich = "programme: []\nmobile_phase: {modifier: {liquid: methanol, line: modifier-1}, "
    rich += "modifier_share: 60 % v/v}\n"
    (found,) = findings(_makeup("liquid: hexane", "tee: before the regulator") + rich, RULE)
    assert found.grade == "stop"


def test_a_makeup_named_by_its_bottle_is_found() -> None:
    method = "kind: method\nmakeup: {line: makeup, flow: 0.3 mL/min, tee: after the regulator}\n"
    bottles = "---\nkind: solvents\nbottles:\n  - {line: makeup, liquid: n-heptane, fill: 500 mL}\n"
    (found,) = findings(method + bottles, RULE)
    assert found.at.document.kind == "solvents"
    assert found.also[0].document.kind == "method"


def test_a_liquid_nobody_knows_is_not_checked() -> None:
    report = judged(_liquid("perfluorodecalin"), RULE)
    assert report.findings == []
    assert "perfluorodecalin is not among the known liquids" in report.not_checked[0].reason
    assert report.not_checked[0].can_stop


# Remedies ------------------------------------------------------------------------------------


def test_the_remedy_was_applied_and_clears_it() -> None:
    (found,) = findings(_liquid("n-heptane"), RULE)
    assert found.remedy.startswith("use methanol as makeup liquid")
    assert "flush the makeup line with 2-propanol first" in found.remedy


def test_the_remedy_changes_the_bottle_with_the_method() -> None:
    (found,) = findings(_liquid("n-heptane"), RULE, "solvent.line-mismatch")[:1]
    kinds = {change.at.document.kind for change in found.candidates[0].changes}
    assert kinds == {"method", "solvents"}


# Blends that part by themselves ---------------------------------------------------------------

WATERY = "liquids: [{liquid: hexane, share: 95 %}, {liquid: water, share: 5 %}]"


def test_silent_for_a_blend_that_stays_one_liquid() -> None:
    assert findings(_makeup(WATERY.replace("hexane", "IPA")), RULE) == []


def test_a_blend_that_parts_by_itself_is_told_to_be_changed() -> None:
    (found,) = findings(_makeup(WATERY), RULE)
    assert found.grade == "stop"
    assert found.message.startswith(
        "95 % n-hexane + 5 % water (makeup) forms two liquid phases before it meets the modifier: "
        "it gets 18 degC there; water and n-hexane form two liquid phases"
    )
    assert "at the makeup tee" not in found.message
    assert found.at.path == ("makeup",)


def test_co2_at_the_tee_does_not_help_what_parts_in_its_bottle() -> None:
    (found,) = findings(_makeup(WATERY, "tee: before the regulator"), RULE)
    assert found.grade == "fault"


def test_a_blend_that_only_meets_the_wrong_modifier_is_told_of_the_tee() -> None:
    """Hexane and 2-propanol mix in any proportion; hexane and methanol do not."""
    blend = "liquids: [{liquid: hexane, share: 99 %}, {liquid: IPA, share: 1 %}]"
    (found,) = findings(_makeup(blend), RULE)
    assert "form two liquid phases where they meet, at the makeup tee" in found.message


def test_silent_about_a_makeup_that_meets_neat_co2_alone() -> None:
    changes = (
        "kind: method\nprogramme: null\nmobile_phase: {modifier: null, modifier_share: 0 % v/v}\n"
        "makeup: {liquid: methanol, line: makeup, flow: 0.2 mL/min, tee: before the regulator}\n"
    )
    report = judged(changes, RULE)
    assert (report.findings, report.not_checked) == ([], [])
