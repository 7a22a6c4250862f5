"""detector.aerosol-background: 10 mM: common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings

RULE = "detector.aerosol-background"


def method(additives: str, detector: str = "ELSD") -> str:
    return (
        f"kind: method\ndetectors: [{{type: {detector}}}]\nmobile_phase: {{modifier: {{liquid: "
        f"methanol, line: modifier-1, additives: [{additives}]}}}}\n"
    )


SALT = "{{additive: ammonium formate, level: {} mM}}"
ACID = "{additive: formic acid, level: 0.1 % v/v}"
AMINE = "{additive: diethylamine, level: 0.1 % v/v}"


def test_silent_for_little_salt_and_for_an_acid_alone() -> None:
    assert findings(method(SALT.format(10), "CAD"), RULE) == []
    assert findings(method(ACID), RULE) == []


def test_silent_for_other_detectors() -> None:
    assert findings(method(SALT.format(30), "MS"), RULE) == []


def test_much_salt_is_a_caution() -> None:
    (found,) = findings(method(SALT.format(20), "CAD"), RULE)
    assert (found.grade, found.remedy) == ("caution", "lower it to 10 mM")
    assert found.message.startswith("20 mM ammonium formate in the modifier")


def test_acid_and_amine_make_a_salt() -> None:
    (found,) = findings(method(f"{ACID}, {AMINE}"), RULE)
    assert found.message.startswith("diethylamine and formic acid in the modifier make a salt")
