"""Which additive suits which polarity: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings

RULE = "makeup.polarity-mismatch"


def _run(polarity: str, *additives: tuple[str, str]) -> str:
    listed = ", ".join(f"{{additive: {name}, level: {level}}}" for name, level in additives)
    return (
        f"kind: method\ndetectors: [{{type: MS, source: ESI, polarity: {polarity}}}]\n"
        f"makeup: {{liquid: methanol, additives: [{listed}], line: makeup, flow: 0.2 mL/min, "
        "tee: after the regulator}\n"
    )


@pytest.mark.parametrize("polarity", ["positive", "negative", "both"])
def test_silent_for_ammonium_salts(polarity: str) -> None:
    assert findings(_run(polarity, ("ammonium formate", "5 mM")), RULE) == []


def test_silent_for_acid_in_positive_mode() -> None:
    assert findings(_run("positive", ("formic acid", "0.1 % v/v")), RULE) == []


def test_silent_for_a_tenth_of_a_per_cent_of_amine_in_positive_mode() -> None:
    assert findings(_run("positive", ("TEA", "0.1 % v/v")), RULE) == []


def test_silent_without_a_mass_spectrometer() -> None:
    text = _run("negative", ("TFA", "0.1 % v/v")).replace(
        "type: MS, source: ESI, polarity: negative", "type: UV"
    )
    assert findings(text, RULE) == []


def test_trifluoroacetic_acid_in_negative_mode() -> None:
    (found,) = findings(_run("both", ("TFA", "0.05 % v/v"), ("ammonium formate", "5 mM")), RULE)
    assert found.grade == "caution"
    assert "suppresses" in found.message


@pytest.mark.parametrize("acid", ["formic acid", "acetic acid"])
def test_silent_for_a_weak_acid_in_negative_mode(acid: str) -> None:
    assert findings(_run("negative", (acid, "0.1 % v/v")), RULE) == []


def test_trifluoroacetic_acid_in_positive_mode() -> None:
    (found,) = findings(_run("positive", ("TFA", "0.1 % v/v")), RULE)
    assert "in positive mode" in found.message
    assert found.remedy == "take 5 mM ammonium formate in its place"


def test_much_amine_in_positive_mode() -> None:
    (found,) = findings(_run("positive", ("diethylamine", "0.3 % v/v")), RULE)
    assert "takes the charge" in found.message


def test_the_bottle_says_what_is_in_the_makeup_where_the_method_does_not() -> None:
    method = _run("negative").replace("liquid: methanol, additives: [], ", "liquid: null, ")
    bottles = """---
kind: solvents
bottles:
  - {line: modifier-1, liquid: methanol, fill: 2 L}
  - {line: makeup, liquid: methanol, fill: 1 L, additives: [{additive: TFA, level: 0.1 % v/v}]}
"""
    (found,) = findings(method + bottles, RULE)
    assert "suppresses" in found.message
    assert found.at.document.kind == "solvents"
    assert found.at.path[:2] == ("bottles", 1)


def _alkane(source: str, liquid: str = "n-hexane") -> str:
    return (
        f"kind: method\ndetectors: [{{type: MS{source}, polarity: positive}}]\n"
        f"makeup: {{liquid: {liquid}, line: makeup, flow: 0.2 mL/min, tee: after the regulator}}\n"
    )


@pytest.mark.parametrize("source", [", source: APPI", ", source: APCI"])
def test_silent_for_an_alkane_to_a_source_that_needs_no_charge_in_the_liquid(source: str) -> None:
    assert findings(_alkane(source), RULE) == []


def test_silent_for_an_alcohol_to_an_electrospray() -> None:
    assert findings(_alkane(", source: ESI", "2-propanol"), RULE) == []


@pytest.mark.parametrize("source", [", source: ESI", ""])
def test_an_alkane_to_an_electrospray_is_a_fault(source: str) -> None:
    """The sound lab's source is an electrospray; alkanes do not conduct (common practice)."""
    (found,) = findings(_alkane(source), RULE)
    assert found.grade == "fault"
    assert "carries no charge" in found.message
