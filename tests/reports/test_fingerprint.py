"""A finding is known again after edits that do not concern it, and is another after one that does."""

from __future__ import annotations

import contextlib
import random
import re
from collections.abc import Callable
from pathlib import Path

import pytest

from methodlint.checking.check import check
from methodlint.documents.text.reader import read_text
from methodlint.reports.fingerprint import Fingerprints, with_beneath
from tests.reports.scratch_lab import change, copy_lab

HARMLESS = 200


def prints(path: Path) -> list[tuple[str, str]]:
    report = check(path)
    marks = Fingerprints(report)
    return sorted((f.rule, marks.of(f)) for f in with_beneath(report.findings))


@pytest.fixture(scope="module")
def before(tmp_path_factory: pytest.TempPathFactory) -> list[tuple[str, str]]:
    """Rules and fingerprints of the lab before a test changes it."""
    folder = tmp_path_factory.mktemp("before")
    with contextlib.chdir(folder):
        return prints(copy_lab(folder, sound=False))


@pytest.fixture
def lab(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return copy_lab(tmp_path, sound=False)


def _comment_above(lines: list[str], at: int, _: random.Random) -> None:
    indent = re.match(" *", lines[at])
    assert indent is not None
    lines.insert(at, f"{indent.group()}# looked at again")


def _comment_behind(lines: list[str], at: int, _: random.Random) -> None:
    if "#" not in lines[at] and lines[at].strip():
        lines[at] += "  # as agreed"


def _blank_line(lines: list[str], at: int, _: random.Random) -> None:
    lines.insert(at, "")


def _blanks_at_the_end(lines: list[str], at: int, _: random.Random) -> None:
    if lines[at].strip():
        lines[at] += "   "


def _own_key(lines: list[str], at: int, random_numbers: random.Random) -> None:
    del at
    lines.insert(1, f"x-note-{random_numbers.randrange(10**9)}: seen")


def _row_above(lines: list[str], at: int, random_numbers: random.Random) -> None:
    """Put one more row above all rows of a sequence."""
    del at, random_numbers
    for number, line in enumerate(lines):
        if line == "lines:":
            step = '  - {kind: flush, duration: 1 min, co2: "on", flow: 0.1 mL/min}'
            lines.insert(number + 1, step)
            return


EDITS: tuple[Callable[[list[str], int, random.Random], None], ...] = (
    _comment_above,
    _comment_behind,
    _blank_line,
    _blanks_at_the_end,
    _own_key,
)


def test_200_harmless_edits_change_no_fingerprint(lab: Path, before: list[tuple[str, str]]) -> None:
    assert len(before) >= 20
    assert len(dict.fromkeys(before)) == len(before), "each finding has a fingerprint of its own"
    numbers = random.Random(7)
    files = sorted(lab.rglob("*.yaml"))
    made = 0
    while made < HARMLESS:
        file = numbers.choice(files)
        lines = file.read_text(encoding="utf-8").splitlines()
        numbers.choice(EDITS)(lines, numbers.randrange(len(lines)), numbers)
        text = "\n".join(lines) + "\n"
        if not read_text(text.encode("utf-8"), "edited").problems:
            file.write_text(text, encoding="utf-8")
            made += 1
    assert prints(lab) == before


@pytest.mark.long
def test_line_ends_and_another_folder_change_nothing(
    lab: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, before: list[tuple[str, str]]
) -> None:
    for file in lab.rglob("*.yaml"):
        file.write_bytes(file.read_bytes().replace(b"\n", b"\r\n"))
    moved = tmp_path / "elsewhere" / "lab"
    moved.parent.mkdir()
    lab.rename(moved)
    assert prints(moved) == before
    monkeypatch.chdir(moved)
    assert prints(Path()) == before


def test_rows_above_change_nothing(lab: Path) -> None:
    """The vial that runs dry is the same one whatever stands in the sequence before it."""
    file = lab / "sequences" / "suitability-vial-runs-dry.yaml"
    before = {p for p in prints(file) if p[0] == "injection.vial-runs-dry"}
    assert before
    lines = file.read_text(encoding="utf-8").splitlines()
    for _ in range(3):
        _row_above(lines, 0, random.Random(1))
    file.write_text("\n".join(lines) + "\n", encoding="utf-8")
    assert {p for p in prints(file) if p[0] == "injection.vial-runs-dry"} == before


def test_another_value_is_another_finding(lab: Path) -> None:
    file = lab / "methods" / "terpenoids-hot-and-low.yaml"
    before = dict(prints(file))["phase.two-phase-at-outlet"]
    change(file, "outlet_pressure: 90 bar", "outlet_pressure: 91 bar")
    assert dict(prints(file))["phase.two-phase-at-outlet"] != before


def test_quotes_are_not_part_of_a_value(lab: Path) -> None:
    file = lab / "methods" / "terpenoids-hot-and-low.yaml"
    before = prints(file)
    change(file, "outlet_pressure: 90 bar", 'outlet_pressure: "90 bar"')
    assert prints(file) == before


def test_equal_findings_are_counted(tmp_path: Path) -> None:
    file = tmp_path / "m.yaml"
    rows = "".join(f"  - {{time: {t} min, floow: 2}}\n" for t in (0, 0))
    file.write_text(f"kind: method\nprogramme:\n{rows}", encoding="utf-8")
    unknown = [mark for rule, mark in prints(file) if rule == "document.unknown-key"]
    assert [mark.partition(":")[2] for mark in unknown] == ["1", "2"]
    assert len({mark.partition(":")[0] for mark in unknown}) == 1


def test_the_same_finding_on_two_instruments_is_two(lab: Path) -> None:
    file = lab / "methods" / "dye-rich-end-too-fast.yaml"
    change(file, "runs_on: [bench-a]", "runs_on: [bench-a, bench-a-capped]")
    found = [p for p in prints(file) if p[0] == "pressure.column-rating-exceeded"]
    assert len({mark for _, mark in found}) == len(found) >= 1
