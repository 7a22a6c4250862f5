"""`safety.room-vapour-steady`: solvent carried by vented CO2 against the lab's limit."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "safety.room-vapour-steady"


def _open(changes: str = "1 1/h", of: str = "separator", ducted: str = "false") -> str:
    return (
        f"kind: room\nair_changes: {changes}\nhighest_temperature: 20 degC\n"
        f"outlets: [{{name: vent, of: {of}, ducted: {ducted}}}]\n"
    )


def _limit(methanol: str = "200 ppm", name: str = "methanol") -> str:
    """200 ppm, 8 h: Ontario table (open data of the chemicals library)."""
    return f"---\nkind: lab\npolicy: {{exposure_limits: {{vapours: {{{name}: {methanol}}}}}}}\n"


def test_silent_where_the_vent_is_ducted() -> None:
    assert findings(_open(ducted="true") + _limit("1 ppm"), RULE) == []


def test_silent_with_enough_fresh_air() -> None:
    assert findings(_open("12 1/h") + _limit(), RULE) == []


def test_silent_for_a_rough_pump_alone() -> None:
    assert findings(_open(of="rough pump") + _limit("1 ppm"), RULE) == []


def test_level_is_that_of_saturated_gas() -> None:
    """1.46 g/min of CO2 are 33 mmol/min; 0.147 mol of methanol for each mol (13.0 kPa at 20 degC)
    are 4.9 mmol/min or 117 mL/min; into 45 m3 x 1/h = 750 L/min: 156 ppm. Worked by hand."""
    [finding] = findings(_open() + _limit(), RULE)
    assert finding.grade == "caution"
    assert finding.found is not None
    assert finding.found.value == pytest.approx(156, rel=0.04)


def test_stop_above_the_limit() -> None:
    [finding] = findings(_open("0.5 1/h") + _limit(), RULE)
    assert finding.grade == "stop"
    assert "methanol in the room settles at up to" in finding.message
    assert "200 ppm" in finding.message
    assert finding.cautions == ("flammable", "toxic")


def test_a_synonym_names_the_same_limit() -> None:
    [finding] = findings(_open("0.5 1/h") + _limit(name="MeOH"), RULE)
    assert finding.grade == "stop"


def test_source_exhaust_evaporates_everything() -> None:
    """0.6 mL/min of methanol (40 % of 1.5 mL/min) at 791 g/L and 32 g/mol are 14.8 mmol/min, or
    357 mL/min of gas; into 750 L/min: 476 ppm. Worked by hand."""
    [finding] = findings(_open(of="MS exhaust") + _limit(), RULE)
    assert finding.found is not None
    assert finding.found.value == pytest.approx(476, rel=0.03)


def test_no_limit_is_not_a_pass() -> None:
    report = judged(_open(), RULE)
    assert report.findings == []
    [item] = report.not_checked
    assert item.missing == ("lab.policy.exposure_limits.vapours.methanol",)
    assert "ppm" in item.reason


def test_remedy_ducts_the_vent() -> None:
    [finding] = findings(_open() + _limit(), RULE)
    assert finding.remedy == "lead the vent of vent outdoors or to an extraction"


def test_no_temperature_is_asked_for_where_the_vent_is_ducted() -> None:
    assert judged("kind: room\nhighest_temperature: null", RULE).not_checked == []


def _lab(jurisdiction: str, limit: str) -> str:
    limits = f"{{jurisdiction: {jurisdiction}, vapours: {{methanol: {limit}}}}}"
    return f"---\nkind: lab\npolicy: {{exposure_limits: {limits}}}\n"


def test_silent_where_a_house_rule_is_kept_though_a_list_is_stricter() -> None:
    """A jurisdiction without a list here is the lab's own matter."""
    assert findings(_open("0.5 1/h") + _lab("house rule", "900 ppm"), RULE) == []


def test_a_listed_limit_holds_a_run_where_the_lab_sets_none() -> None:
    """Methanol 200 ppm, 8 h, in every list that names it; about 312 ppm at 0.5 1/h."""
    [finding] = findings(_open("0.5 1/h"), RULE)
    assert finding.grade == "stop"
    assert finding.limit is not None and finding.limit.value == pytest.approx(200)
    assert "(unverified)" in finding.message or "(open data)" in finding.message


def test_a_lab_s_limit_above_the_list_of_its_jurisdiction_does_not_count() -> None:
    [finding] = findings(_open("0.5 1/h") + _lab("EU", "900 ppm"), RULE)
    assert finding.limit is not None and finding.limit.value == pytest.approx(200)
    assert "European Union" in finding.message
