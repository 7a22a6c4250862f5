"""The twenty classic false alarms, each over whole documents and with all rules.

Each test has a twin where the real trouble begins, so that silence is not deafness. Figures without
another source named beside them are common practice, no source.
"""

from __future__ import annotations

import pytest

from methodlint.checking.report import Report
from tests.fault_injection.fault import labs
from tests.text_labs import REMOVED, TextLab, everything, reported

LABS = labs()


def changed(lab: TextLab, *edits: tuple[str, object]) -> Report:
    for path, value in edits:
        lab = lab.changed(path, value)
    return lab.judged()


def rules_of(report: Report) -> set[str]:
    """Rules of findings above a note, those beneath others included."""
    return {f.rule for f in everything(report.findings) if f.grade != "note"}


def isocratic(share: str) -> tuple[tuple[str, object], ...]:
    return (("method.programme", []), ("method.mobile_phase.modifier_share", share))


def test_01_liquid_below_the_critical_temperature_is_a_note_at_most() -> None:
    """25 degC and 110 bar; saturation of CO2 64.3 bar at 25 degC (Span and Wagner 1996)."""
    report = LABS["dye"].judged()
    assert reported(report) == []
    assert [f.grade for f in report.findings if f.rule == "temperature.subcritical"] == ["note"]
    low = changed(LABS["dye"], ("method.outlet_pressure", "55 bar"))
    assert "phase.two-phase-at-outlet" in rules_of(low) or "pressure.bpr-out-of-range" in rules_of(
        low
    )


def test_02_ninety_percent_methanol_is_no_trouble_of_its_own() -> None:
    lab = LABS["dye"]
    assert any(
        "90 %" in row["modifier_share"] for row in lab.plain(lab.meant["method"])["programme"]
    )
    assert not any(rule.startswith("phase.") for rule in rules_of(lab.judged()))


def test_03_two_phases_behind_the_regulator_and_turbulence_in_tubes_are_normal() -> None:
    """Turbulent from Re 4000, at 2100 the laminar law ends (Tarafder 2018)."""
    report = LABS["waxes"].judged()
    assert reported(report) == []
    after = changed(LABS["sulfonamides"], ("method.makeup.tee", "after the regulator"))
    assert not any(rule.startswith("phase.") for rule in rules_of(after))


def test_04_the_critical_pressure_of_pure_co2_decides_nothing() -> None:
    """90 bar at 25 degC is one phase; at 60 degC the boundary is at 104 to 112 bar."""
    cool = changed(
        LABS["lab"],
        ("method.oven_temperature", "25 degC"),
        ("method.outlet_pressure", "95 bar"),
        ("method.pressure_limits.low", "118 bar"),
    )
    assert not any(rule.startswith("phase.") for rule in rules_of(cool))
    hot = changed(
        LABS["lab"], ("method.oven_temperature", "60 degC"), ("method.outlet_pressure", "90 bar")
    )
    assert rules_of(hot) & {"phase.two-phase-at-outlet", "phase.two-phase-mid-gradient"}


def test_05_the_mixture_s_compressibility_counts_not_pure_co2_s() -> None:
    """Pure CO2 gives 1.2 %/bar at 40 degC and 100 bar (Span and Wagner 1996)."""
    rich = changed(
        LABS["lab"],
        *isocratic("25 % v/v"),
        ("method.outlet_pressure", "100 bar"),
        ("method.pressure_limits.low", "128 bar"),
    )
    assert "phase.near-critical-compressible" not in rules_of(rich)
    lean = changed(
        LABS["waxes"], ("method.oven_temperature", "57 degC"), ("method.outlet_pressure", "112 bar")
    )
    assert "phase.near-critical-compressible" in rules_of(lean)


def test_06_release_of_an_outdoor_cylinder_or_with_an_assessment_and_alarm() -> None:
    assert "safety.room-co2-release" not in rules_of(LABS["batch"].judged())
    inside = changed(LABS["batch"], ("supply.place", "inside"))
    assert "safety.room-co2-release" not in rules_of(inside)
    bare = changed(
        LABS["batch"], ("supply.place", "inside"), ("room.risk_assessment", {"on_file": False})
    )
    assert "safety.room-co2-release" in rules_of(bare)


