"""Lines outside a programme: flushes, switches, equilibration, idle, start and stop.

Each file of `lines/` is a lab of its own: the laboratory in `lines/lab` with some lines put in front
of the shutdown, what has to be found, what must not be, and the same with the fault taken out, which
has to be clear to run. Pressures of neat liquids follow from Darcy's law with a superficial flow
resistance of 1000; that of the first file is worked out beneath.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import pytest

from methodlint.checking.report import Report
from methodlint.documents.library import FOLDERS
from methodlint.documents.text.reader import read_text
from methodlint.judging.finding import Finding
from methodlint.reports.bench_card import card_lines
from tests.text_labs import TextLab, as_yaml, everything, loud

HERE = Path(__file__).parent / "lines"
SCENARIOS = sorted(HERE.glob("*.yaml"))
SEQUENCE = "sequence/morning"


@cache
def _lab() -> TextLab:
    kinds = {folder: kind for kind, folder in FOLDERS.items()}
    texts = {"lab/lab": (HERE / "lab" / "lab.yaml").read_text("utf-8")}
    for file in sorted((HERE / "lab").glob("*/*.yaml")):
        texts[f"{kinds[file.parent.name]}/{file.stem}"] = file.read_text("utf-8")
    meant = {"sequence": SEQUENCE, "method": "method/purity", "column": "column/cellulose-5um"}
    meant |= {
        "room": "room/wet-lab",
        "instrument": "instrument/bench-1",
        "solvents": "solvents/bench-1-bottles",
    }
    return TextLab(texts, (SEQUENCE,), meant)


@cache
def _scenario(file: Path) -> dict[str, Any]:
    plain = read_text(file.read_bytes(), file.name).plain()
    assert isinstance(plain, dict)
    return plain


@cache
def _report(file: Path, key: str) -> Report:
    lab, scenario = _lab(), _scenario(file)
    for path, value in scenario.get("everywhere", {}).items():
        lab = lab.changed(path, value)
    for path, value in scenario.get(f"{key}_changes", {}).items():
        lab = lab.changed(path, value)
    lines = lab.plain(SEQUENCE)["lines"]
    lines[-1:-1] = scenario[key]
    return lab.changed("sequence.lines", lines).judged()


def _is(finding: Finding, wanted: dict[str, Any]) -> bool:
    return (
        finding.rule == wanted["rule"]
        and finding.grade == wanted["class"]
        and all(words in finding.message for words in wanted.get("says", []))
        and ("line" not in wanted or finding.at.path[:2] == ("lines", wanted["line"] - 1))
    )


@pytest.mark.parametrize("file", SCENARIOS, ids=lambda file: file.stem)
def test_musts_are_found(file: Path) -> None:
    scenario, report = _scenario(file), _report(file, "lines")
    found = everything(report.findings)
    for wanted in scenario["musts"]:
        assert any(_is(finding, wanted) for finding in found), (wanted, loud(report))
    for rule, where in scenario.get("not_checked", {}).items():
        missing = [item.missing for item in report.not_checked if item.rule == rule]
        assert missing == [(where,)], report.not_checked
    assert report.verdict == scenario["verdict"]


@pytest.mark.parametrize("file", SCENARIOS, ids=lambda file: file.stem)
def test_must_nots_are_not(file: Path) -> None:
    scenario, report = _scenario(file), _report(file, "lines")
    rules = {finding.rule for finding in everything(report.findings) if finding.grade != "note"}
    assert scenario["must_nots"]
    assert not [rule for rule in rules if rule.startswith(tuple(scenario["must_nots"]))]


@pytest.mark.parametrize("file", SCENARIOS, ids=lambda file: file.stem)
def test_silent_twin_is_clear_to_run(file: Path) -> None:
    report = _report(file, "twin")
    assert loud(report) == []
    assert report.not_checked == []
    assert report.verdict == "clear to run"


@pytest.mark.parametrize("file", SCENARIOS, ids=lambda file: file.stem)
def test_a_remedy_is_a_change_that_was_tried(file: Path) -> None:
    """Applied, it leaves nothing of the finding; a flush keeps its volume, rounded up."""
    for finding in _report(file, "lines").findings:
        assert not finding.candidates or finding.solutions or "(no single change" in finding.remedy


def test_there_are_enough() -> None:
    assert len(SCENARIOS) >= 15


def test_drop_of_neat_ethanol_by_hand() -> None:
    """Darcy: dP = phi eta L u / dp^2, with phi 1000, a bed of 4.6 x 150 mm of 5 um.

    Ethanol at 30 degC: 0.983 mPa s (CRC Handbook, unverified); about 8 % more at 200 bar (Lucas
    1981, as of Poling et al. 2001). At 4 mL/min u = 4e-6/60/(pi/4 x 4.6e-3^2) = 4.01e-3 m/s:
    dP = 1000 x 0.983e-3 x 0.15 x 4.01e-3/25e-12 = 236 bar, 255 bar at pressure.
    """
    drop = next(
        finding
        for finding in everything(_report(HERE / "flush-neat-too-fast.yaml", "lines").findings)
        if finding.rule == "pressure.column-drop-exceeded"
    )
    assert drop.found is not None
    assert drop.found.value == pytest.approx(255.0, rel=0.03)


def test_a_flush_that_is_offered_was_rehearsed_as_a_line() -> None:
    """2-propanol at the method's 2.5 mL/min would press the column beyond its 300 bar."""
    lab = _lab()
    for method, liquid in (("method/purity", "acetonitrile"), ("method/fine", "heptane")):
        data = lab.plain(method)
        data["mobile_phase"]["modifier"] = {"liquid": liquid}
        lab = lab.with_text(method, as_yaml(data))
    lines = lab.plain(SEQUENCE)["lines"]
    sample = {"kind": "sample", "sample": "batch 4", "plate": "1", "well": "B4", "fill": "1 mL"}
    lines[-1:-1] = [{**sample, "method": "fine"}]
    lab = lab.changed("sequence.lines", lines)
    rule = "solvent.pair-not-miscible"
    [found] = [one for one in everything(lab.judged().findings) if one.rule == rule]
    assert found.solutions, found.remedy
    [change] = found.solutions[0].changes
    lines.insert(int(change.at.path[1]), change.value)
    after = everything(lab.changed("sequence.lines", lines).judged().findings)
    assert not [one for one in after if one.rule in (rule, "pressure.column-rating-exceeded")]
    too_fast = {**change.value, "flow": "2.5 mL/min"}
    lines[int(change.at.path[1])] = too_fast
    before = everything(lab.changed("sequence.lines", lines).judged().findings)
    assert [one for one in before if one.rule == "pressure.column-rating-exceeded"]


def test_a_regulator_holds_no_less_than_the_air() -> None:
    """A line at 0 bar is judged at 1 bar, where CO2 and modifier part, and its card is printed."""
    lab = _lab()
    lines = lab.plain(SEQUENCE)["lines"]
    lines[-1:-1] = [{"kind": "equilibration", "outlet_pressure": "0 bar", "duration": "5 min"}]
    report = lab.changed("sequence.lines", lines).judged()
    assert "phase.two-phase-at-outlet" in {one.rule for one in everything(report.findings)}
    assert any("STOP" in row for batch in report.batches for row in map(str, card_lines(batch, 80)))
