"""The map of two settings says of every point what `check` says of an edited copy."""

from __future__ import annotations

import base64
import hashlib
import json
import random
import re
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

import methodlint
from methodlint.reports.html.figure_region import marked_edges
from methodlint.reports.html.window_page import window_page
from methodlint.reports.window_json import window_json
from methodlint.window.entry import Window, window
from methodlint.window.region import SIDE, Region
from tests.command import ROOT, run
from tests.reports import readers
from tests.window.test_edges import CONSTANT, GRADIENT, WRITTEN, objections

LATTICE = 96


@pytest.fixture(scope="module")
def lab(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return Path(shutil.copytree(ROOT / "example_methods", tmp_path_factory.mktemp("map") / "lab"))


@pytest.fixture(scope="module")
def found(lab: Path) -> Window:
    (one,) = window(lab / "methods" / f"{CONSTANT}.yaml")
    return one


@pytest.fixture(scope="module")
def region(found: Window) -> Region:
    assert found.region is not None
    return found.region


def off_the_rim(region: Region, count: int, seed: int) -> Iterator[tuple[float, float]]:
    """Random points of a map that are further than a 96th of it from the rim of a band."""
    chance, given = random.Random(seed), 0
    step = SIDE / LATTICE
    while given < count:
        spot = chance.uniform(step, SIDE - step), chance.uniform(step, SIDE - step)
        around = (
            region.judged.state((spot[0] + i * step, spot[1] + j * step))
            for i in (-1, 0, 1)
            for j in (-1, 0, 1)
        )
        if "in the band" not in around:
            given += 1
            yield region.values(spot)


def disagreements(lab: Path, method: str, region: Region, count: int, seed: int) -> list[str]:
    """Points of a map of which `check` of an edited copy says something else."""
    text = (lab / "methods" / f"{method}.yaml").read_text(encoding="utf-8")
    oven = WRITTEN["oven_temperature"]
    assert isinstance(oven, dict)
    copy = lab / "methods" / "copy.yaml"
    wrong = []
    for temperature, pressure in off_the_rim(region, count, seed):
        edited = text.replace(oven[method], f"oven_temperature: {temperature:.6f} degC")
        edited = edited.replace("outlet_pressure: 130 bar", f"outlet_pressure: {pressure:.6f} bar")
        assert edited.count(".") > text.count(".")
        copy.write_text(edited, encoding="utf-8")
        report = methodlint.check(copy, shown_from=lab)
        rules, certain = objections(report)
        said = "fails" if certain else "in the band" if rules else "holds"
        if not certain and report.unchecked_stops:
            said = "not judged"
        mapped = region.state(temperature, pressure)
        mapped = "holds" if mapped == "with care" else mapped
        if mapped != said:
            wrong.append(
                f"{temperature:.3f} degC, {pressure:.3f} bar: {mapped}, check: {said} {rules}"
            )
    return wrong


def test_the_map_agrees_with_check_off_the_rim(lab: Path, region: Region) -> None:
    assert disagreements(lab, CONSTANT, region, 30, seed=7) == []


@pytest.mark.long
@pytest.mark.parametrize("method", [CONSTANT, GRADIENT])
def test_the_map_agrees_with_check_at_many_points(lab: Path, method: str) -> None:
    (one,) = window(lab / "methods" / f"{method}.yaml")
    assert one.region is not None
    assert disagreements(lab, method, one.region, 150, seed=11) == []


def test_the_edges_are_those_of_the_cards(region: Region) -> None:
    """Regulator from 80 bar, oven from 5 degC, column to 40 degC, as the cards say."""
    by_rule = {edge.rule: region.values(edge.place) for edge in marked_edges(region)}
    assert by_rule["pressure.bpr-out-of-range"][1] == pytest.approx(80.0, abs=0.2)
    assert by_rule["temperature.oven-out-of-range"][0] == pytest.approx(5.0, abs=0.05)
    assert by_rule["column.temperature-exceeded"][0] == pytest.approx(40.0, abs=0.05)
    assert "pressure.column-rating-exceeded" in by_rule


def test_the_plane_is_covered_once(region: Region) -> None:
    def area(corners: tuple[tuple[float, float], ...]) -> float:
        pairs = zip(corners, (*corners[1:], corners[0]), strict=True)
        return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs) / 2

    for layer in (region.judged, region.care):
        areas = [area(piece.corners) for piece in layer.pieces]
        assert min(areas) >= 0.0
        assert sum(areas) == pytest.approx(SIDE**2)


def test_runs_are_spent_along_the_borders(region: Region) -> None:
    assert 169 < len(region.points) < 900, "of 9,409 points of 97 x 97"


