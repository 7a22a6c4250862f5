"""Ammonium acetate: 20 mM at 90 % acetonitrile, 10 mM at 95 %, none in neat acetonitrile (a practice
column after a published figure, secondary). Ammonium formate in methanol: at least 50 mM, in ethanol
10 to 20 mM: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "makeup.salt-not-soluble"


def _makeup(liquid: str, additive: str, level: str) -> str:
    return (
        f"kind: method\nmakeup: {{{liquid}, additives: [{{additive: {additive}, level: {level}}}], "
        "line: makeup, flow: 0.2 mL/min, tee: after the regulator}\n"
    )


def _aqueous(water: int) -> str:
    return (
        f"liquids: [{{liquid: ACN, share: {100 - water} %}}, {{liquid: water, share: {water} %}}]"
    )


@pytest.mark.parametrize("level", ["5 mM", "20 mM", "30 mM"])
@pytest.mark.parametrize("salt", ["ammonium formate", "ammonium acetate", "NH4OAc"])
def test_silent_for_salts_in_methanol(salt: str, level: str) -> None:
    assert findings(_makeup("liquid: MeOH", salt, level), RULE) == []


def test_silent_for_acids() -> None:
    assert findings(_makeup("liquid: acetonitrile", "formic acid", "0.1 % v/v"), RULE) == []


@pytest.mark.parametrize(("water", "level"), [(10, "20 mM"), (5, "10 mM")])
def test_silent_at_the_published_limits(water: int, level: str) -> None:
    assert findings(_makeup(_aqueous(water), "ammonium acetate", level), RULE) == []


@pytest.mark.parametrize(("water", "level"), [(10, "25 mM"), (5, "15 mM"), (0, "1 mM")])
def test_beyond_the_published_limits_is_a_fault(water: int, level: str) -> None:
    liquid = _aqueous(water) if water else "liquid: acetonitrile"
    (found,) = findings(_makeup(liquid, "ammonium acetate", level), RULE)
    assert found.grade == "fault"
    assert found.limit is not None
    assert found.limit.value == pytest.approx({10: 20.0, 5: 10.0, 0: 0.0}[water])


def test_between_the_ends_of_a_span_is_a_caution() -> None:
    (found,) = findings(_makeup("liquid: ethanol", "ammonium formate", "15 mM"), RULE)
    assert found.grade == "caution"
    assert found.possible


def test_remedy_was_applied() -> None:
    (found,) = findings(_makeup("liquid: acetonitrile", "ammonium acetate", "10 mM"), RULE)
    assert found.remedy == "dissolve it in methanol with 5 % water"


def test_a_salt_without_a_known_limit_is_not_checked() -> None:
    report = judged(_makeup("liquid: methanol", "ammonium fluoride", "1 mM"), RULE)
    assert report.findings == []
    assert "ammonium fluoride" in report.not_checked[0].reason
