"""A bioanalytical batch of 119 lines: designer stimulants in oral fluid.

Figures by hand: 119 x (5.5 + 0.7) min = 737.8 min = 12.3 h against a slot of 12 h; 5 % of 96 = 4.8
-> 5, and the least of six governs (ICH M10, 2022, 3.3.1, seen in a transcription); six levels
(3.2.4 there); SST vial: 40 uL with 12 uL that cannot be drawn, 7 uL each time: four injections.
"""

from __future__ import annotations

import json
from functools import cache

import pytest

from methodlint.checking.report import Report
from methodlint.judging.finding import Finding
from methodlint.judging.loader import built_in_ids
from tests.rules.harness import judged
from tests.rules.sequence.lines import line


def _wells() -> list[str]:
    """Names of 96 wells, row by row; sample 13 is placed in a column that is not there."""
    wells = [f"{row}{column}" for row in "ABCDEFGH" for column in range(1, 13)]
    wells[12] = "A13"
    wells[13] = "C4"
    return wells


def _lines() -> list[str]:
    lines = [line("blank", "diluent", well="A1") for _ in range(2)]
    lines += [
        line("suitability", "SST", well="A2", vessel="250 uL insert", fill="40 uL")
        for _ in range(6)
    ]
    lines += [line("zero", "zero", well="A3"), line("matrix blank", "matrix", well="A4")]
    standards = [(n, level) for n, level in enumerate((1, 2, 5, 10, 20), 1)]
    lines += [line("calibrator", f"STD{n}", level=level, well=f"B{n}") for n, level in standards]
    lines += [
        line("control", f"QC {n}", control_level=level, plate=2 if n == 1 else 1, well=well)
        for n, level, well in ((1, "lower", "C4"), (2, "middle", "D2"), (3, "upper", "D3"))
    ]
    lines += [
        line("sample", f"donor {n:02}", plate=2, well=well) for n, well in enumerate(_wells(), 1)
    ]
    lines += [line("calibrator", f"STD{n}", level=level, well=f"B{n}") for n, level in standards]
    return lines


_METHOD = """kind: method
purpose: bioanalysis
flow: 1.8 mL/min
programme: null
mobile_phase:
  modifier: {liquid: methanol, line: modifier-1}
  modifier_share: 15 % v/v
run_length: 5.5 min
settling_time: null
expected_peaks: null
bracketing: standards
"""
_INSTRUMENT = """kind: instrument
data_files: {existing: overwrite}
autosampler:
  plates: {"1": vial rack, "2": 96-well}
  vessels:
    - {name: vial rack, rows: 6, columns: 9, capacity: 2 mL, dead_volume: 80 uL}
    - {name: 250 uL insert, capacity: 250 uL, dead_volume: 12 uL}
    - {name: 96-well, rows: 8, columns: 12, capacity: 1 mL, dead_volume: 20 uL}
"""
_HEAD = {
    "purpose": "bioanalysis",
    "begins": "2026-11-24T08:00",
    "slot": {"begins": "2026-11-24T08:00", "length": "12 h"},
    "equilibration": None,
    "data_file": "{date}",
}


@cache
def report() -> Report:
    head = "\n".join(f"{key}: {json.dumps(value)}" for key, value in _HEAD.items())
    lines = "\n".join(f"  - {item}" for item in _lines())
    sequence = f"kind: sequence\n{head}\nlines:\n{lines}\n"
    return judged(f"{_METHOD}---\n{_INSTRUMENT}---\n{sequence}")


def _one(rule: str) -> Finding:
    if rule not in built_in_ids():
        pytest.skip(f"there is no rule {rule}")
    (found,) = [f for f in report().findings if f.rule == rule]
    return found


def test_there_are_119_lines() -> None:
    assert len(_lines()) == 119
    (batch,) = report().batches
    assert batch.batch.injections == 119


def test_no_blank_behind_the_highest_standard() -> None:
    found = _one("sequence.no-carryover-blank")
    assert found.grade == "fault"
    assert "STD5, line 15" in found.message
    assert "line 16 is a control" in found.message


def test_five_levels_of_six() -> None:
    found = _one("sequence.calibration-too-few-levels")
    assert found.grade == "fault"
    assert "5 levels above zero, 6 are recommended" in found.message


def test_three_controls_of_six_and_the_minimum_is_the_reason() -> None:
    found = _one("sequence.qc-too-few")
    assert found.grade == "fault"
    assert "3 controls for 96 samples, 6 are needed" in found.message
    assert "5 % of 96 = 4.8 -> 5, at least 6" in found.message


def test_controls_are_unevenly_spread() -> None:
    assert _one("sequence.qc-unevenly-spread").grade == "caution"


def test_ninety_six_in_a_row_are_not_bracketed() -> None:
    found = _one("sequence.not-bracketed")
    assert found.grade == "fault"
    assert "96 samples in a row (lines 19 to 114)" in found.message


def test_the_slot_is_overrun_by_a_third_of_an_hour() -> None:
    found = _one("sequence.overruns-slot")
    assert found.grade == "caution"
    assert found.found is not None
    assert found.found.value == pytest.approx(119 * 6.2 / 60.0)
    assert "0.297 h after its slot; 116 of 119 injections fit" in found.message  # 720 / 6.2 = 116.1


def test_one_name_for_all_data_files_is_a_stop() -> None:
    found = _one("sequence.data-file-duplicate")
    assert found.grade == "stop"
    assert "(119 lines share a name)" in found.message
    assert found.remedy == 'write data_file: "{seq}_{line:03}"'


@pytest.mark.parametrize(
    ("rule", "piece"),
    [
        ("injection.vial-runs-dry", "5"),
        ("injection.position-invalid", "A13"),
        ("injection.position-collision", "C4"),
    ],
)
def test_vials_and_places(rule: str, piece: str) -> None:
    if rule not in built_in_ids():
        pytest.skip(f"there is no rule {rule}")
    assert any(f.rule == rule and piece in f.message for f in report().findings)


@pytest.mark.parametrize(
    "rule",
    [
        "sequence.no-opening-blank",
        "sequence.calibration-no-blank-and-zero",
        "sequence.no-sst",
        "sequence.sample-id-duplicate",
        "sequence.sst-too-few-or-without-criteria",
        "sequence.run-time-shorter-than-method",
    ],
)
def test_what_must_not_be_said(rule: str) -> None:
    assert [f.message for f in report().findings if f.rule == rule] == []
