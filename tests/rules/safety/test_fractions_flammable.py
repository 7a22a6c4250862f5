"""safety.fractions-flammable: flash points as given with each liquid; common practice."""

from __future__ import annotations

from tests.rules.harness import findings

RULE = "safety.fractions-flammable"


def lab(
    inerted: str, collection: str = "collection: {fractions: [{begins: 2 min, ends: 3 min}]}"
) -> str:
    return (
        f"kind: method\npurpose: preparative\n{collection}\n---\nkind: instrument\n"
        f"collector: {{kind: open bed, vessel_capacity: 250 mL, inerted: {inerted}}}\n"
    )


def test_silent_under_gas() -> None:
    assert findings(lab("true"), RULE) == []


def test_silent_where_nothing_is_collected() -> None:
    assert findings(lab("false", ""), RULE) == []


def test_open_methanol_is_a_caution() -> None:
    """Flash point of methanol 9 to 12 degC (IEC 60079-20-1); the room reaches 26 degC."""
    (found,) = findings(lab("false"), RULE)
    assert found.grade == "caution"
    assert "fractions of methanol" in found.message and "up to 26 degC" in found.message
    assert "flammable" in found.cautions
