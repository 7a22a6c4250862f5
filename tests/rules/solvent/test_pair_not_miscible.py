"""Methanol + n-heptane: critical solution temperature about 51 degC; acetonitrile with alkanes about
75 to 85 degC (from memory); acetonitrile + n-hexane 350.2 K (IUPAC-NIST Solubility Data Series 78).
Water with alkanes, toluene and dichloromethane: general chemistry."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "solvent.pair-not-miscible"
SAMPLE = "  - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}\n"


def _bottles(*lines: str) -> str:
    text = "".join(f"  - {{{line}, fill: 500 mL, dead_volume: 50 mL}}\n" for line in lines)
    return f"kind: solvents\nbottles:\n{text}"


def _wash(liquid: str, diluent: str) -> str:
    bottles = _bottles("line: modifier-1, liquid: methanol", f"line: needle-wash, liquid: {liquid}")
    return f"{bottles}---\nkind: sequence\ndiluent: {diluent}\n---\nkind: method\ninjection: null\n"


def _second(liquid: str, *between: str) -> str:
    other = (
        "  - {kind: sample, sample: extract 2, plate: 1, well: D2, fill: 1 mL, method: second}\n"
    )
    flushes = "".join(f"  - {{{line}}}\n" for line in between)
    return (
        f"kind: method\nx-name: second\nmobile_phase: {{modifier: {{liquid: {liquid}, "
        f"line: modifier-2}}}}\n---\nkind: sequence\nlines:\n{SAMPLE}{flushes}{other}"
    )


# Silent --------------------------------------------------------------------------------------


def test_silent_for_a_heptane_wash_and_methanol_that_meet_only_in_co2() -> None:
    assert findings(_wash("n-heptane", "2-propanol"), RULE) == []


def test_silent_for_a_heptane_sample_plug_in_methanol_and_co2() -> None:
    plug = "kind: method\ninjection: {volume: 2 uL, diluent: heptane, stream: mixed}\n"
    assert findings(plug + "---\nkind: sequence\ndiluent: heptane\n", RULE) == []


def test_silent_for_a_heptane_wash_and_makeup_that_never_meet() -> None:
    makeup = "---\nkind: method\nmakeup: {liquid: methanol, flow: 0.2 mL/min, "
    makeup += "tee: after the regulator}\n"
    assert findings(_wash("n-heptane", "2-propanol") + makeup, RULE) == []


def test_silent_for_a_wash_that_only_rinses_the_outside() -> None:
    text = _wash("n-heptane, enters_flow: false", "acetonitrile")
    assert findings(text, RULE) == []


def test_silent_outside_the_gap() -> None:
    """Two per cent of methanol in heptane lie outside the gap (4 % and 75 %, from memory)."""
    blend = (
        "line: modifier-2, liquids: [{liquid: heptane, share: 98 %}, {liquid: MeOH, share: 2 %}]"
    )
    assert findings(_bottles("line: modifier-1, liquid: methanol", blend), RULE) == []


def test_silent_with_a_tenth_of_ethanol() -> None:
    blend = "liquids: [{liquid: hexane, share: 85 %}, {liquid: ethanol, share: 15 %}]"
    text = _second("methanol").replace("liquid: methanol", blend, 1)
    assert findings(text, RULE) == []


@pytest.mark.parametrize("name", ["MeOH", "Methanol", "methyl alcohol"])
def test_silent_for_one_liquid_under_two_names(name: str) -> None:
    assert findings(_second(name), RULE) == []


def test_silent_behind_a_flush_that_bridges() -> None:
    assert findings(_second("heptane", "kind: flush, liquid: IPA, duration: 20 min"), RULE) == []


def test_silent_for_alcohols_and_nitriles() -> None:
    assert findings(_second("acetonitrile"), RULE) == []


# Firing --------------------------------------------------------------------------------------


def test_method_after_method_in_the_pump_is_a_stop() -> None:
    (found,) = findings(_second("heptane"), RULE)
    assert found.grade == "stop"
    assert found.at.path == ("lines", 1)
    assert found.when is not None
    assert found.when.injection == 2
    assert found.limit is not None
    assert found.limit.value == pytest.approx(51.0, abs=2.0)


def test_what_the_bench_held_before_counts() -> None:
    (found,) = findings("kind: sequence\nprevious: {modifier: hexane}\n", RULE)
    assert found.grade == "stop"
    assert found.limit is not None
    assert found.limit.value == pytest.approx(34.0, abs=1.0)


def test_a_flush_with_one_of_the_two_moves_the_contact_to_the_flush() -> None:
    (found,) = findings(_second("heptane", "kind: flush, liquid: ACN, duration: 20 min"), RULE)
    assert found.at.path == ("lines", 2)
    assert "acetonitrile (flush) and n-heptane" in found.message


def test_needle_wash_and_diluent_are_a_fault_at_the_tray_temperature() -> None:
    (found,) = findings(_wash("n-heptane", "acetonitrile"), RULE)
    assert found.grade == "fault"
    assert found.found is not None
    assert found.found.value == pytest.approx(10.0)
    assert found.remedy == "use 2-propanol as needle wash"


def test_seal_wash_and_modifier_are_a_fault() -> None:
    text = _bottles("line: modifier-1, liquid: methanol", "line: seal-wash, liquid: hexane")
    (found,) = findings(text, RULE)
    assert found.grade == "fault"
    assert "behind the seal" in found.message


def test_an_injection_into_the_modifier_stream_is_a_stop() -> None:
    text = "kind: method\ninjection: {volume: 2 uL, diluent: heptane, stream: modifier}\n"
    (found,) = findings(text + "---\nkind: sequence\ndiluent: heptane\n", RULE)
    assert found.grade == "stop"


def test_a_blend_that_parts_in_its_bottle_is_a_fault() -> None:
    blend = (
        "line: modifier-2, liquids: [{liquid: heptane, share: 60 %}, {liquid: MeOH, share: 40 %}]"
    )
    (found,) = findings(_bottles("line: modifier-1, liquid: methanol", blend), RULE)
    assert found.grade == "fault"
    assert "forms two liquid phases" in found.message


def test_no_flush_is_advised_for_a_blend_that_parts_by_itself() -> None:
    """Water + n-hexane: general chemistry; the bottle is judged at the 18 degC of the bench."""
    blend = "line: makeup, liquids: [{liquid: hexane, share: 95 %}, {liquid: water, share: 5 %}]"
    (found,) = findings(_bottles("line: modifier-1, liquid: methanol", blend), RULE)
    assert found.message.startswith(
        "the blend in the bottle on makeup forms two liquid phases: it gets 18 degC there"
    )
    assert "mixes with both" not in found.message
    assert found.remedy == "change the blend: 2-propanol in the place of n-hexane or of water"
    assert found.at.path == ("bottles", 1)
    assert findings(_bottles(blend.replace("water", "IPA")), RULE) == []


def test_one_pair_in_several_places_is_one_finding() -> None:
    text = _second("heptane").replace(
        "kind: sequence\n", "kind: sequence\nprevious: {modifier: heptane}\n"
    )
    (found,) = findings(text, RULE)
    assert found.at.path == ("lines", 0)


def test_an_unknown_pair_is_not_checked() -> None:
    report = judged("kind: sequence\nprevious: {modifier: perfluorodecalin}\n", RULE)
    assert report.findings == []
    assert "perfluorodecalin" in report.not_checked[0].reason


# Remedies ------------------------------------------------------------------------------------


def test_the_flush_of_the_remedy_was_inserted_and_clears_it() -> None:
    (found,) = findings(_second("heptane"), RULE)
    assert found.remedy.startswith("put a flush of 20 mL of 2-propanol before line 2, CO2 off, at")


def test_a_missing_flush_folds_beneath_the_pair() -> None:
    (found,) = findings(_second("heptane"), RULE, "sequence.method-switch-no-flush")
    assert found.rule == RULE
    assert [child.rule for child in found.because] == ["sequence.method-switch-no-flush"]


AGAINST_MAKEUP = """
kind: method
makeup: {{liquid: {makeup}, line: makeup, flow: 0.2 mL/min, tee: before the regulator}}
---
kind: sequence
lines:
  - {{kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}}
  - {{kind: flush, liquid: 2-propanol, duration: 9 min, co2: "off", flow: 0.2 mL/min}}
  - {{kind: flush, liquid: heptane, duration: 9 min, co2: "{co2}", flow: 0.2 mL/min, makeup: "{on}"}}
