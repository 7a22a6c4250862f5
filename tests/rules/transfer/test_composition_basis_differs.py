"""Mass fractions follow from the density of CO2 in the pump head (Span and Wagner 1996)."""

from __future__ import annotations

from tests.rules.harness import findings, judged
from tests.rules.transfer.pairs import FROM, FROM_GRADIENT, GRADIENT, ISOCRATIC, REGULATED

RULE = "transfer.composition-basis-differs"
OTHER = "\n---\nkind: instrument\nx-name: other\n"
WARM = "\n---\nkind: instrument\nx-name: warm\nco2_pump: {head_temperature: 20 degC}\n"


def test_silent_without_a_source():
    report = judged("kind: method\n---\nkind: instrument\nextra_column_sigma: 40 uL\n", RULE)
    assert report.findings == []
    assert report.not_checked == []


def test_silent_on_a_transfer_to_the_same():
    assert findings(GRADIENT + FROM_GRADIENT + REGULATED, RULE) == []


def test_the_same_heads_are_silent_at_other_pressures():
    assert (
        findings(ISOCRATIC + FROM + "runs_on: [other]\noutlet_pressure: 110 bar" + OTHER, RULE)
        == []
    )


def test_another_head_is_found():
    """954 -> 904 kg/m3 from 10 to 20 degC at 150 bar (Span and Wagner 1996); here from 8 degC."""
    report = judged(ISOCRATIC + FROM + "runs_on: [warm]" + WARM, RULE)
    (found,) = report.findings
    assert found.grade == "caution"
    assert found.found.value < found.limit.value
    change = 100 * (found.found.value / found.limit.value - 1)
    assert f"({change:+.1f} % of itself)" in found.message
    assert report.not_checked == []
    share = float(found.remedy.split("to ")[-1].split()[0])
    assert 10.0 < share < 11.0
    fixed = ISOCRATIC.replace("10 % v/v", f"{share} % v/v")
    assert findings(fixed + FROM + "runs_on: [warm]" + WARM, RULE) == []


def test_mass_against_volume_is_found():
    mass = "\n---\nkind: instrument\nx-name: massive\nco2_pump: {metering: mass}\n"
    (found,) = findings(ISOCRATIC + FROM + "runs_on: [massive]" + mass, RULE)
    # The words give the figures that are compared, by mass.
    assert f"is {found.found.value:.1f} % by mass here" in found.message
    assert f"{found.limit.value:.1f} % on the source" in found.message
    assert "set millilitre" in found.message