def test_07_the_cutoff_of_five_percent_methanol_or_of_the_diluent_alone() -> None:
    """5 % methanol at 200 nm is workable; only the front of the chromatogram sees a diluent."""
    lean = changed(LABS["lab"], *isocratic("5 % v/v"), ("method.detectors[0].wavelength", "203 nm"))
    assert "detector.wavelength-below-cutoff" not in rules_of(lean)
    diluent = changed(LABS["dye"], ("method.injection.diluent", "toluene"))
    assert "detector.wavelength-below-cutoff" not in rules_of(diluent)
    rich = changed(LABS["dye"], ("method.detectors[0].wavelength", "196 nm"))
    assert "detector.wavelength-below-cutoff" in rules_of(rich)


def test_08_an_immiscible_pair_that_never_meets_or_meets_inside_co2_only() -> None:
    """Methanol and n-heptane part below about 51 degC (from memory)."""
    assert "solvent.pair-not-miscible" not in rules_of(LABS["waxes"].judged())
    plug = changed(LABS["dye"], ("method.injection.diluent", "n-heptane"))
    assert rules_of(plug) & {"solvent.pair-not-miscible", "makeup.not-miscible"} == set()
    wash = changed(
        LABS["ms-lab"],
        ("solvents.bottles[3].liquid", "n-heptane"),
        ("solvents.bottles[3].enters_flow", False),
    )
    assert not any("makeup" in rule for rule in rules_of(wash))


def test_09_an_immobilised_phase_bears_what_a_coated_one_does_not() -> None:
    free = changed(LABS["flame"], ("method.injection.diluent", "dichloromethane"))
    assert "column.solvent-forbidden" not in rules_of(free)
    behind = changed(
        LABS["sulfonamides"],
        ("column.phase", "coated polysaccharide"),
        ("method.makeup.liquid", "ethyl acetate"),
        ("method.makeup.additives", REMOVED),
    )
    assert "column.solvent-forbidden" not in rules_of(behind)
    coated = changed(
        LABS["flame"],
        ("column.phase", "coated polysaccharide"),
        ("method.injection.diluent", "dichloromethane"),
    )
    assert "column.solvent-forbidden" in rules_of(coated)


def test_10_scheduled_transitions_are_not_all_concurrent() -> None:
    rows = [
        {
            "name": f"residue {n}",
            "dwell": "40 ms",
            "begins": f"{0.2 * n:g} min",
            "ends": f"{0.2 * n + 0.2:g} min",
        }
        for n in range(25)
    ]
    own = LABS["sulfonamides"].plain("method/sulfonamides-in-honey")["detectors"][0]["transitions"]
    spread = changed(LABS["sulfonamides"], ("method.detectors[0].transitions", [*own, *rows]))
    assert "detector.ms-cycle-too-slow" not in rules_of(spread)
    together = [{**row, "begins": "0 min", "ends": "6 min"} for row in rows]
    at_once = changed(LABS["sulfonamides"], ("method.detectors[0].transitions", [*own, *together]))
    assert "detector.ms-cycle-too-slow" in rules_of(at_once)


def test_11_aqueous_ph_limits_say_nothing_about_salts_in_methanol() -> None:
    lab = LABS["sulfonamides"]
    limits = (("column.ph_limits", [2, 4]), ("method.mobile_phase.modifier.ph", 9))
    assert "column.additive-or-ph-forbidden" not in rules_of(changed(lab, *limits))


def test_12_a_small_injection_or_a_mobile_phase_rich_in_the_same_alcohol() -> None:
    small = changed(
        LABS["lab"], ("method.injection.diluent", "methanol"), ("sequence.diluent", "methanol")
    )
    assert "injection.diluent-too-strong" not in rules_of(small)
    rich = changed(
        LABS["lab"],
        *isocratic("25 % v/v"),
        *(("method.injection.diluent", "methanol"), ("sequence.diluent", "methanol")),
        ("method.injection.volume", "5 uL"),
    )
    assert "injection.diluent-too-strong" not in rules_of(rich)
    strong = changed(LABS["flavonoid"], ("method.injection.volume", "5 uL"))
    assert "injection.diluent-too-strong" in rules_of(strong)


