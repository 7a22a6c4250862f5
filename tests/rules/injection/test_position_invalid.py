"""Positions that the plate does not have: ANSI/SLAS 4-2004 (from memory) and declared trays."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "injection.position-invalid"


def seq(*wells: str, plates: str = '{"1": 96-well}', extra: str = "") -> str:
    listed = "".join(
        f"  - {{kind: sample, sample: s{n}, {well}}}\n" for n, well in enumerate(wells)
    )
    return f"kind: sequence\nplates: {plates}\nlines:\n{listed}{extra}"


@pytest.mark.parametrize("well", ["A1", "A01", "a1", "H12", "h12"])
def test_silent_for_every_spelling_of_a_valid_well(well: str) -> None:
    assert findings(seq(f"plate: 1, well: {well}"), RULE) == []


def test_silent_at_the_last_well_of_each_geometry() -> None:
    assert findings(seq("plate: 1, well: P24", plates='{"1": 384-well}'), RULE) == []
    assert findings(seq("plate: 1, well: F9", plates='{"1": vial rack}'), RULE) == []


def test_silent_and_not_checked_where_the_plate_type_is_not_declared() -> None:
    report = judged(seq("plate: 1, well: Z99", plates='{"1": home-made block}'), RULE)
    assert report.findings == []
    assert "home-made block" in report.not_checked[0].missing[0]


def test_not_checked_without_plates_or_wells() -> None:
    bare = "---\nkind: instrument\nautosampler: {plates: null}\n"
    report = judged(seq("well: A13", plates="{}", extra=bare), RULE)
    assert report.findings == []
    assert report.not_checked[0].missing == ("instrument.autosampler.plates",)
    report = judged("kind: sequence\nlines: [{kind: sample, sample: x}]", RULE)
    assert report.not_checked[0].missing == ("sequence.lines[].well",)


def test_not_checked_where_no_plate_is_named_among_several_and_none_is_1() -> None:
    two = "---\nkind: instrument\nautosampler: {plates: null}\n"
    report = judged(seq("well: A1", plates='{"2": 96-well, "3": 96-well}', extra=two), RULE)
    assert report.findings == []
    assert report.not_checked[0].missing == ("sequence.lines[].plate",)


def test_steps_without_injection_have_no_place() -> None:
    assert findings("kind: sequence\nlines: [{kind: flush, duration: 5 min}]", RULE) == []


def test_a13_on_96_wells() -> None:
    (finding,) = findings(seq("plate: 1, well: A13"), RULE)
    assert finding.grade == "fault"
    assert "A13 is not on plate 1 (96-well: A1 to H12)" in finding.message
    assert finding.remedy == "nearest valid places: A12, A1, A3"
    assert finding.at.path == ("lines", 0, "well")


@pytest.mark.parametrize(
    ("well", "plates", "near"),
    [
        ("I1", '{"1": 96-well}', "H1"),
        ("Q1", '{"1": 384-well}', "P1"),
        ("A25", '{"1": 384-well}', "A24"),
        ("G1", '{"1": vial rack}', "F1"),
        ("A0", '{"1": 96-well}', "A1"),
    ],
)
def test_beside_the_plate(well: str, plates: str, near: str) -> None:
    (finding,) = findings(seq(f"plate: 1, well: {well}", plates=plates), RULE)
    assert finding.remedy.startswith(f"nearest valid places: {near}")


def test_a_numbered_tray() -> None:
    tray = "---\nkind: instrument\nautosampler: {vessels: [{name: tray, positions: 54}]}\n"
    plates = '{"1": tray}'
    assert findings(seq('plate: 1, well: "54"', plates=plates, extra=tray), RULE) == []
    (finding,) = findings(seq('plate: 1, well: "55"', plates=plates, extra=tray), RULE)
    assert "1 to 54" in finding.message
    (finding,) = findings(seq("plate: 1, well: A1", plates=plates, extra=tray), RULE)
    assert finding.remedy == "valid places: 1 to 54"


def test_a_plate_that_does_not_stand_there() -> None:
    (finding,) = findings(seq("plate: 7, well: A1"), RULE)
    assert "there is no plate 7" in finding.message
    assert "1, 2" in finding.remedy


def test_what_is_no_place_at_all() -> None:
    (finding,) = findings(seq("plate: 1, well: middle"), RULE)
    assert "'middle' is no place" in finding.message


def test_the_sequence_s_plates_come_before_the_instrument_s() -> None:
    assert findings(seq("plate: 1, well: H12"), RULE) == []
    assert len(findings(seq("plate: 2, well: H12"), RULE)) == 1  # a rack of 6 x 9


def test_one_place_is_said_once_and_many_are_gathered() -> None:
    assert len(findings(seq("plate: 1, well: A13", "plate: 1, well: A13"), RULE)) == 1
    many = [f"plate: 1, well: A{n}" for n in range(13, 53)]
    found = findings(seq(*many), RULE)
    assert len(found) == 21
    assert "20 further places" in " ".join(finding.message for finding in found)


def test_a_step_without_injection_does_not_end_the_look() -> None:
    lines = "[{kind: flush, duration: 5 min}, {kind: sample, sample: x, plate: 1, well: A13}]"
    (finding,) = findings(f'kind: sequence\nplates: {{"1": 96-well}}\nlines: {lines}\n', RULE)
    assert finding.at.path == ("lines", 1, "well")
    assert finding.message.startswith("line 2:")


def test_a_plate_that_is_absent_is_told_once_for_all_its_lines() -> None:
    many = [f"plate: 7, well: A{n}" for n in range(1, 9)] + ["plate: 8, well: A1"]
    found = findings(seq(*many), RULE)
    assert [finding.message.partition(": ")[2] for finding in found] == [
        "there is no plate 7",
        "there is no plate 8",
    ]
    assert "and 7 others" in found[0].message


def test_a_numbered_tray_takes_a_number_without_quotation_marks() -> None:
    tray = "---\nkind: instrument\nautosampler: {plates: {'1': tray}, vessels: [{name: tray, "
    tray += "positions: 54}]}\n"
    lines = "kind: sequence\nlines: [{kind: sample, sample: a, plate: 1, well: WELL}]\n"
    assert findings(lines.replace("WELL", "54") + tray, RULE) == []
    (found,) = findings(lines.replace("WELL", "55") + tray, RULE)
    assert "55 is not on plate 1 (tray: 1 to 54)" in found.message


def test_a_number_on_a_plate_with_lettered_rows_is_no_place() -> None:
    lines = "kind: sequence\nlines: [{kind: sample, sample: a, plate: 1, well: 2}]\n"
    (found,) = findings(lines, RULE)
    assert (found.grade, found.at.path) == ("fault", ("lines", 0, "well"))
    assert "2 is not on plate 1 (vial rack: A1 to F9)" in found.message
