"""Grades of solvents against detectors: common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "solvent.grade-wrong"
MS = "kind: method\ndetectors: [{type: MS, source: ESI, polarity: positive}]\n---\n"
SHORT_UV = "kind: method\ndetectors: [{type: UV, wavelength: 210 nm}]\n---\n"


def _bottles(*lines: str) -> str:
    return "kind: solvents\nbottles:\n" + "".join(f"  - {{{line}}}\n" for line in lines)


def test_silent_for_uv_at_254_nm() -> None:
    assert findings(_bottles("line: modifier-1, liquid: methanol, grade: technical"), RULE) == []


def test_silent_for_a_bottle_that_the_method_does_not_use() -> None:
    used = "line: modifier-1, liquid: methanol, grade: MS"
    other = "line: modifier-2, liquid: ethanol, grade: denatured"
    assert findings(MS + _bottles(used, other), RULE) == []


def test_silent_for_gradient_grade_at_short_waves() -> None:
    assert (
        findings(SHORT_UV + _bottles("line: modifier-1, liquid: MeOH, grade: gradient"), RULE) == []
    )


def test_silent_for_the_wavelength_that_only_triggers_the_collector() -> None:
    trigger = "kind: method\ndetectors: [{type: UV, wavelength: 210 nm, purpose: trigger}]\n---\n"
    assert findings(trigger + _bottles("line: modifier-1, grade: technical"), RULE) == []


def test_gradient_is_not_enough_for_a_mass_spectrometer() -> None:
    (found,) = findings(MS + _bottles("line: modifier-1, liquid: MeOH, grade: gradient"), RULE)
    assert found.grade == "caution"
    assert found.remedy == "use MS grade on modifier-1"


def test_denatured_at_short_waves() -> None:
    assert len(findings(SHORT_UV + _bottles("line: modifier-1, grade: denatured"), RULE)) == 1


def test_that_is_not_given_is_not_checked() -> None:
    report = judged(MS + _bottles("line: modifier-1, liquid: MeOH"), RULE)
    assert report.not_checked[0].missing == ("solvents.bottles[0].grade",)


def test_the_grade_is_silent_for_preparative_work_with_uv_at_short_waves() -> None:
    text = (
        "kind: method\npurpose: preparative\n"
        "detectors: [{type: UV, cell: UV cell, wavelength: 220 nm, rate: 5 Hz, filter: 0.1 s}]\n"
        "---\nkind: sequence\npurpose: null\n---\nkind: solvents\nbottles:\n"
        "  - {line: modifier-1, liquid: methanol, grade: HPLC}\n"
    )
    assert findings(text, RULE) == []
    assert len(findings(text.replace("preparative", "research"), RULE)) == 1


def test_the_bottle_of_the_makeup_is_looked_at_for_a_mass_spectrometer() -> None:
    makeup = MS.replace("---\n", "makeup: {flow: 0.2 mL/min}\n---\n")
    lines = "line: modifier-1, grade: MS", "line: makeup, liquid: methanol, grade: gradient"
    (found,) = findings(makeup + _bottles(*lines), RULE)
    assert found.at.path == ("bottles", 1, "grade")
    assert (
        findings(
            SHORT_UV.replace("---", "makeup: {flow: 0.2 mL/min}\n---") + _bottles(*lines), RULE
        )
        == []
    )


def _water(more: str) -> str:
    return f"kind: solvents\nbottles: [{{line: modifier-1, liquid: methanol, grade: MS{more}}}]\n"


def test_silent_for_a_modifier_drier_than_its_limit_and_without_a_limit() -> None:
    assert findings(_water(", water: 0.05 % v/v, water_limit: 0.1 % v/v"), RULE) == []
    assert findings(_water(", water: 0.9 % v/v"), RULE) == []


def test_water_beyond_the_limit_of_the_method_is_a_caution() -> None:
    (found,) = findings(_water(", water: 0.4 % v/v, water_limit: 0.1 % v/v"), RULE)
    assert found.grade == "caution"
    assert "0.4 % v/v of water" in found.message


def test_a_limit_without_a_measurement_is_not_checked() -> None:
    report = judged(_water(", water_limit: 0.1 % v/v"), RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("solvents.bottles[0].water",)]
