"""Failing closed is no excuse for crying wolf: an ordinary lab is clear, or is asked once.

`complete_lab` holds documents as version 0.1 asked for them. They are never edited: a check that
is new asks nothing of them.
"""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from methodlint.documents.library import FOLDERS
from methodlint.reports.formats import written
from methodlint.reports.prepared import Prepared
from tests.fail_closed.lab import judged

LAB = Path(__file__).with_name("complete_lab")
SEQUENCE = "sequences/morning.yaml"
MOST_LINES = 5

# What an ordinary lab has not looked up: no rule that can stop a run waits for it.
MILD = {
    "instruments/bench-1.yaml": (
        "  chiller_capacity", "extra_column_sigma", "wetted_materials", "vent_line",
        "fitted_columns", "parked_columns", "cycle_overhead", "data_files",
    ),
    "supplies/yard.yaml": (
        "line_loss", "filling_ratio", "heel", "changeover", "regulator_in_liquid_line", "grade",
        "oil_statement",
    ),
    "rooms/wet-lab.yaml": ("outdoor_co2", "air_changes_at_night"),
    "solvents/bench-1-bottles.yaml": ("coldest_place", "purge_volume"),
    "columns/cellulose-5um.yaml": (
        "serial", "selector", "total_porosity", "drop_rating", "plates", "injections",
        "storage_liquid",
    ),
    "methods/purity.yaml": ("flow_ramp",),
}  # fmt: skip
# What else it has not looked up, and rules that can stop a run need.
GRAVE = {
    "instruments/bench-1.yaml": ("  needle_depth",),
    "supplies/yard.yaml": ("rated_parts", "line_sections", "cylinder_relief", "line_temperature"),
    "rooms/wet-lab.yaml": ("lowest_temperature", "highest_temperature", "risk_assessment"),
}


@pytest.fixture
def lab(tmp_path: Path) -> Path:
    """A copy of the complete lab."""
    return Path(shutil.copytree(LAB, tmp_path / "lab"))


def without(lab: Path, left_out: dict[str, tuple[str, ...]]) -> None:
    """Take keys out, each with what is indented below it."""
    for name, keys in left_out.items():
        text = (lab / name).read_text(encoding="utf-8")
        for key in keys:
            text, count = re.subn(rf"^{key}: ?.*\n(?:{' ' * (len(key) - len(key.lstrip()))} .*\n)*",
                                  "", text, flags=re.MULTILINE)  # fmt: skip
            assert count == 1, (name, key)
        (lab / name).write_text(text, encoding="utf-8")


def supply_lines(lab: Path, *names: str) -> list[str]:
    """Entries of what is to be supplied, in the report in words."""
    text = written("words", Prepared(judged(lab, *names)[2]))
    return re.findall(r"^  supply (.*)$", text, flags=re.MULTILINE)


@pytest.mark.parametrize("kind", ["", *(k for k in sorted(FOLDERS) if (LAB / FOLDERS[k]).is_dir())])
def test_a_complete_lab_is_clear(lab: Path, kind: str) -> None:
    verdict, status, report = judged(lab, FOLDERS.get(kind, "."))
    assert (verdict, status) == ("clear to run", 0)
    assert [f.message for f in report.findings if f.grade != "note"] == []
    assert report.not_checked == []


def test_what_no_stop_waits_for_leaves_the_verdict_as_it_is(lab: Path) -> None:
    without(lab, MILD)
    verdict, status, report = judged(lab)
    assert (verdict, status) == ("clear to run", 0)
    assert report.not_checked
    assert 1 <= len(supply_lines(lab)) <= MOST_LINES


def test_an_ordinary_incomplete_lab_is_asked_once_for_each_card(lab: Path) -> None:
    without(lab, MILD)
    without(lab, GRAVE)
    verdict, _, report = judged(lab)
    assert verdict == "run with care"
    assert [f.message for f in report.findings if f.grade in ("stop", "fault")] == []
    lines = supply_lines(lab)
    assert 1 <= len(lines) <= MOST_LINES
    for path in (*MILD, *GRAVE):
        text = " ".join(written("words", Prepared(report)).split())
        assert text.count(f" in {lab / path}") <= 1 + text.count(f"in {lab / path}, line"), path


def test_more_methods_and_sequences_on_the_same_bench_ask_no_more(lab: Path) -> None:
    without(lab, MILD)
    without(lab, GRAVE)
    before = supply_lines(lab)
    for number in range(3):
        method = (lab / "methods/purity.yaml").read_text(encoding="utf-8")
        (lab / f"methods/purity-{number}.yaml").write_text(
            method.replace("flow: 2.5", f"flow: 2.{number}"), encoding="utf-8"
        )
        sequence = (lab / SEQUENCE).read_text(encoding="utf-8")
        (lab / f"sequences/noon-{number}.yaml").write_text(
            sequence.replace("method: purity", f"method: purity-{number}"), encoding="utf-8"
        )
    assert len(supply_lines(lab)) == len(before)


def test_a_declared_fact_answers_the_question(lab: Path) -> None:
    """Whoever writes down what is asked for is not asked again."""
    without(lab, GRAVE)
    (first, *_) = judged(lab)[2].unchecked_stops
    asked = first.missing
    shutil.rmtree(lab)
    shutil.copytree(LAB, lab)
    assert not [item for item in judged(lab)[2].not_checked if set(asked) & set(item.missing)]
