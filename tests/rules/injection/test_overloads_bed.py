"""injection.overloads-bed: common practice, no source.

The sound column is 100 x 3 mm: 0.707 mL (arithmetic), 0.42 g of packing at 0.6 g/mL.
"""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "injection.overloads-bed"


def method(volume: str, level: str, purpose: str = "preparative") -> str:
    return (
        f"kind: method\npurpose: {purpose}\ninjection: {{volume: {volume}, mode: metered, stream: "
        f"modifier, sample_concentration: {level}}}\n---\nkind: column\nlength: 100 mm\n"
        "inner_diameter: 3 mm\n"
        f"---\nkind: sequence\npurpose: {purpose}\n"
    )


def test_silent_for_an_ordinary_load() -> None:
    # 8 mg on 424 mg are 1.9 %; 2 ug are nothing
    assert findings(method("160 uL", "50 mg/mL"), RULE) == []
    assert findings(method("2 uL", "1 mg/mL", "research"), RULE) == []


def test_silent_where_the_concentration_is_not_stated() -> None:
    assert judged("kind: method\npurpose: preparative\n", RULE).not_checked == []


def test_too_much_in_preparative_work() -> None:
    # 10 mg on 424 mg are 2.36 %; 2 % are 8.48 mg, 169.6 uL
    (found,) = findings(method("200 uL", "50 mg/mL"), RULE)
    assert found.grade == "caution"
    assert "10 mg of sample are injected on about 0.424 g of packing" in found.message
    assert found.remedy.startswith("inject at most 169 uL")


def test_an_analytical_overload_is_a_note() -> None:
    (found,) = findings(method("20 uL", "50 mg/mL", "research"), RULE)
    assert found.grade == "note"


def test_a_concentration_by_amount_is_not_checked() -> None:
    report = judged(method("20 uL", "5 mM"), RULE)
    assert [item.missing for item in report.not_checked] == [
        ("method.injection.sample_concentration",)
    ]
