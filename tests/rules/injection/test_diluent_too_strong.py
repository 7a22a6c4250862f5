"""Strong diluents.

Limits: common practice, no source. The column of the sound lab holds 0.65 pi/4 (3.0 mm)^2 150 mm
= 0.689 mL; that of the worked example (3.0 x 100 mm) 0.459 mL, of which 2 uL are 0.44 %.
"""

from __future__ import annotations

import pytest

from methodlint.judging.finding import Finding
from tests.rules.harness import findings, judged

RULE = "injection.diluent-too-strong"


def said(
    diluent: str, volume: str, method: str = "", column: str = "", *more: str
) -> list[Finding]:
    changes = (
        f"kind: method\ninjection: {{volume: {volume}, diluent: null}}\n{method}\n"
        f"---\nkind: sequence\ndiluent: {diluent}\n"
    )
    changes += f"---\nkind: column\n{column}\n" if column else ""
    return [f for f in findings(changes, RULE, *more) if f.rule == RULE]


START = "programme: [{{time: 0 min, modifier_share: {share} % v/v}}]"


@pytest.mark.parametrize("volume", ["1 uL", "2 uL"])
@pytest.mark.parametrize("diluent", ["methanol", "DMSO", "2-propanol", "acetonitrile"])
@pytest.mark.parametrize(
    "column", ["length: 150 mm", "length: 50 mm, inner_diameter: 3.0 mm", "inner_diameter: 2.1 mm"]
)
def test_silent_for_one_or_two_microlitres(volume: str, diluent: str, column: str) -> None:
    assert said(diluent, volume, column=column.replace(", ", "\n")) == []


@pytest.mark.parametrize("share", [20, 25, 40])
def test_silent_where_the_start_is_rich_in_the_same_alcohol(share: int) -> None:
    assert said("methanol", "6 uL", START.format(share=share)) == []
    assert len(said("methanol", "6 uL", START.format(share=15))) == 1


def test_silent_where_the_start_is_rich_in_a_stronger_alcohol() -> None:
    assert said("2-propanol", "9 uL", START.format(share=25)) == []
    weaker = "mobile_phase: {modifier: {liquid: 2-propanol}}\n" + START.format(share=25)
    assert len(said("methanol", "9 uL", weaker)) == 1


def test_silent_below_the_limit_of_the_worked_example() -> None:
    assert said("ethanol", "2 uL", START.format(share=18), "length: 100 mm") == []


@pytest.mark.parametrize("diluent", ["heptane", "MTBE", "dichloromethane", "ethyl acetate"])
def test_silent_for_weak_diluents(diluent: str) -> None:
    assert said(diluent, "20 uL") == []


def test_silent_where_the_plug_replaces_a_modifier_as_strong() -> None:
    method = "injection: {volume: 6 uL, diluent: null, stream: modifier}"
    changes = f"kind: method\n{method}\n---\nkind: sequence\ndiluent: methanol\n"
    assert findings(changes, RULE) == []
    assert len(findings(changes.replace("stream: modifier", "stream: mixed"), RULE)) == 1


@pytest.mark.parametrize(
    ("diluent", "passes", "fires"),
    [("methanol", "3.4 uL", "3.5 uL"), ("DMSO", "3.4 uL", "3.5 uL"), ("IPA", "6.8 uL", "7 uL"),
     ("MeCN", "6.8 uL", "7 uL")],
)  # fmt: skip
def test_half_a_percent_or_one_percent_of_the_hold_up_volume(
    diluent: str, passes: str, fires: str
) -> None:
    assert said(diluent, passes) == []
    (finding,) = said(diluent, fires)
    assert finding.grade == "caution"
    assert "of the hold-up volume 0.689 mL" in finding.message
    assert finding.at.path == ("diluent",)


def test_even_two_microlitres_are_much_for_a_very_small_column() -> None:
    assert len(said("methanol", "2 uL", column="length: 50 mm\ninner_diameter: 1.0 mm")) == 1


def test_methanol_is_not_diluted_with_heptane_but_injected_less() -> None:
    (finding,) = said("methanol", "5 uL")
    assert finding.remedy == "inject 3.4 uL"
    assert said("methanol", "3.4 uL") == []


def test_acetonitrile_is_not_diluted_with_heptane_which_it_does_not_mix_with() -> None:
    (finding,) = said("acetonitrile", "9 uL")
    assert finding.remedy == "inject 6.8 uL"


def test_2_propanol_is_diluted_with_heptane() -> None:
    (finding,) = said("2-propanol", "9 uL", "", "", "solvent.pair-not-miscible")
    assert finding.remedy == "dilute 1:1 with n-heptane and inject 18 uL"
    blend = "{liquids: [{liquid: 2-propanol, share: 50 %}, {liquid: n-heptane, share: 50 %}]}"
    assert said(blend, "18 uL") == []


def test_a_line_with_a_diluent_of_its_own_is_the_place() -> None:
    changes = (
        "kind: method\ninjection: {volume: 5 uL}\n---\nkind: sequence\ndiluent: heptane\nlines:\n"
        "  - {kind: sample, sample: x, well: A1}\n"
        "  - {kind: sample, sample: y, well: A2, diluent: methanol}\n"
    )
    (finding,) = findings(changes, RULE)
    assert finding.at.path == ("lines", 1, "diluent")


def test_an_unknown_diluent_is_not_checked() -> None:
    report = judged("kind: sequence\ndiluent: moonshine\n", RULE)
    assert report.findings == []
    assert "strength" in report.not_checked[0].reason


def test_the_overload_of_the_same_plug_is_told_beneath() -> None:
    changes = (
        "kind: method\ninjection: {volume: 60 uL, mode: metered}\n"
        "---\nkind: sequence\ndiluent: methanol\n"
    )
    found = findings(changes, RULE, "injection.overloads-column-volume")
    assert [finding.rule for finding in found] == [RULE]
    assert [child.rule for child in found[0].because] == ["injection.overloads-column-volume"]


def test_all_lines_with_too_much_are_put_right_together() -> None:
    changes = (
        "kind: method\ninjection: {volume: 2 uL}\n---\nkind: sequence\ndiluent: methanol\nlines:\n"
        "  - {kind: sample, sample: x, well: A1}\n"
        "  - {kind: sample, sample: y, well: A2, volume: 4 uL}\n"
        "  - {kind: sample, sample: z, well: A3, volume: 5 uL}\n"
        "  - {kind: sample, sample: z, well: A3, volume: 5 uL}\n"
    )
    (finding,) = findings(changes, RULE)
    assert "5 uL of methanol" in finding.message
    assert finding.remedy == "inject 3.4 uL"
