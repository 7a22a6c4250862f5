"""Water in the modifier; the table of the leanest point is from memory and not verified.

Limits of whole mixtures: tie lines of carbon dioxide + ethanol + water, see
`tests/reference/test_water_limit.py`.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from methodlint.checking.check import check
from tests.rules.harness import findings, judged

RULE = "phase.water-splits-out"
ROOT = Path(__file__).resolve().parents[3]


def lab(water: float, start: float, end: float = 40, liquid: str = "methanol") -> str:
    return f"""
kind: method
mobile_phase:
  modifier:
    liquids: [{{liquid: {liquid}, share: {100 - water} % v/v}}, {{liquid: water, share: {water} % v/v}}]
    line: modifier-1
programme:
  - {{time: 0 min, modifier_share: {start} % v/v}}
  - {{time: 5 min, modifier_share: {end} % v/v}}
"""


@pytest.mark.parametrize(
    ("water", "start"), [(1, 2), (2, 3), (5, 3), (5, 10)], ids=lambda v: f"{v}"
)
def test_silent_for_water_as_a_useful_additive_in_methanol(water: float, start: float) -> None:
    assert findings(lab(water, start), RULE) == []


def test_silent_without_water() -> None:
    assert findings("", RULE) == []


@pytest.mark.parametrize(
    ("water", "start", "liquid"),
    [(12, 20, "methanol"), (10, 5, "methanol"), (7, 20, "acetonitrile"), (5, 5, "acetonitrile")],
)
def test_too_much_water_is_a_fault(water: float, start: float, liquid: str) -> None:
    [found] = findings(lab(water, start, liquid=liquid), RULE)
    assert found.grade == "fault"
    assert "% water" in found.message
    assert "stay dissolved" in found.message
    assert "% water or less" in found.remedy


def test_the_leanest_point_decides() -> None:
    [found] = findings(lab(10, 15), RULE)
    assert "leanest" not in found.message
    [found] = findings(lab(10, 3), RULE)
    assert found.remedy.startswith("start with 10 % modifier")


def test_water_written_as_an_additive_counts() -> None:
    yaml = """
kind: method
mobile_phase:
  modifier: {liquid: methanol, line: modifier-1, additives: [{additive: water, level: 9 % v/v}]}
programme: [{time: 0 min, modifier_share: 3 % v/v}]
"""
    assert len(findings(yaml, RULE)) == 1


def constant(water: float, share: float, liquid: str = "ethanol", outlet: float = 110) -> str:
    return f"""
kind: method
outlet_pressure: {outlet} bar
oven_temperature: 40 degC
mobile_phase:
  modifier:
    liquids: [{{liquid: {liquid}, share: {100 - water} % v/v}}, {{liquid: water, share: {water} % v/v}}]
    line: modifier-1
programme: [{{time: 0 min, modifier_share: {share} % v/v}}]
"""


@pytest.mark.parametrize("outlet", [110, 150, 190])
def test_ten_per_cent_water_in_ethanol_is_not_clear_at_any_usual_pressure(outlet: float) -> None:
    # Measured at 40 degC: 21 to 28 % by moles are carried between 100 and 200 bar; these are 26 %.
    [found] = findings(constant(10, 14, outlet=outlet), RULE)
    assert found.grade == "fault" or outlet == 190
    assert "not validated" not in found.message
    assert found.band is not None


@pytest.mark.parametrize(("water", "share"), [(2, 14), (5, 14), (2, 40)])
def test_a_little_water_in_ethanol_stays_dissolved(water: float, share: float) -> None:
    assert findings(constant(water, share), RULE) == []


def test_less_water_or_more_modifier_is_the_remedy_and_never_pressure() -> None:
    report = judged(constant(10, 14))
    [found] = [one for one in report.findings if one.rule == RULE]
    changed = {str(change.at.path) for tried in found.solutions for change in tried.changes}
    assert any("liquids" in path for path in changed)
    assert not any("outlet_pressure" in path or "oven" in path for path in changed)
    assert "% water" in found.remedy


def test_another_alcohol_is_held_near_the_limit_of_ethanol() -> None:
    [found] = findings(constant(10, 14, "methanol"), RULE)
    assert (found.grade, found.possible) == ("caution", True)
    assert "not validated here" in found.message
    assert findings(constant(5, 14, "methanol"), RULE) == []


def test_a_mixture_rich_in_modifier_carries_more() -> None:
    assert findings(constant(9, 14), RULE)
    assert findings(constant(9, 60), RULE) == []


def flavonoid_aglycones(tmp_path: Path, water: int) -> list[str]:
    """Rules that hold the example made isocratic, with 14 % of wet ethanol at 110 bar."""
    folder = tmp_path / f"with-{water}"
    shutil.copytree(ROOT / "example_methods", folder)
    file = folder / "sound" / "flavonoid-aglycones.yaml"
    text = file.read_text(encoding="utf-8")
    before, programme, _ = text.partition("programme:\n")
    _, _, after = text.partition("run_length:")
    text = f"{before}{programme}  - {{time: 0 min, modifier_share: 14 % v/v}}\nrun_length:{after}"
    text = text.replace("outlet_pressure: 150 bar", "outlet_pressure: 110 bar")
    text = text.replace(
        "{liquid: methanol, share: 98 % v/v}", f"{{liquid: ethanol, share: {100 - water} % v/v}}"
    )
    text = text.replace(
        "{liquid: water, share: 2 % v/v}", f"{{liquid: water, share: {water} % v/v}}"
    )
    text = text.replace("line: modifier-1", "line: modifier-2")
    file.write_text(text, encoding="utf-8")
    return [found.rule for found in check(file).findings if found.grade in ("stop", "fault")]


def test_a_sound_example_made_wet_is_held(tmp_path: Path) -> None:
    assert RULE in flavonoid_aglycones(tmp_path, 10)
    assert RULE not in flavonoid_aglycones(tmp_path, 2)


def test_neat_co2_is_not_asked_for_its_modifier() -> None:
    neat = (
        "kind: method\nprogramme: null\nmobile_phase: {modifier: null, modifier_share: 0 % v/v}\n"
    )
    assert judged(neat, RULE).not_checked == []
    lost = "kind: method\nmobile_phase: {modifier: null}\n"
    assert [item.missing for item in judged(lost, RULE).not_checked]
