"""The regulator's span."""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "pressure.bpr-out-of-range"


def lab(outlet: str, regulator: str = "", more: str = "") -> str:
    yaml = f"kind: method\noutlet_pressure: {outlet}\n{more}"
    return yaml + (f"---\nkind: instrument\nregulator: {regulator}\n" if regulator else "")


def test_silent_within_the_span_and_at_its_ends() -> None:
    assert findings(lab("80 bar"), RULE) == []
    assert findings(lab("380 bar"), RULE) == []


def test_silent_for_a_declared_passive_restrictor() -> None:
    assert findings(lab("70 bar", "{kind: passive restrictor}"), RULE) == []


def test_silent_for_makeup_that_joins_behind_the_regulator() -> None:
    flows = "{highest_mass_flow: 1.7 g/min}"
    rows = "programme: [{time: 0 min, modifier_share: 5 % v/v}]\n"
    makeup = "makeup: {liquid: methanol, flow: 1 mL/min, tee: %s the regulator}\n"
    assert findings(lab("150 bar", flows, rows + makeup % "after"), RULE) == []
    [found] = findings(lab("150 bar", flows, rows + makeup % "before"), RULE)
    assert "makeup upstream of it counted" in found.message


def test_below_the_span_with_span_and_boundary() -> None:
    [found] = findings(lab("70 bar"), RULE)
    assert found.grade == "fault"
    assert "it controls 80 bar to 380 bar (10 bar outside)" in found.message
    # The highest boundary at any composition, which is not the one of the run's own.
    assert "; at 40 degC every composition has one phase from " in found.message
    assert "the phase boundary is at" not in found.message
    assert found.remedy.startswith("set the outlet pressure to 1")


def test_above_the_span() -> None:
    [found] = findings(lab("400 bar"), RULE)
    assert "(20 bar outside)" in found.message


def test_zero_is_below_the_span_even_though_nothing_can_be_rehearsed() -> None:
    [found] = findings(lab("0 bar"), RULE)
    assert found.grade == "fault"


def test_a_row_of_the_programme_is_found_at_its_place() -> None:
    rows = "programme:\n  - {time: 0 min, modifier_share: 5 % v/v}\n"
    rows += "  - {time: 3 min, modifier_share: 5 % v/v, outlet_pressure: 60 bar}\n"
    [found] = findings(lab("150 bar", more=rows), RULE)
    assert found.at.path == ("programme", 1, "outlet_pressure")


def test_an_absent_setting_is_not_checked() -> None:
    report = judged(lab("null"), RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("method.outlet_pressure",)]
