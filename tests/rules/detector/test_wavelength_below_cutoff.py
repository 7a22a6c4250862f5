"""detector.wavelength-below-cutoff: cutoffs from solvent tables, absorbances of Li 1992 (unverified)."""

from __future__ import annotations

import re

import pytest

from tests.rules.harness import findings, judged

RULE = "detector.wavelength-below-cutoff"


def method(
    wavelength: str, share: str = "20", liquid: str = "methanol", more: str = "", extra: str = ""
) -> str:
    return (
        "kind: method\nprogramme: []\n"
        f"mobile_phase: {{modifier_share: {share} % v/v, modifier: {{liquid: {liquid}{more}}}}}\n"
        "detectors:\n  - {type: UV, cell: UV cell, rate: 20 Hz, "
        f"wavelength: {wavelength}}}\n{extra}"
    )


def test_silent_for_5_per_cent_methanol_at_200_nm() -> None:
    """CO2 is transparent, a few per cent of modifier are workable (common practice)."""
    assert findings(method("200 nm", "5"), RULE) == []


@pytest.mark.parametrize(
    ("liquid", "cutoff"),
    [("methanol", 205), ("ethanol", 210), ("2-propanol", 205), ("acetonitrile", 190)],
)
def test_silent_at_the_cutoff(liquid: str, cutoff: int) -> None:
    """MeOH 205, EtOH 210, IPA 205, ACN 190 nm (solvent tables, from memory)."""
    assert findings(method(f"{cutoff} nm", "40", liquid), RULE) == []


def test_silent_if_only_the_diluent_absorbs() -> None:
    """Acetone (330 nm) in the front peak is no matter at 254 nm."""
    changes = (
        method("254 nm", extra="injection: {diluent: acetone}\n")
        + "---\nkind: sequence\ndiluent: acetone\n"
    )
    assert findings(changes, RULE) == []


def test_silent_if_makeup_joins_behind_the_cell() -> None:
    """The tee of the sound lab stands downstream of the cell."""
    makeup = (
        "makeup: {liquid: acetone, additives: [], flow: 0.3 mL/min, tee: before the regulator}\n"
    )
    assert findings(method("254 nm", extra=makeup), RULE) == []


def test_silent_for_detectors_without_light() -> None:
    changes = method("195 nm", "40").replace("type: UV", "type: ELSD")
    assert findings(changes, RULE) == []


def test_silent_for_a_trace_that_only_triggers() -> None:
    changes = method("195 nm", "40").replace("type: UV", "type: UV, purpose: trigger")
    assert findings(changes, RULE) == []


def test_silent_for_an_amine_at_a_constant_composition() -> None:
    """0.2 % diethylamine at 220 nm, 20 % isocratic: customary (common practice, no source)."""
    amine = ", additives: [{additive: diethylamine, level: 0.2 % v/v}]"
    assert findings(method("220 nm", "20", "2-propanol", more=amine), RULE) == []


def test_the_same_amine_rising_in_a_gradient_is_a_caution() -> None:
    amine = "modifier: {liquid: methanol, additives: [{additive: diethylamine, level: 0.2 % v/v}]}"
    changes = (
        f"kind: method\nmobile_phase: {{{amine}}}\n"
        "detectors: [{type: UV, cell: UV cell, wavelength: 220 nm, rate: 20 Hz}]"
    )
    (found,) = findings(changes, RULE)
    assert found.grade == "caution"
    assert "a rise of 0.2 is workable" in found.message


def test_forty_per_cent_methanol_at_200_nm() -> None:
    """Methanol absorbs 2.06 in 1 cm at 200 nm (Li 1992, unverified): 0.4 x 2.06 = 0.82."""
    (found,) = findings(method("200 nm", "40"), RULE)
    assert found.grade == "caution"
    assert found.found is not None and found.found.value == pytest.approx(0.824, abs=0.001)
    assert "(unverified data)" in found.message
    assert found.at.path == ("detectors", 0, "wavelength")


@pytest.mark.parametrize(
    ("liquid", "wavelength"), [("acetone", "254 nm"), ("toluene", "254 nm"), ("methanol", "190 nm")]
)
def test_far_below_the_cutoff_is_a_fault(liquid: str, wavelength: str) -> None:
    """Acetone 330, toluene 284, methanol 205 nm (solvent tables, from memory)."""
    (found,) = findings(method(wavelength, "30", liquid), RULE)
    assert found.grade == "fault"


