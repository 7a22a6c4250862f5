"""`supply.cylinder-runs-out`: the liquid of a cylinder against the CO2 of a sequence."""

from __future__ import annotations

import re

import pytest

from tests.rules.harness import findings, judged

RULE = "supply.cylinder-runs-out"

SHORT = """
kind: supply
net_mass: 10.0 kg
heel: 0 kg
store_temperature: {value: 20 degC, tolerance: 0.1 K}
"""
"""At 20 degC 9.7 kg stay behind in 50 L (Span and Wagner 1996), the sequence wants 0.37 kg."""


def test_silent_with_enough_liquid() -> None:
    assert findings("kind: supply\nnet_mass: 14 kg\nstore_temperature: 20 degC", RULE) == []


def test_silent_for_a_condensing_pump_that_draws_vapour() -> None:
    """5.8 kg stay at 45 bar and 20 degC (Span and Wagner 1996); 10.0 kg give 4.1 kg."""
    pump = "---\nkind: instrument\nco2_pump: {inlet: vapour}"
    assert findings(f"{SHORT}withdrawal: vapour\ndip_tube: false\n{pump}", RULE) == []


def test_silent_with_automatic_changeover() -> None:
    assert findings(f"{SHORT}changeover: automatic", RULE) == []


def test_silent_for_a_bulk_tank() -> None:
    assert findings(f"{SHORT}withdrawal: bulk", RULE) == []


def test_silent_where_there_is_no_liquid_at_all() -> None:
    """That is another rule's: 5 kg in 50 L are gas alone."""
    assert findings("kind: supply\nnet_mass: 5 kg", RULE) == []


def test_short_cylinder_is_told_with_injections_clock_and_masses() -> None:
    found = findings(SHORT, RULE)
    assert [f.grade for f in found] == ["caution" if f.possible else "fault" for f in found]
    [finding] = found
    assert re.search(r"expected to end during injection \d+(-\d+)? of 24", finding.message)
    assert "2026-11-24" in finding.message
    assert "9.71 kg stays behind as vapour" in finding.message
    assert "short by" in finding.message
    assert finding.at.path == ("net_mass",)
    assert finding.when is not None and finding.when.injection is not None


def test_fault_when_the_whole_band_is_short() -> None:
    text = SHORT.replace("10.0 kg", "{value: 9.8 kg, tolerance: 0.02 kg}")
    [finding] = findings(text, RULE)
    assert finding.grade == "fault"
    assert not finding.possible
    assert finding.found is not None and finding.limit is not None and finding.band is not None
    assert finding.found.value > finding.limit.value + finding.band.value


def test_caution_when_only_the_wrong_end_is_short() -> None:
    text = SHORT.replace("10.0 kg", "10.35 kg").replace("0.1 K", "1 K")
    [finding] = findings(text, RULE)
    assert (finding.grade, finding.possible) == ("caution", True)
    assert "may end from injection" in finding.message
    assert "in reserve" in finding.message


def test_weight_is_not_taken_for_what_can_be_drawn() -> None:
    """10.0 kg is 27 times what the sequence wants, and still not enough.

    Less 50 L of vapour at 20 degC, 194.2 kg/m3 (Span & Wagner 1996), 0.29 kg can be drawn.
    """
    [finding] = findings(SHORT, RULE)
    assert finding.limit is not None
    assert finding.limit.value == pytest.approx(0.29, abs=0.02)


def test_a_cylinder_that_ends_before_the_first_injection() -> None:
    text = SHORT.replace("10.0 kg", "{value: 9.72 kg, tolerance: 0 kg}")
    [finding] = findings(text, RULE)
    assert "before the start" in finding.remedy
    assert "or after injection" not in finding.remedy


def test_heel_of_the_policy_counts_where_the_card_names_none() -> None:
    card = "kind: supply\nnet_mass: 14 kg\nheel: null\nstore_temperature: 20 degC"
    assert findings(card, RULE) == []
    lab = "---\nkind: lab\npolicy: {cylinder_heel: 4.2 kg}"
    assert len(findings(f"{card}\n{lab}", RULE)) == 1


def test_vapour_that_does_not_last_is_told_in_words_of_vapour() -> None:
    """5.8 kg stay at 45 bar and 20 degC; 6.0 kg give 0.2 of the 0.37 kg wanted."""
    pump = "---\nkind: instrument\nco2_pump: {inlet: vapour}"
    supply = SHORT.replace("10.0 kg", "6.1 kg") + "withdrawal: vapour\ndip_tube: false\n"
    [finding] = findings(f"{supply}{pump}", RULE)
    assert "the vapour in the cylinder" in finding.message


def test_not_checked_without_a_weight() -> None:
    report = judged("kind: supply\nnet_mass: null", RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("supply.net_mass",)]


def test_not_checked_without_a_kind_of_withdrawal() -> None:
    report = judged(f"{SHORT}withdrawal: null\ndip_tube: null", RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("supply.withdrawal",)]


def test_remedy_changes_to_the_spare_from_the_early_end() -> None:
    text = SHORT.replace("10.0 kg", "{value: 10.0 kg, tolerance: 0.01 kg}")
    [finding] = findings(text, RULE)
    assert "no single change" not in finding.remedy
    assert "37.5 kg, of which 27.8 kg can be drawn" in finding.remedy
    match = re.search(r"after injection (\d+) at the latest", finding.remedy)
    assert match is not None
    assert finding.when is not None and finding.when.injection is not None
    assert int(match[1]) < finding.when.injection


def test_remedy_clears_the_use_logged_since_the_weighing() -> None:
    supply = SHORT.replace("10.0 kg", "12.0 kg") + "used_since_weighed: 2.1 kg\n"
    [finding] = findings(supply, RULE)
    assert "no single change" not in finding.remedy


def test_a_full_cylinder_that_does_not_suffice_is_not_offered() -> None:
    supply = SHORT.replace("10.0 kg", "9.9 kg") + "spare_mass: 9.9 kg\nfull_mass: 9.9 kg\n"
    [finding] = findings(supply, RULE)
    assert "no single change" in finding.remedy


def test_a_store_colder_than_any_liquid_is_not_checked() -> None:
    """Liquid CO2 ends at the triple point, -56.6 degC (Span and Wagner 1996)."""
    report = judged("kind: supply\nstore_temperature: -90 degC", RULE)
    assert report.findings == []
    [item] = report.not_checked
    assert "temperature" in item.missing[0]
    assert "triple point" in item.reason


@pytest.mark.parametrize("mass", ["85 kg", "310 kg", "45 kg"])
def test_a_mass_that_the_cylinder_cannot_hold_is_not_counted_as_enough(mass: str) -> None:
    """In 50 L, 41.8 kg are 10 % above what P200 permits (from memory)."""
    report = judged(f"kind: supply\nnet_mass: {mass}\nfull_mass: null", RULE)
    assert report.findings == []
    [item] = report.not_checked
    assert item.missing == ("supply.net_mass",)
    assert f"{mass} is more than a cylinder of this size is filled with" in item.reason


@pytest.mark.parametrize(
    "supply", ["cylinders: 3\nnet_mass: 85 kg", "net_mass: 38 kg", "water_capacity: 500 L"]
)
def test_a_mass_that_fits_is_counted(supply: str) -> None:
    report = judged(f"kind: supply\n{supply}", RULE)
    assert report.not_checked == []


def test_no_full_cylinder_is_offered_that_cannot_be() -> None:
    text = "kind: supply\nnet_mass: 8.5 kg\nfull_mass: 85 kg\nspare_mass: null"
    [finding] = findings(text, RULE)
    assert "85 kg" not in finding.remedy