def test_a_map_without_a_stop_check_is_not_judged(lab: Path) -> None:
    card = lab / "columns" / "amylose-3um.yaml"
    text = card.read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if not line.startswith("pressure_rating")]
    card.write_text("\n".join(lines) + "\n", encoding="utf-8")
    (one,) = window(lab / "methods" / f"{CONSTANT}.yaml")
    card.write_text(text, encoding="utf-8")
    assert one.region is not None
    states = {piece.state for piece in one.region.judged.pieces}
    assert "not judged" in states
    assert "holds" not in states


# The page -----------------------------------------------------------------------------------------


def points_of(page: str) -> dict[str, Any]:
    text = re.search(r'<script type="application/json" id="points">(.*?)</script>', page, re.DOTALL)
    assert text is not None
    data: dict[str, Any] = json.loads(text[1])
    return data


def test_the_page_runs_its_own_script_alone_and_fetches_nothing(found: Window) -> None:
    page = window_page(found)
    scripts = re.findall(r"<script>(.*?)</script>", page, re.DOTALL)
    assert len(scripts) == 1
    digest = base64.b64encode(hashlib.sha256(scripts[0].encode()).digest()).decode()
    policy = re.search(r'Content-Security-Policy" content="([^"]*)"', page)
    assert policy is not None
    allowed = policy[1].replace("&#39;", "'")
    assert f"script-src 'sha256-{digest}'" in allowed
    assert allowed.startswith("default-src 'none'")
    assert not re.search(r"https?:|src=|@import|fetch\(|XMLHttp|innerHTML", page)
    assert page == window_page(found)


def test_the_page_holds_every_computed_point(found: Window, region: Region) -> None:
    data = points_of(window_page(found))
    assert len(data["points"]) == len(region.points) + 1
    own = data["points"][0]
    assert own[:2] == [35.0, 130.0]
    assert data["states"][own[2]] == "every check holds"
    pump = [words for words, _ in data["figures"]].index("highest pump pressure")
    report = methodlint.check(ROOT / "example_methods" / "methods" / f"{CONSTANT}.yaml")
    assert own[4][pump] == pytest.approx(report.runs[0].run.pump_pressure.max() / 1e5, rel=1e-3)


def test_a_title_cannot_act(lab: Path) -> None:
    copy = lab / "methods" / "loud.yaml"
    text = (lab / "methods" / f"{CONSTANT}.yaml").read_text(encoding="utf-8")
    title = "</script><script>alert(1)</script>"
    copy.write_text(re.sub("title: .*", f"title: {title}", text), encoding="utf-8")
    (one,) = window(copy, of=())
    page = window_page(one)
    copy.unlink()
    assert "<script>" not in page
    assert "&lt;/script&gt;" in page


@pytest.mark.long
def test_words_and_json_show_the_map(lab: Path, found: Window, region: Region) -> None:
    words = run(
        "window", f"methods/{CONSTANT}.yaml", "--of", "flow", "--of", "outlet_pressure", cwd=lab
    )
    assert words.status == 0
    assert "outlet pressure [bar] against flow [mL/min]" in words.stdout
    assert words.stdout.count("@") == 2, "the method, and the legend"
    data = json.loads(window_json([found]))["windows"][0]["map"]
    assert len(data["points"]) == len(region.points)
    assert {border["inner"] for border in data["borders"]} <= {"holds", "in the band"}


def test_settings_that_cannot_be_mapped_are_refused(lab: Path) -> None:
    cases = {
        ("flow",): "two settings",
        ("flow", "flow"): "two settings",
        ("flow", "colour"): "no colour; it gives: outlet_pressure",
        ("flow", "modifier_share_end"): "no modifier_share_end",
    }
    wrong = {}
    for keys, reason in cases.items():
        options = [word for key in keys for word in ("--of", key)]
        done = run("window", f"methods/{CONSTANT}.yaml", *options, cwd=lab)
        if done.status != 2 or reason not in done.stderr:
            wrong[keys] = done.status, done.stderr
    assert wrong == {}


@pytest.mark.second_reader
def test_other_programs_find_nothing_wrong_with_the_page(found: Window, tmp_path: Path) -> None:
    file = tmp_path / "window.html"
    file.write_text(window_page(found), encoding="utf-8")
    assert readers.complaints_of_html_validate(file) == ""
    seen = readers.seen_by_a_browser(tmp_path / "profile", file)
    assert (seen["violations"], seen["crowded"], seen["refused"]) == ([], [], [])
    assert {str(address) for address in seen["asked"]} == {f"file://{file}"}
