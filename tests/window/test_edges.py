"""An edge is where `check` of an edited copy begins to object, and the cards say why."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

import methodlint
from methodlint.checking.report import Report
from methodlint.reports.window_json import window_json
from methodlint.window.entry import window
from tests.command import ROOT, run

Edited = Callable[[str, dict[str, str]], Path]
CONSTANT, GRADIENT = "triazole-enantiomers", "scouting-start"
# How each setting stands in the text of the examples.
WRITTEN = {
    "outlet_pressure": "outlet_pressure: 130 bar",
    "oven_temperature": {CONSTANT: "oven_temperature: 35 degC", GRADIENT: "oven_temperature: 30 degC"},
    "flow": {CONSTANT: "flow: 2.0 mL/min", GRADIENT: "flow: 1.1 mL/min"},
    "modifier_share": "modifier_share: 18 % v/v",
    "modifier_share_start": "modifier_share: 5 % v/v",
    "modifier_share_end": "modifier_share: 40 % v/v",
}  # fmt: skip


@pytest.fixture(scope="module")
def lab(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return Path(shutil.copytree(ROOT / "example_methods", tmp_path_factory.mktemp("w") / "lab"))


@pytest.fixture(scope="module")
def edited(lab: Path) -> Edited:
    def write(method: str, changes: dict[str, str]) -> Path:
        text = (lab / "methods" / f"{method}.yaml").read_text(encoding="utf-8")
        for old, new in changes.items():
            assert old in text
            text = text.replace(old, new)
        copy = lab / "methods" / "copy.yaml"
        copy.write_text(text, encoding="utf-8")
        return copy

    return write


def edges_of(method: Path, state: str = "holds") -> dict[str, dict[str, Any]]:
    (found,) = json.loads(window_json(window(method, of=())))["windows"]
    assert found["own"]["state"] == state
    return {setting["key"]: setting for setting in found["settings"]}


def objections(report: Report) -> tuple[set[str], bool]:
    """Rules of stops, faults and possible ones, and whether any of them is certain."""
    rules, certain, waiting = set(), False, list(report.findings)
    can_fail = {rule for rule, grades in methodlint_grades().items() if {"stop", "fault"} & grades}
    while waiting:
        finding = waiting.pop()
        waiting += finding.because
        if finding.rule in can_fail and (finding.possible or finding.grade in ("stop", "fault")):
            rules.add(finding.rule)
            certain |= not finding.possible
    return rules, certain


def methodlint_grades() -> dict[str, set[str]]:
    from methodlint.judging.loader import built_in_rules

    return {rule.id: set(rule.grades) for rule in built_in_rules()}


@pytest.mark.parametrize("method", [CONSTANT, GRADIENT])
def test_check_of_a_copy_agrees_on_both_sides_of_every_edge(
    method: str, lab: Path, edited: Edited
) -> None:
    wrong: list[str] = []
    looked_at = 0
    for key, setting in edges_of(lab / "methods" / f"{method}.yaml").items():
        written = WRITTEN[key]
        old = written if isinstance(written, str) else written[method]
        name, unit = old.split(":")[0], setting["unit"]
        for direction in ("down", "up"):
            edge = setting[direction]
            sides = {"last": (edge["last"], False), "beyond": (edge["beyond"], True)}
            for side, (value, objects) in sides.items():
                if value is None or value == setting["value"]:
                    continue
                copy = edited(method, {old: f"{name}: {value:.10g} {unit}"})
                rules, certain = objections(methodlint.check(copy, shown_from=lab))
                expected = {reason["rule"] for reason in edge["reasons"]} if objects else set()
                looked_at += 1
                if not (rules == expected or (objects and rules >= expected > set())):
                    wrong.append(f"{key} {direction} {side} {value}: {rules} not {expected}")
                if objects and certain != (edge["state"] == "fails"):
                    wrong.append(f"{key} {direction} {side} {value}: {edge['state']}")
    assert wrong == []
    assert looked_at >= 10


def test_the_cards_limits_are_the_edges(lab: Path) -> None:
    """Limits stand on the cards: regulator 80 bar, oven 5 degC, amylose-3um 40 degC."""
    edges = edges_of(lab / "methods" / f"{CONSTANT}.yaml")
    pressure, oven = edges["outlet_pressure"], edges["oven_temperature"]
    assert (pressure["down"]["last"], pressure["down"]["beyond"]) == (80.0, 79.0)
    assert pressure["down"]["reasons"][0]["rule"] == "pressure.bpr-out-of-range"
    assert (oven["down"]["last"], oven["up"]["last"]) == (5.0, 40.0)
    assert oven["up"]["reasons"][0]["rule"] == "column.temperature-exceeded"
    assert edges["modifier_share"]["down"]["beyond"] is None, "nothing objects to neat CO2"


def test_units_of_the_method_decide_only_how_the_edges_are_written(
    lab: Path, edited: Edited
) -> None:
    """1 bar is 14.5038 psi (NIST SP 811, appendix B.8); the room has 1.013 bar."""
    plain = edges_of(lab / "methods" / f"{CONSTANT}.yaml")
    copy = edited(CONSTANT, {"130 bar": "1885.49 psi", "35 degC": "95 degF"})
    imperial = edges_of(copy)
    for key, factor, offset in (("outlet_pressure", 14.5038, 0.0), ("oven_temperature", 1.8, 32)):
        for direction in ("down", "up"):
            one, other = plain[key][direction]["last"], imperial[key][direction]["last"]
            assert other == pytest.approx(one * factor + offset, abs=1.1 * factor)
    gauge = edges_of(edited(CONSTANT, {"130 bar": "128.987 bar(g)"}))["outlet_pressure"]
    assert (gauge["unit"], round(gauge["value"], 3)) == ("bar", 130.0)
    assert gauge["down"]["last"] == 80.0


def test_a_method_that_does_not_hold_is_told_from_where_it_would(lab: Path, edited: Edited) -> None:
    hot = edges_of(edited(CONSTANT, {"35 degC": "95 degC"}), "fails")["oven_temperature"]
    assert (hot["down"]["from"], hot["down"]["last"], hot["up"]["last"]) == (40.0, 5.0, None)
    done = run("window", edited(CONSTANT, {"35 degC": "95 degC"}), cwd=lab)
    assert "a check does not hold at the method's own settings" in done.stdout
    assert done.status == 1


def test_nothing_is_said_to_hold_where_a_stop_was_not_looked_for(lab: Path, edited: Edited) -> None:
    rating = lab / "columns" / "amylose-3um.yaml"
    text = rating.read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if not line.startswith("pressure_rating")]
    rating.write_text("\n".join(lines) + "\n", encoding="utf-8")
    edges = edges_of(edited(CONSTANT, {}), "not judged")
    rating.write_text(text, encoding="utf-8")
    states = {setting[way]["state"] for setting in edges.values() for way in ("down", "up")}
    assert states == {"not judged"}
    assert {setting[way]["last"] for setting in edges.values() for way in ("down", "up")} == {None}


def test_what_has_no_window_is_refused(lab: Path) -> None:
    bare = lab / "methods" / "bare.yaml"
    bare.write_text("kind: method\n", encoding="utf-8")
    broken = lab / "methods" / "broken.yaml"
    broken.write_text(
        "kind: method\nflow: 2 furlongs\noutlet_pressure: 130 bar\n", encoding="utf-8"
    )
    cases = {
        ".": "not one document",
        "lab.yaml": "is a lab",
        "nowhere.yaml": "there is no file",
        "methods/bare.yaml": "no setting that could be moved",
        "methods/broken.yaml": "correct it first",
        "unreadable/never-closed.yaml": "correct it first",
    }
    wrong = {}
    for path, reason in cases.items():
        done = run("window", path, cwd=lab)
        if done.status != 2 or reason not in done.stderr:
            wrong[path] = done.status, done.stderr, done.stdout[-300:]
    done = run("window", f"methods/{CONSTANT}.yaml", "--on", "bench-z", cwd=lab)
    assert (done.status, "it runs on: bench-a" in done.stderr) == (2, True)
    bare.unlink()
    broken.unlink()
    assert wrong == {}
