"""A sequence of 10,000 lines from a table: the whole check is linear in the lines and quick.

Times are processor times of this process, so that other work on the machine does not count; the
ratio compares both lengths in one run.
"""

from __future__ import annotations

import shutil
import time
from pathlib import Path

import pytest

from methodlint.judging.check import check
from tests.documents.sample_tables.bench import lab

ENOUGH = {
    "solvents/bench-a-bottles.yaml": [
        ("fill: 900 mL", "fill: 30 L"),
        ("fill: 500 mL", "fill: 30 L"),
        ("expires: 2026-12-10", "expires: 2027-12-10"),
    ],
    "rooms/separations-room.yaml": [("capacity: 5 L, level: 0.4 L", "capacity: 60 L, level: 0 L")],
    "supplies/yard-cylinder.yaml": [
        ("water_capacity: 50 L", "water_capacity: 500 L"),
        ("net_mass: 31.0 kg", "net_mass: 310 kg"),
        ("full_mass: 37.5 kg", "full_mass: 375 kg"),
    ],
    "columns/amylose-3um.yaml": [("limit: 2000", "limit: 20000")],
}


def _rows(count: int) -> tuple[str, int]:
    """Rows of a table of so many lines, and the number of plates that they fill."""
    rows = ["kind,sample,plate,well,fill [mL],level,control_level,count"]
    rows += [
        "blank,ethanol,1,A1,1.5,,,",
        "conditioning,pool,1,A2,1,,,2",
        "suitability,SST,1,A3,1,,,5",
    ]
    rows += [f"calibrator,C{n},1,B{n},0.5,{n * n},," for n in range(1, 7)]
    rows.append("blank,ethanol,1,A1,,,,")
    number = 0
    while len(rows) < count - 4:
        if number % 10 == 0:
            which = number // 10 % 9
            word = "upper" if which % 2 else "lower"
            rows.append(f"control,QC {which},1,C{which + 1},1,,{word},")
        row, column = divmod(number % 54, 9)
        rows.append(f"sample,{number:05},{2 + number // 54},{'ABCDEF'[row]}{column + 1},0.5,,,")
        number += 1
    rows += ["control,QC 0,1,C1,1,,lower,", "suitability,SST,1,A3,,,,"]
    return "\n".join(rows) + "\n", 2 + number // 54


@pytest.fixture(scope="module")
def large_lab(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The example lab with bottles, cylinder and column for 10,000 lines."""
    folder = lab(tmp_path_factory.mktemp("large"))
    for name, changes in ENOUGH.items():
        text = (folder / name).read_text(encoding="utf-8")
        for old, new in changes:
            assert old in text, (name, old)
            text = text.replace(old, new)
        (folder / name).write_text(text, encoding="utf-8")
    head = (folder / "sound" / "overnight-table.yaml").read_text(encoding="utf-8")
    head = head.replace("length: 14 h", "length: 2000 h").replace(
        "stability: 48 h", "stability: 3000 h"
    )
    for count in (1_000, 10_000):
        table, plates = _rows(count)
        (folder / "sound" / f"large-{count}.csv").write_text(table, encoding="utf-8")
        text = head.replace("overnight-samples.csv", f"large-{count}.csv")
        stand = ", ".join(f'"{plate}": vial rack' for plate in range(1, plates + 1))
        text = text.replace("blocks:", f"plates: {{{stand}}}\nblocks:")
        (folder / "sound" / f"large-{count}.yaml").write_text(text, encoding="utf-8")
    return folder


def _seconds(file: Path, times: int = 2) -> float:
    """Best processor time of a whole check [s]."""
    best = float("inf")
    for _ in range(times):
        begins = time.process_time()
        report = check(file)
        best = min(best, time.process_time() - begins)
        assert report.verdict == "clear to run", [f.message for f in report.findings]
    return best


def test_ten_thousand_lines_are_linear_and_within_three_seconds(
    large_lab: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(large_lab)
    check(large_lab / "sound" / "triazole-day-batch.yaml")  # modules and tables are loaded once
    few = _seconds(large_lab / "sound" / "large-1000.yaml")
    many = _seconds(large_lab / "sound" / "large-10000.yaml")
    assert many <= 3.0
    # Ten times the lines; a step that compared each line with all others would take a hundred.
    assert many / few <= 16.0


def test_ten_thousand_lines_with_faults_stay_linear(
    large_lab: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Every line breaks something: wells off the plate, one data file, vials that run dry."""
    folder = tmp_path / "lab"
    shutil.copytree(large_lab, folder)
    monkeypatch.chdir(folder)
    spent = []
    for count in (1_000, 10_000):
        table = folder / "sound" / f"large-{count}.csv"
        text = table.read_text(encoding="utf-8").replace(",0.5,", ",0.085,")
        table.write_text(text.replace("9,0.085", "99,0.085"), encoding="utf-8")
        file = folder / "sound" / f"large-{count}.yaml"
        same = file.read_text(encoding="utf-8").replace("{date}_{line:03}_{sample}", "{date}")
        file.write_text(same, encoding="utf-8")
        begins = time.process_time()
        report = check(file)
        spent.append(time.process_time() - begins)
        assert report.verdict == "do not run"
    assert spent[1] / spent[0] <= 16.0
