"""`check --tolerances` tells what fails at the corners of what may be off, and nothing else."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path

import jsonschema
import pytest

import methodlint
from methodlint.reports.report_schema import schema_text
from methodlint.window.corners import Corners, corners_of_report
from tests.command import ROOT, run
from tests.window.test_edges import CONSTANT, GRADIENT, objections

Edited = Callable[..., Path]


@pytest.fixture(scope="module")
def lab(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return Path(shutil.copytree(ROOT / "example_methods", tmp_path_factory.mktemp("c") / "lab"))


@pytest.fixture(scope="module")
def edited(lab: Path) -> Edited:
    def write(method: str, **changes: str) -> Path:
        text = (lab / "methods" / f"{method}.yaml").read_text(encoding="utf-8")
        lines = [
            next(
                (f"{key}: {new}" for key, new in changes.items() if line.startswith(f"{key}:")),
                line,
            )
            for line in text.splitlines()
        ]
        copy = lab / "methods" / "copy.yaml"
        copy.write_text("\n".join(lines) + "\n", encoding="utf-8")
        return copy

    return write


def corners(path: Path) -> Corners:
    (found,) = corners_of_report(methodlint.check(path))
    return found


# Silent --------------------------------------------------------------------------------------------


def test_a_sound_method_holds_at_every_corner(lab: Path) -> None:
    constant = corners(lab / "methods" / f"{CONSTANT}.yaml")
    assert (constant.count, constant.failures, constant.not_judged) == (32, (), 0)
    gradient = corners(lab / "methods" / f"{GRADIENT}.yaml")
    assert (gradient.count, gradient.failures, gradient.not_judged) == (64, (), 0)


def test_a_setting_at_the_end_of_its_span_is_not_taken_for_one_beyond(edited: Edited) -> None:
    """80 bar is the regulator's lowest pressure, 40 degC the column's highest temperature."""
    rules = {
        one.reason.rule
        for one in corners(
            edited(CONSTANT, outlet_pressure="80 bar", oven_temperature="40 degC")
        ).failures
    }
    assert not rules & {"pressure.bpr-out-of-range", "column.temperature-exceeded"}


# What is covered -----------------------------------------------------------------------------------


def test_every_part_and_where_its_figure_comes_from_is_named(lab: Path, edited: Edited) -> None:
    found = corners(lab / "methods" / f"{GRADIENT}.yaml").accuracies
    assert [one.name for one in found] == [
        "regulator", "oven", "flow", "composition", "dwell volume", "column resistance",
    ]  # fmt: skip
    assert all(one.source for one in found)
    card = lab / "instruments" / "bench-a.yaml"
    text = card.read_text(encoding="utf-8")
    changed = text.replace("part: regulator", "part: regulator", 1)
    assert "regulator:" in changed
    card.write_text(
        changed.replace("regulator:\n", "regulator:\n  accuracy: 5 bar\n", 1), encoding="utf-8"
    )
    copy = edited(CONSTANT, oven_temperature="{value: 35 degC, tolerance: 1 degC}")
    by_name = {one.name: one for one in corners(copy).accuracies}
    card.write_text(text, encoding="utf-8")
    assert (by_name["regulator"].words, by_name["regulator"].source) == (
        "+-5 bar", "the instrument's card",
    )  # fmt: skip
    assert (by_name["oven"].words, by_name["oven"].source) == ("+-1 K", "the method")


# What fails ----------------------------------------------------------------------------------------


def test_what_fails_at_a_corner_fails_for_check_too(lab: Path, edited: Edited) -> None:
    """5 % more flow is the default accuracy; the corner's own settings are checked as a copy."""
    found = corners(edited(CONSTANT, flow="4.3 mL/min"))
    (rating,) = (
        one for one in found.failing if one.reason.rule == "pressure.column-rating-exceeded"
    )
    assert dict(rating.at)["column resistance"] == "high"
    assert 0 < rating.corners <= 16
    card = lab / "columns" / "amylose-3um.yaml"
    text = card.read_text(encoding="utf-8")
    wide = {"flow": "4.515 mL/min", "oven_temperature": "33 degC", "outlet_pressure": "132 bar"}
    said = []
    for resistance in ("1261", "844"):
        value = f"flow_resistance: {{value: {resistance}, basis: superficial}}\n"
        card.write_text(text + value, encoding="utf-8")
        rules, certain = objections(methodlint.check(edited(CONSTANT, **wide)))
        said.append("pressure.column-rating-exceeded" in rules and certain)
    card.write_text(text, encoding="utf-8")
    assert said == [True, False]


def test_words_json_and_status(edited: Edited, lab: Path) -> None:
    copy = edited(CONSTANT, flow="4.3 mL/min", pressure_limits="{high: 399 bar, low: 165 bar}")
    done = run("check", "--tolerances", copy, cwd=lab)
    assert done.status == 0, "what fails at a corner only is a caution"
    assert "corners rehearsed; pressure.column-rating-exceeded fails at" in " ".join(
        done.stdout.split()
    )
    done = run("check", "--tolerances", copy, "--hold-at", "caution", "--show", "json", cwd=lab)
    report = json.loads(done.stdout)
    jsonschema.validate(report, json.loads(schema_text()))
    (found,) = report["tolerances"]
    assert (done.status, found["corners"], len(found["covered"])) == (1, 32, 5)
    page = run("check", "--tolerances", copy, "--show", "html", cwd=lab)
    assert "OMCL guideline" in page.stdout
    assert "tolerances" not in json.loads(run("check", copy, "--show", "json", cwd=lab).stdout)


def test_what_cannot_be_rehearsed_has_no_corners(lab: Path) -> None:
    bare = lab / "methods" / "bare.yaml"
    bare.write_text("kind: method\nflow: 1 mL/min\n", encoding="utf-8")
    report = methodlint.check(bare)
    bare.unlink()
    assert corners_of_report(report) == []
