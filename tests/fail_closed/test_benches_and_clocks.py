"""Benches that a method names, and clocks of a booking: what contradicts is never clear."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.fail_closed.lab import BATCH, METHOD, day_batch, judged


def _write(file: Path, pattern: str, text: str) -> None:
    old = file.read_text(encoding="utf-8")
    new, count = re.subn(pattern, text, old, count=1, flags=re.MULTILINE)
    assert count == 1
    file.write_text(new, encoding="utf-8")


@pytest.mark.parametrize(
    ("benches", "verdict", "status"),
    [
        ("[bench-zz]", "do not run", 2),
        ("[bench-b, bench-zz]", "do not run", 2),
        ("[bench-b]", "run with care", 0),
        ("[bench-a]", "clear to run", 0),
        ("[bench-b, bench-a]", "clear to run", 0),
    ],
)
def test_a_sequence_of_a_method_for_another_bench(
    tmp_path: Path, benches: str, verdict: str, status: int
) -> None:
    lab = day_batch(tmp_path)
    _write(lab / METHOD, r"^runs_on: .*$", f"runs_on: {benches}")
    assert judged(lab, BATCH)[:2] == (verdict, status)


@pytest.mark.parametrize(
    ("start", "slot", "clear"),
    [
        ("", "", True),
        ("+01:00", "+01:00", True),
        ("+01:00", "+05:00", False),
        ("", "+05:00", False),
        ("Z", "", False),
    ],
)
def test_a_slot_and_a_start_on_different_clocks(
    tmp_path: Path, start: str, slot: str, clear: bool
) -> None:
    lab = day_batch(tmp_path)
    _write(lab / BATCH, r"^begins: (\S+)$", rf"begins: \g<1>{start}")
    _write(lab / BATCH, r'^slot: \{begins: "([^"]+)"', rf'slot: {{begins: "\g<1>{slot}"')
    verdict, status, report = judged(lab, BATCH)
    assert not report.failed
    assert (verdict == "clear to run") is clear
    assert status == 0


@pytest.mark.parametrize("file", [METHOD, BATCH, "columns/amylose-3um.yaml",
                                  "instruments/bench-a.yaml", "supplies/yard-cylinder.yaml",
                                  "solvents/bench-a-bottles.yaml", "rooms/separations-room.yaml"])  # fmt: skip
def test_a_retired_document_is_not_run(tmp_path: Path, file: str) -> None:
    lab = day_batch(tmp_path)
    text = re.sub(
        r"^status: .*\n", "", (lab / file).read_text(encoding="utf-8"), flags=re.MULTILINE
    )
    (lab / file).write_text(f"{text}status: retired\n", encoding="utf-8")
    assert judged(lab, BATCH)[:2] == ("do not run", 1)
    (lab / file).write_text(f"{text}status: approved\n", encoding="utf-8")
    assert judged(lab, BATCH)[:2] == ("clear to run", 0)


def test_a_retired_method_by_itself_is_not_clear_and_passes_a_gate(tmp_path: Path) -> None:
    """A lab keeps what it has retired: no gate fails for its being there."""
    lab = day_batch(tmp_path)
    _write(lab / METHOD, r"^status: .*$", "status: retired")
    assert judged(lab, METHOD)[:2] == ("run with care", 0)


def test_two_columns_in_a_train_are_a_fault_and_no_error_of_this_tool(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    _write(lab / "instruments/bench-a.yaml", r"^(  - \{part: column\})$", r"\1\n\1")
    verdict, status, report = judged(lab, BATCH)
    assert (verdict, status) == ("do not run", 1)
    assert not report.failed
