"""Grades, freezing points and lines. Freezing points: CRC Handbook of Chemistry and Physics (dimethyl
sulfoxide 18.5 degC, cyclohexane 6.7 degC, 1,4-dioxane 11.8 degC); grades: common practice, no source.
0.1 % v/v of formic acid: 1.22 g/mL over 46.03 g/mol are 26.5 mM."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

GRADE = "solvent.grade-wrong"
FREEZES = "solvent.freezes-in-cold-place"
LINE = "solvent.line-mismatch"
MS = "kind: method\ndetectors: [{type: MS, source: ESI, polarity: positive}]\n---\n"
SHORT_UV = "kind: method\ndetectors: [{type: UV, wavelength: 210 nm}]\n---\n"


def _bottles(*lines: str) -> str:
    return "kind: solvents\nbottles:\n" + "".join(f"  - {{{line}}}\n" for line in lines)


# grade-wrong ---------------------------------------------------------------------------------


def test_grade_silent_for_uv_at_254_nm() -> None:
    assert findings(_bottles("line: modifier-1, liquid: methanol, grade: technical"), GRADE) == []


def test_grade_silent_for_a_bottle_that_the_method_does_not_use() -> None:
    used = "line: modifier-1, liquid: methanol, grade: MS"
    other = "line: modifier-2, liquid: ethanol, grade: denatured"
    assert findings(MS + _bottles(used, other), GRADE) == []


def test_grade_silent_for_gradient_grade_at_short_waves() -> None:
    assert (
        findings(SHORT_UV + _bottles("line: modifier-1, liquid: MeOH, grade: gradient"), GRADE)
        == []
    )


def test_grade_gradient_is_not_enough_for_a_mass_spectrometer() -> None:
    (found,) = findings(MS + _bottles("line: modifier-1, liquid: MeOH, grade: gradient"), GRADE)
    assert found.grade == "caution"
    assert found.remedy == "use MS grade on modifier-1"


def test_grade_denatured_at_short_waves() -> None:
    assert len(findings(SHORT_UV + _bottles("line: modifier-1, grade: denatured"), GRADE)) == 1


def test_grade_that_is_not_given_is_not_checked() -> None:
    report = judged(MS + _bottles("line: modifier-1, liquid: MeOH"), GRADE)
    assert report.not_checked[0].missing == ("solvents.bottles[0].grade",)


# freezes-in-cold-place -----------------------------------------------------------------------


def test_freezes_silent_for_the_usual_liquids() -> None:
    assert findings("", FREEZES) == []


def test_freezes_silent_with_a_tenth_of_water() -> None:
    blend = "diluent: {liquids: [{liquid: DMSO, share: 88 %}, {liquid: water, share: 12 %}]}\n"
    assert findings(f"kind: sequence\n{blend}", FREEZES) == []


def test_freezes_silent_for_dioxane_in_a_warm_room() -> None:
    assert findings(_bottles("line: modifier-1, liquid: dioxane"), FREEZES) == []


@pytest.mark.parametrize(
    ("liquid", "point"), [("DMSO", 18.5), ("cyclohexane", 6.7), ("dioxane", 11.8)]
)
def test_freezes_on_the_tray(liquid: str, point: float) -> None:
    tray = "---\nkind: instrument\nautosampler: {tray_temperature: 5 degC}\n"
    (found,) = findings(f"kind: sequence\ndiluent: {liquid}\n{tray}", FREEZES)
    assert found.grade == "fault"
    assert found.limit is not None
    assert found.limit.value == pytest.approx(point + 3.0, abs=0.2)


def test_freezes_the_remedy_warms_the_tray() -> None:
    (found,) = findings("kind: sequence\ndiluent: DMSO\n", FREEZES)
    assert found.remedy == "set the tray to 22 degC"


def test_freezes_in_the_bottle_at_night() -> None:
    (found,) = findings(_bottles("line: modifier-1, liquid: DMSO"), FREEZES)
    assert "the bottle on modifier-1" in found.message


# line-mismatch -------------------------------------------------------------------------------


def _method(modifier: str) -> str:
    return f"kind: method\nmobile_phase: {{modifier: {{{modifier}}}}}\n---\n"


@pytest.mark.parametrize(
    ("one", "other"),
    [("IPA", "2-propanol"), ("isopropanol", "IPA"), ("MeCN", "ACN"), ("MeOH", "Methanol")],
)
def test_line_silent_for_synonyms(one: str, other: str) -> None:
    text = _method(f"liquid: {one}, line: modifier-1")
    assert findings(text + _bottles(f"line: modifier-1, liquid: {other}"), LINE) == []


def test_line_silent_for_one_level_in_two_units() -> None:
    def acid(level: str) -> str:
        return f"additives: [{{additive: formic acid, level: {level}}}]"

    text = _method(f"liquid: MeOH, line: modifier-1, {acid('0.1 % v/v')}")
    assert findings(text + _bottles(f"line: modifier-1, liquid: MeOH, {acid('26 mM')}"), LINE) == []
    (found,) = findings(text + _bottles(f"line: modifier-1, liquid: MeOH, {acid('52 mM')}"), LINE)
    assert "another level of formic acid" in found.message


def test_line_another_liquid_is_a_fault() -> None:
    (found,) = findings(_method("liquid: MeOH, line: modifier-2").rpartition("---")[0], LINE)
    assert found.grade == "fault"
    assert "holds ethanol" in found.message
    assert found.also[0].document.kind == "solvents"
    assert found.remedy == "draw from modifier-1, which holds it"


def test_line_a_missing_additive_is_a_fault() -> None:
    salt = "additives: [{additive: ammonium formate, level: 10 mM}]"
    text = _method(f"liquid: MeOH, line: modifier-1, {salt}")
    (found,) = findings(text + _bottles("line: modifier-1, liquid: MeOH"), LINE)
    assert "additive ammonium formate on one side only" in found.message


def test_line_without_a_bottle_is_a_fault() -> None:
    (found,) = findings(_method("liquid: MeOH, line: modifier-7").rpartition("---")[0], LINE)
    assert "no bottle is on line modifier-7" in found.message
    assert found.remedy == "draw from modifier-1, which holds it"


def test_line_of_the_makeup_is_compared_too() -> None:
    text = "kind: method\nmakeup: {liquid: ethanol, line: makeup, flow: 0.2 mL/min}\n"
    (found,) = findings(text, LINE)
    assert found.at.path[0] == "makeup"


def test_line_that_is_not_named_is_not_checked() -> None:
    text = _method("liquid: MeOH, line: null").rpartition("---")[0]
    assert judged(text, LINE).not_checked[0].missing == ("method.mobile_phase.modifier.line",)


def test_the_grade_is_silent_for_preparative_work_with_uv_at_short_waves() -> None:
    text = (
        "kind: method\npurpose: preparative\n"
        "detectors: [{type: UV, cell: UV cell, wavelength: 220 nm, rate: 5 Hz, filter: 0.1 s}]\n"
        "---\nkind: sequence\npurpose: null\n---\nkind: solvents\nbottles:\n"
        "  - {line: modifier-1, liquid: methanol, grade: HPLC}\n"
    )
    assert findings(text, "solvent.grade-wrong") == []
    assert len(findings(text.replace("preparative", "research"), "solvent.grade-wrong")) == 1
