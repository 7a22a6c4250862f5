"""The overnight example: its table as a spreadsheet of a comma-decimal locale exports it is equal."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest

from methodlint.checking.check import check
from methodlint.documents.library import LabFolder
from tests.documents.sample_tables.bench import lab, lines, loud


def _in_a_comma_locale(text: str) -> bytes:
    """Write a table again with semicolons, decimal commas, CRLF and Windows-1252."""
    rows = list(csv.reader(io.StringIO(text)))
    out = io.StringIO()
    writer = csv.writer(out, delimiter=";", lineterminator="\r\n")
    header = next(n for n, row in enumerate(rows) if "sample" in row)
    for n, row in enumerate(rows):
        figures = [cell.replace(".", ",") if n > header else cell for cell in row]
        writer.writerow([cell.replace("[uL]", "[µL]") for cell in figures])
    return out.getvalue().encode("cp1252")


def test_84_lines_clear_to_run_from_either_export(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    sound = lab(tmp_path) / "sound"
    monkeypatch.chdir(sound)
    dotted = LabFolder(sound.parent, sound).open(sound / "overnight-table.yaml")
    text = (sound / "overnight-samples.csv").read_text(encoding="utf-8")
    comma = _in_a_comma_locale(text)
    assert b"2,0;" in comma
    assert b"." not in comma
    (sound / "overnight-samples.csv").write_bytes(comma)
    local = LabFolder(sound.parent, sound).open(sound / "overnight-table.yaml")
    assert dotted is not None
    assert local is not None
    assert len(lines(dotted)) == 84
    assert loud(local) == []
    for first, second in zip(lines(dotted), lines(local), strict=True):
        one, other = dict(first), dict(second)
        for key in ("volume", "fill"):
            one[key] = one[key] and one[key].si
            other[key] = other[key] and other[key].si
        assert one == other
    report = check("overnight-table.yaml")
    assert [f.message for f in report.findings if f.grade != "note"] == []
    assert report.verdict == "clear to run"


def test_a_bottle_that_ends_in_the_night_is_told_with_its_injection(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """By hand: 18 % of 2.0 mL/min is 0.36 mL/min, 1.69 mL in a cycle of 4.7 min."""
    folder = lab(tmp_path)
    bottles = folder / "solvents" / "bench-a-bottles.yaml"
    text = bottles.read_text(encoding="utf-8")
    assert "{line: modifier-1, liquid: methanol, fill: 900 mL" in text
    bottles.write_text(text.replace("methanol, fill: 900 mL", "methanol, fill: 220 mL", 1))
    monkeypatch.chdir(folder / "sound")
    report = check("overnight-table.yaml")
    (found,) = [f for f in report.findings if f.rule == "solvent.reservoir-too-small"]
    assert found.at.file.endswith("bench-a-bottles.yaml")
    # 220 - 60 dead - 50 purge - 3.6 equilibration = 106.4 mL; 106.4 / 1.69 = 62.9
    assert found.when is not None
    assert found.when.injection is not None
    assert found.when.injection in (62, 63, 64)
