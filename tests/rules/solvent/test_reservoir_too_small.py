"""Volumes by hand from the method and the sequence, in an isocratic case where every figure is a
product. The band of 2 %: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "solvent.reservoir-too-small"

# 2 mL/min with 25 % is 0.5 mL/min; 8 + 2 min without overhead: 5 mL per injection
METHOD = """kind: method
flow: 2 mL/min
programme: []
mobile_phase: {modifier: {liquid: methanol, line: modifier-1}, modifier_share: 25 % v/v}
run_length: 8 min
settling_time: 2 min
MAKEUP
---
kind: instrument
cycle_overhead: 0 min
---
"""


def _lab(fill: str, *lines: str, makeup: str = "", bottles: str = "") -> str:
    every = lines or ("kind: sample, sample: extract 1, plate: 1, well: D1, count: 40",)
    return (
        METHOD.replace("MAKEUP", makeup)
        + "kind: sequence\nequilibration: 10 min\nlines:\n"
        + "".join(f"  - {{{line}}}\n" for line in every)
        + "---\nkind: solvents\nbottles:\n"
        + f"  - {{line: modifier-1, liquid: methanol, fill: {fill}, dead_volume: 60 mL}}\n"
        + bottles
    )


# 40 x 5 mL + 5 mL of equilibration + 50 mL of purge = 255 mL


def test_silent_in_the_sound_lab() -> None:
    assert findings("", RULE) == []


def test_silent_when_it_lasts() -> None:
    assert findings(_lab("330 mL"), RULE) == []


def test_silent_with_a_pause_in_which_it_is_filled_up() -> None:
    half = "kind: sample, sample: extract 1, plate: 1, well: D1, count: 20"
    pause = 'kind: idle, duration: 10 min, refills: [modifier-1], co2: "off"'
    assert findings(_lab("230 mL", half, pause, half), RULE) == []
    assert len(findings(_lab("230 mL", half, half), RULE)) == 1


def test_runs_dry_during_the_injection_worked_out_by_hand() -> None:
    (found,) = findings(_lab("202 mL"), RULE)
    # 142 mL usable, 55 mL before the first injection: 87 mL are 17.4 injections of 5 mL
    assert found.when is not None
    assert found.when.injection == 18
    assert found.grade == "fault"
    assert found.found is not None
    assert found.found.value == pytest.approx(255.0, rel=1e-3)
    assert found.limit is not None
    assert found.limit.value == pytest.approx(142.0)
    assert "during injection 18" in found.message


def test_purge_counts_only_if_the_card_gives_it() -> None:
    text = _lab("270 mL").replace("kind: solvents\n", "kind: solvents\npurge_volume: null\n")
    assert findings(text, RULE) == []
    assert len(findings(_lab("270 mL"), RULE)) == 1


def test_inside_the_band_it_is_a_caution() -> None:
    (found,) = findings(_lab("317 mL"), RULE)
    assert found.grade == "caution"
    assert found.possible


def test_makeup_bottle_by_hand() -> None:
    makeup = "makeup: {liquid: ethanol, line: makeup, flow: 0.5 mL/min, tee: after the regulator}"
    bottle = "  - {line: makeup, liquid: ethanol, fill: 102 mL, dead_volume: 0 mL}\n"
    (found,) = findings(_lab("900 mL", makeup=makeup, bottles=bottle), RULE)
    # 0.5 mL/min over 10 min are 5 mL, so are those before the start: 97 mL are 19.4 injections
    assert found.when is not None
    assert found.when.injection == 20
    assert "ethanol on makeup" in found.message


def test_needle_wash_by_hand() -> None:
    bottle = "  - {line: needle-wash, liquid: IPA, fill: 10.5 mL, dead_volume: 0 mL, per_injection: 1 mL}\n"
    (found,) = findings(_lab("900 mL", bottles=bottle), RULE)
    assert found.when is not None
    assert found.when.injection == 11


def test_seal_wash_by_the_clock() -> None:
    bottle = (
        "  - {line: seal-wash, liquid: water, fill: 52 mL, dead_volume: 0 mL, uses: 0.5 mL/min}\n"
    )
    (found,) = findings(_lab("900 mL", bottles=bottle), RULE)
    assert found.when is not None
    assert found.when.injection == 11


def test_remedy_fills_the_bottle() -> None:
    (found,) = findings(_lab("200 mL"), RULE)
    # 1.1 x 255 mL + 60 mL = 341 mL, up to the next 50 mL
    assert found.remedy == "fill the bottle on modifier-1 to 350 mL"


def test_a_fill_that_is_not_given_is_not_checked() -> None:
    report = judged(_lab("null"), RULE)
    assert report.not_checked[0].missing == ("solvents.bottles[0].fill",)


def test_a_bottle_that_nothing_draws_from_is_not_asked() -> None:
    bottle = "  - {line: modifier-2, liquid: ethanol}\n"
    assert judged(_lab("900 mL", bottles=bottle), RULE).not_checked == []


def _bottle(more: str) -> str:
    return (
        "kind: solvents\nbottles: [{line: modifier-1, liquid: methanol, fill: 900 mL, "
        f"dead_volume: 60 mL{more}}}]\n"
    )


def test_silent_for_a_bottle_with_a_vent_and_a_degasser() -> None:
    assert findings(_bottle(", vented: true, degassed: true"), RULE) == []


def test_silent_for_a_sealed_bottle_that_nothing_is_drawn_from() -> None:
    other = "{line: modifier-2, liquid: ethanol, fill: 900 mL, dead_volume: 60 mL, vented: false}"
    assert findings(_bottle("").replace("]", f", {other}]"), RULE) == []


def test_a_sealed_bottle_is_a_fault_and_a_liquid_full_of_air_a_caution() -> None:
    (sealed,) = findings(_bottle(", vented: false"), RULE)
    assert sealed.grade == "fault"
    assert "is sealed" in sealed.message
    (airy,) = findings(_bottle(", degassed: false"), RULE)
    assert airy.grade == "caution"
