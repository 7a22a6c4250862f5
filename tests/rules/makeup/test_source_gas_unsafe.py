"""Air with organic vapour burns: general chemistry; nitrogen as source gas: common practice."""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "makeup.source-gas-unsafe"
MS = "kind: method\ndetectors: [{type: MS, source: ESI, polarity: positive}]\n"


def _gas(gas: str) -> str:
    return f"{MS}---\nkind: instrument\nms: {{gas: {gas}}}\n"


def test_silent_with_nitrogen() -> None:
    assert findings(_gas("nitrogen"), RULE) == []


def test_silent_with_argon() -> None:
    assert findings(_gas("argon"), RULE) == []


def test_silent_without_a_mass_spectrometer() -> None:
    assert findings("kind: instrument\nms: {gas: air}\n", RULE) == []


def test_air_is_a_stop() -> None:
    (found,) = findings(_gas("air"), RULE)
    assert found.grade == "stop"
    assert "methanol" in found.message
    assert found.cautions == ("flammable",)
    assert found.remedy == "connect nitrogen to the source"


def test_a_gas_that_is_not_given_is_not_checked() -> None:
    (missing,) = judged(_gas("null"), RULE).not_checked
    assert missing.missing == ("instrument.ms.gas",)
    assert missing.can_stop


def test_a_gas_that_is_not_named_is_not_checked() -> None:
    assert judged(_gas("other"), RULE).not_checked


def test_silent_where_the_maker_permits_clean_air() -> None:
    assert findings(_gas("air, air_permitted: true"), RULE) == []
    (found,) = findings(_gas("air, air_permitted: false"), RULE)
    assert found.grade == "stop"