"""


@pytest.mark.parametrize(
    ("makeup", "co2", "on", "found"),
    [
        ("acetonitrile", "off", "on", True),
        ("acetonitrile", "on", "on", False),  # both dissolve in CO2
        ("acetonitrile", "off", "off", False),
        ("2-propanol", "off", "on", False),
    ],
)
def test_a_flush_meets_the_makeup_at_the_tee(makeup: str, co2: str, on: str, found: bool) -> None:
    """Acetonitrile and heptane do not mix at any temperature of a laboratory."""
    text = AGAINST_MAKEUP.format(makeup=makeup, co2=co2, on=on)
    said = [one.message for one in findings(text, "solvent.pair-not-miscible")]
    assert any("makeup tee, during line 3" in message for message in said) is found


@pytest.mark.parametrize(("seal", "parts"), [("water", True), ("2-propanol", False)])
def test_a_flush_meets_the_seal_wash(seal: str, parts: bool) -> None:
    text = f"""
kind: solvents
bottles:
  - {{line: modifier-1, liquid: methanol, fill: 900 mL, dead_volume: 60 mL}}
  - {{line: modifier-2, liquid: heptane, fill: 900 mL, dead_volume: 60 mL}}
  - {{line: seal-wash, liquid: {seal}, fill: 500 mL, dead_volume: 50 mL, uses: 0.01 mL/min}}
---
kind: sequence
lines:
  - {{kind: flush, liquid: 2-propanol, duration: 9 min, co2: "off", flow: 0.2 mL/min}}
  - {{kind: flush, liquid: heptane, duration: 9 min, co2: "off", flow: 0.2 mL/min}}
"""
    said = [one.message for one in findings(text, "solvent.pair-not-miscible")]
    assert any("seal of the modifier pump, during line 2" in message for message in said) is parts