@pytest.mark.parametrize("wavelength", ["254 nm", "220 nm"])
def test_what_no_detector_reads_is_told_as_more_than_two(wavelength: str) -> None:
    """Stray light ends a scale at 2 to 3 (common practice, no source)."""
    (found,) = findings(method(wavelength, "30", "acetone"), RULE)
    assert "absorbs more than 2 in 1 cm" in found.message
    assert found.found is not None and found.found.value == 2.0


def test_the_rise_over_a_gradient_is_said() -> None:
    changes = (
        "kind: method\ndetectors: [{type: UV, cell: UV cell, wavelength: 200 nm, rate: 20 Hz}]"
    )
    (found,) = findings(changes, RULE)
    rise = re.search(r"absorbs at least ([\d.]+) .* rising by ([\d.]+) over the run", found.message)
    assert rise is not None
    # 5 to 40 %: the rise is 35/40 of the highest level (arithmetic).
    assert float(rise[2]) / float(rise[1]) == pytest.approx(35 / 40, abs=0.03)


def test_an_additive_raises_the_cutoff() -> None:
    """Amines raise it by 10 to 25 nm (practice, from memory)."""
    amine = ", additives: [{additive: diethylamine, level: 0.2 % v/v}]"
    assert findings(method("210 nm", "60"), RULE) == []
    (found,) = findings(method("210 nm", "60", more=amine), RULE)
    assert found.grade == "caution"


def test_silent_for_a_little_acid_well_above_its_edge() -> None:
    """0.1 % TFA absorbs 0.25 in 1 cm at 230 nm (Li 1992, unverified): 0.05 at 20 %."""
    acid = ", additives: [{additive: trifluoroacetic acid, level: 0.1 % v/v}]"
    assert findings(method("230 nm", "20", "acetonitrile", more=acid), RULE) == []


def test_an_acid_absorbs_by_its_level() -> None:
    """1 % acetic acid absorbs 2.17 in 1 cm at 220 nm (Li 1992, unverified); methanol 0.24 itself."""
    acid = ", additives: [{additive: acetic acid, level: 1 % v/v}]"
    assert findings(method("220 nm", "30"), RULE) == []
    (found,) = findings(method("220 nm", "30", more=acid), RULE)
    assert found.found is not None and found.found.value == pytest.approx(0.3 * 2.41, abs=0.01)


@pytest.mark.parametrize("additive", ["diethylamine", "isopropylamine"])
def test_an_amine_below_210_nm_is_never_passed_in_silence(additive: str) -> None:
    """How much these absorb is not published: 0.2 % at 200 nm used to pass."""
    amine = f", additives: [{{additive: {additive}, level: 0.2 % v/v}}]"
    report = judged(method("200 nm", "10", more=amine), RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("method.mobile_phase.modifier",)]
    assert judged(method("210 nm", "10", more=amine), RULE).not_checked == []


def test_the_next_wavelength_is_never_one_at_which_an_amine_is_unknown() -> None:
    amine = ", additives: [{additive: diethylamine, level: 0.2 % v/v}]"
    (found,) = findings(method("200 nm", "40", more=amine), RULE)
    said = re.fullmatch(r"measure at (\d+) nm.*", found.remedy)
    assert said is not None and int(said[1]) >= 210


def test_makeup_in_front_of_the_cell_counts() -> None:
    makeup = "makeup: {liquid: acetone, flow: 0.3 mL/min, tee: before the regulator}\n"
    train = (
        "---\nkind: instrument\ntrain:\n  - {part: column}\n  - {part: tee}\n"
        "  - {part: cell, name: UV cell, volume: 11 uL, detector: UV}\n  - {part: regulator}\n"
    )
    (found,) = findings(method("254 nm", extra=makeup) + train, RULE)
    assert found.grade == "fault"


def test_remedy_is_the_next_usable_wavelength() -> None:
    (found,) = findings(method("195 nm", "20"), RULE)
    said = re.fullmatch(r"measure at (\d+) nm", found.remedy)
    assert said is not None
    assert 195 < int(said[1]) <= 205


def test_an_unknown_liquid_is_not_checked() -> None:
    report = judged(
        method("254 nm", more=", additives: [{additive: something new, level: 1 mM}]"), RULE
    )
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("method.mobile_phase.modifier",)]


def test_a_wavelength_that_is_not_given_is_not_checked() -> None:
    report = judged("kind: method\ndetectors: [{type: PDA, cell: UV cell, rate: 20 Hz}]", RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("method.detectors[0].wavelength",)]
