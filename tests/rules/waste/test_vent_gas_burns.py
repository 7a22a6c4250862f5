"""Vented gas that is mixed with air: Le Chatelier's rule, limits of IEC 60079-20-1:2010."""

from __future__ import annotations

import pytest

from methodlint.rehearsal.bench.vent_vapour import flammable_dilution
from tests.rules.harness import findings

RULE = "waste.vent-gas-burns"


def lab(liquid: str, temperature: str = "20 degC", outlet: str = "ducted: true") -> str:
    return (
        f"kind: method\nmobile_phase: {{modifier: {{liquid: {liquid}, line: modifier-1}}}}\n---\n"
        f"kind: room\nhighest_temperature: {temperature}\n"
        f"outlets: [{{name: separator, of: separator, {outlet}}}]\n"
    )


def test_silent_where_the_co2_leaves_too_little_oxygen() -> None:
    """Ethanol, 5.9 kPa at 20 degC: 5.8 % of vapour against 3.1 %, so 53 % of the gas: 9.8 % oxygen."""
    assert findings(lab("ethanol"), RULE) == []


def test_silent_where_nitrogen_sweeps_it_and_where_it_does_not_burn() -> None:
    assert findings(lab("acetonitrile", outlet="ducted: true, inerted: true"), RULE) == []
    assert findings(lab("water"), RULE) == []


@pytest.mark.parametrize(
    ("outlet", "grade"), [("ducted: true", "note"), ("ducted: false", "caution")]
)
def test_acetonitrile_burns_where_it_leaves(outlet: str, grade: str) -> None:
    """9.7 kPa at 20 degC (handbooks): 9.6 % of vapour against 3.0 %: 31 % of the gas, 14.4 % oxygen."""
    (found,) = findings(lab("acetonitrile", outlet=outlet), RULE)
    assert found.grade == grade
    assert found.found is not None and found.found.value == pytest.approx(14.4, abs=0.3)
    assert "(unverified)" in found.message


def test_the_mixture_rule_by_hand() -> None:
    """1 mol CO2, 0.1 mol at 3 % and 0.1 mol at 6 %: each 0.0833; 0.0833 / 0.03 + 0.0833 / 0.06 = 4.17."""
    found = flammable_dilution({"a": 0.1, "b": 0.1}, {"a": 0.03, "b": 0.06}, 0.0440095)
    assert found is not None
    assert found[0] == pytest.approx(1 / 4.167, rel=1e-3)
    assert found[1] == pytest.approx(0.209 * (1 - 0.24), rel=1e-3)
    assert flammable_dilution({"a": 0.01}, {"a": 0.03}, 0.0440095) is None
