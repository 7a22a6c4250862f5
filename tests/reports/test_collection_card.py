"""Fractions on the bench card: rhythm, changes of vessels, waste without what is collected.

Expected figures are arithmetic on the example: 60 mL/min with 25 % of modifier and 4 mL/min added at
the collector, windows of 0.5 and 0.65 min, 190 injections of 60 mg.
"""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from methodlint.checking.check import check
from methodlint.judging.case import BatchCase
from methodlint.judging.shared.waste_of_case import fills_of
from methodlint.reports.card.blocks import Table
from methodlint.reports.card.contents import card_blocks
from tests.command import ROOT


def _case(folder: Path, *edits: tuple[str, str, str]) -> BatchCase:
    """The preparative example, with edits of file, text and replacement."""
    lab = folder / "lab"
    if not lab.exists():
        shutil.copytree(ROOT / "example_methods", lab)
    for file, old, new in edits:
        text = (lab / file).read_text(encoding="utf-8")
        assert old in text
        (lab / file).write_text(text.replace(old, new), encoding="utf-8")
    report = check(lab / "sound" / "resin-acid-collected.yaml")
    return report.batches[0]


def _block(case: BatchCase, key: str) -> Table:
    found = next(block for block in card_blocks(case) if block.key == key)
    assert isinstance(found, Table)
    return found


def test_vessels_that_hold_everything_are_changed_by_nobody(tmp_path: Path) -> None:
    block = _block(_case(tmp_path), "collection")
    assert [row[-1] for row in block.rows] == ["fits", "fits"]
    foot = dict(block.foot)
    # 60 min over 2.4 min; a last injection runs to its end
    assert foot["rhythm"].startswith("24.8 injections")
    # 15 mL/min of 5 min for the last and 2.4 min for the others, 1.15 min of 4 mL/min each
    per_gram = (15.0 * (2.4 * 189 + 5.0) + 4.0 * 1.15 * 190) / (0.060 * 190)
    solvent = re.search(r"a gram takes (\d+) mL", foot["throughput"])
    assert solvent is not None
    assert float(solvent[1]) == pytest.approx(per_gram, rel=0.01)
    assert "bench P duty chemist changes them" in foot["vessels"]
    assert "second person" not in foot["vessels"]


def test_small_vessels_say_after_which_injection_and_when(tmp_path: Path) -> None:
    small = ("instruments/bench-p.yaml", "vessel_capacity: 1.5 L", "vessel_capacity: 500 mL")
    two = ("lab.yaml", "policy:\n", "policy:\n  two_persons_at_vessels: true\n")
    case = _case(tmp_path, small, two)
    block = _block(case, "collection")
    # two vessels of 450 mL hold 94 times 9.5 mL; 72 times 12.35 mL
    changes = [str(row[-1]) for row in block.rows]
    assert changes[0].startswith("change every 94 injections, first 2026-11-25 ")
    assert changes[1].startswith("change every 72 injections, first 2026-11-25 ")
    starts = [clock for index, clock, _ in case.batch.injection_starts if index == 1]
    hours, minutes = changes[1][-5:].split(":")
    assert (int(hours) - 9) * 60 + int(minutes) == pytest.approx(starts[72] / 60.0, abs=1.0)
    assert "with a second person" in dict(block.foot)["vessels"]


def test_what_is_collected_does_not_run_into_the_waste(tmp_path: Path) -> None:
    case = _case(tmp_path)
    ((fill,), missing) = fills_of(case)
    assert missing == ()
    pumped = sum(line.modifier for line in case.batch.lines) + case.batch.equilibration_modifier
    collected = 15e-6 * 1.15 * 190
    assert fill.streams["mobile phase"] == pytest.approx(pumped - collected, rel=1e-3)
    whole = _block(case, "amounts").rows[-1]
    taken, wasted = (float(str(cell).removesuffix(" L")) for cell in whole[2:4])
    assert taken - wasted == pytest.approx(collected * 1e3, abs=0.01)


def test_the_windows_are_read_back_on_the_instrument(tmp_path: Path) -> None:
    blocks = [block for block in card_blocks(_case(tmp_path)) if block.key == "read-back"]
    settings = [row[:2] for block in blocks for row in block.rows]
    assert ("stacked every", "2.4 min") in settings
    assert ("fraction 2 opens, closes", "3.65 min, 4.3 min") in settings
