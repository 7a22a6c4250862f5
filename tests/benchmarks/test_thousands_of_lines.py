"""A sequence of many lines from a table: the whole check is linear in the lines.

Work is counted in calls, which are the same on a busy machine; how long it takes is told by
`python -m tests.benchmarks`.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from methodlint.checking.check import check
from methodlint.checking.report import Report
from tests.benchmarks.long_sequence import lab_of_sequences
from tests.work_done import calls_of

SIZES = [(250, 500, 1_000), pytest.param((1_250, 2_500, 5_000), marks=pytest.mark.long)]
"""Numbers of lines, each twice the one before."""


UNUSUAL = {"document.value-implausible"}
"""A slot of eighty days is asked about."""


def work(file: Path, wanted: set[str]) -> int:
    """Calls of a check, which must find only what is wanted."""
    reports: list[Report] = []
    calls = calls_of(lambda: reports.append(check(file)))
    assert {finding.rule for finding in reports[0].findings if finding.grade != "note"} == wanted
    return calls


def linear(few: int, more: int, most: int) -> bool:
    """Whether twice as many lines more are twice as much work more: for a square it is four."""
    return most - more <= 2.5 * (more - few)


@pytest.mark.parametrize("counts", SIZES, ids=max)
def test_sound_lines(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, counts: list[int]) -> None:
    files = lab_of_sequences(tmp_path / "lab", counts)
    monkeypatch.chdir(tmp_path / "lab")
    check(files[0])  # modules and tables are loaded once
    assert linear(*(work(file, UNUSUAL) for file in files))


@pytest.mark.parametrize("counts", SIZES, ids=max)
def test_lines_with_faults(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, counts: list[int]
) -> None:
    """Every line breaks something: wells off the plate, one data file, vials that run dry."""
    files = lab_of_sequences(tmp_path / "lab", counts)
    monkeypatch.chdir(tmp_path / "lab")
    for file in files:
        table = file.with_suffix(".csv")
        text = table.read_text(encoding="utf-8").replace(",0.5,", ",0.085,")
        table.write_text(text.replace("9,0.085", "99,0.085"), encoding="utf-8")
        same = file.read_text(encoding="utf-8").replace("{date}_{line:03}_{sample}", "{date}")
        file.write_text(same, encoding="utf-8")
    check(files[0])
    wanted = {
        "injection.position-invalid",
        "sequence.data-file-duplicate",
        "injection.vial-runs-dry",
    }
    assert linear(*(work(file, wanted | UNUSUAL) for file in files))