def test_13_settling_of_isocratic_methods_and_of_a_rhythm_that_suitability_shares() -> None:
    still = changed(LABS["triazole"], ("method.settling_time", "0 min"))
    assert "gradient.reequilibration-short" not in rules_of(still)
    rhythm = changed(LABS["sulfonamides"], ("method.settling_time", "0.5 min"))
    assert "gradient.reequilibration-short" not in rules_of(rhythm)
    without = changed(LABS["flavonoid"], ("method.settling_time", "0.2 min"))
    assert "gradient.reequilibration-short" in rules_of(without)


def test_14_an_isocratic_transfer_has_no_dwell_or_gradient_to_match() -> None:
    report = LABS["transferred"].judged()
    assert reported(report) == []
    stiff = changed(
        LABS["transferred"],
        ("method.mobile_phase.modifier_share", "45 % v/v"),
        ("method.flow", "1 mL/min"),
    )
    silent = {
        "transfer.dwell-not-compensated",
        "transfer.gradient-not-scaled",
        "transfer.density-mismatch",
    }
    assert rules_of(stiff) & silent == set()


def test_15_vapour_withdrawal_and_changeover_use_the_cylinder_to_its_end() -> None:
    low = ("supply.net_mass", "8.6 kg")
    assert "supply.cylinder-runs-out" in rules_of(changed(LABS["lab"], low))
    changeover = changed(LABS["lab"], low, ("supply.changeover", "automatic"))
    assert "supply.cylinder-runs-out" not in rules_of(changeover)
    vapour = changed(
        LABS["lab"],
        low,
        ("supply.withdrawal", "vapour"),
        ("supply.dip_tube", False),
        ("instrument.co2_pump.inlet", "vapour"),
    )
    assert "supply.cylinder-runs-out" not in rules_of(vapour)


def test_16_synonyms_of_liquids_places_units_and_levels() -> None:
    """0.1 % formic acid by volume is 26 mM: 1.22 g/mL, 46.03 g/mol (from memory)."""
    bottle = {
        "liquid": "MeOH",
        "additives": [{"additive": "ammonium formate", "level": "0.02 mol/L"}],
    }
    same = changed(
        LABS["ms-lab"],
        *((f"solvents.bottles[0].{key}", value) for key, value in bottle.items()),
        ("sequence.diluent", "IPA"),
        ("sequence.lines[0].well", "A01"),
        ("method.outlet_pressure", "14 MPa"),
    )
    assert reported(same) == []
    other = changed(LABS["ms-lab"], ("solvents.bottles[0].liquid", "EtOH"))
    assert "solvent.line-mismatch" in rules_of(other)


def test_17_one_cause_is_one_finding() -> None:
    report = changed(
        LABS["waxes"],
        ("method.oven_temperature", "55 degC"),
        ("method.outlet_pressure", "88 bar"),
        ("method.pressure_limits.low", "90 bar"),
    )
    phases = [
        f
        for f in report.findings
        if f.rule.startswith(("phase.", "pressure.margin", "temperature.drops"))
    ]
    assert len([f for f in phases if f.grade != "note"]) == 1
    assert phases[0].because


@pytest.mark.parametrize("text", ["150", "150 degC", "2200 bar", "about 150 bar"])
def test_18_no_physics_from_a_guessed_unit(text: str) -> None:
    report = changed(LABS["flavonoid"], ("method.outlet_pressure", text))
    assert {rule.partition(".")[0] for rule in rules_of(report)} == {"document"}
    assert any(item.rule == "phase.two-phase-at-outlet" for item in report.not_checked)


def test_19_a_limit_crossed_only_inside_the_band_is_a_caution_not_a_fault() -> None:
    """The boundary has a band of 5 bar: set a few bar above it, two phases are only possible."""
    report = changed(
        LABS["lab"], ("method.outlet_pressure", "80 bar"), ("method.pressure_limits.low", "100 bar")
    )
    two = [f for f in everything(report.findings) if f.rule.startswith("phase.two-phase")]
    assert two
    assert all(f.grade == "caution" and f.possible for f in two)


def test_20_a_lean_start_on_waxes_is_the_method_not_a_mistake() -> None:
    assert reported(LABS["waxes"].judged()) == []
    polar = changed(LABS["waxes"], ("method.analytes", "polar"))
    assert "gradient.start-too-lean" in {f.rule for f in everything(polar.findings)}
    assert "gradient.start-too-lean" not in rules_of(polar), "a note"
