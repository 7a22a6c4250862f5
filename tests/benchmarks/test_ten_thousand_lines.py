"""A sequence of 10,000 lines from a table: the whole check is linear in the lines.

Times are processor times of this process, so that other work on the machine does not count; the
ratio compares both lengths in one run. How long it takes is told by `python -m tests.benchmarks`.
"""

from __future__ import annotations

import shutil
import time
from pathlib import Path

import pytest

from methodlint.judging.check import check
from tests.benchmarks.long_sequence import lab_of_sequences


@pytest.fixture(scope="module")
def large_lab(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The example lab with bottles, cylinder and column for 10,000 lines."""
    folder = tmp_path_factory.mktemp("large") / "lab"
    lab_of_sequences(folder, (1_000, 10_000))
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


def test_ten_thousand_lines_are_linear(large_lab: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(large_lab)
    check(large_lab / "sound" / "triazole-day-batch.yaml")  # modules and tables are loaded once
    few = _seconds(large_lab / "sound" / "large-1000.yaml")
    many = _seconds(large_lab / "sound" / "large-10000.yaml")
    # Ten times the lines, with room for a busy machine; a step that compared each line with all
    # others would take a hundred.
    assert many / few <= 40.0


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
    assert spent[1] / spent[0] <= 40.0
