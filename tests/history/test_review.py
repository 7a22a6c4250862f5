"""The review of the example logbook finds what was planted in it, and nothing on a sound column."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from methodlint.checking.review import Review, review
from tests.command import run

ROOT = Path(__file__).parents[2]
LOGBOOK = ROOT / "example_methods" / "logbooks" / "autumn-at-bench-a.yaml"


@pytest.fixture(scope="module")
def autumn() -> Review:
    return review(LOGBOOK, shown_from=ROOT)


def test_sound_column_is_silent(autumn: Review) -> None:
    assert not [one for one in autumn.report.findings if "cellulose-5um" in one.message]
    (sound,) = (one for one in autumn.history.columns if one.column == "cellulose-5um")
    assert sound.rise is None and sound.fall is None and len(sound.points) == 24


def test_each_story_is_found_with_its_date_and_size(autumn: Review) -> None:
    """The planted ones: 5.5 % a week from 2026-10-05, -24 % and -42 % plates from 2026-10-21, and
    1.3 kg of CO2 over the weekend of 2026-10-24.
    """
    columns = {one.column: one for one in autumn.history.columns}
    rise = columns["amylose-3um"].rise
    assert rise is not None and rise.slope is not None
    assert "2026-10-05" <= str(rise.began.moment.date()) <= "2026-10-19"
    assert str(rise.found.moment.date()) <= "2026-11-02"
    assert rise.size == pytest.approx(0.32, abs=0.06)
    fall = columns["diol-3um"].fall
    assert fall is not None and str(fall.began.moment.date()) == "2026-10-21"
    assert fall.size == pytest.approx(-0.24, abs=0.03)
    (plates,) = (one.plates_fall for one in autumn.history.peaks if one.plates_fall)
    assert plates.size == pytest.approx(-0.42, abs=0.06)
    (leak,) = (one for one in autumn.history.weighed if one.differs and not one.whole)
    assert (str(leak.begins.date()), str(leak.ends.date())) == ("2026-10-23", "2026-10-26")
    assert leak.more == pytest.approx(1.3, abs=0.1)
    rules = {one.rule for one in autumn.report.findings if one.grade != "note"}
    assert rules == {
        "history.column-resistance-rises",
        "history.column-resistance-falls",
        "history.co2-weighed-differs",
    }, "the plates stand beneath the void"


def test_command_shows_every_format(tmp_path: Path) -> None:
    page = tmp_path / "review.html"
    words = run("review", str(LOGBOOK), "-o", str(page))
    assert words.status == 1 and "CO2 BY WEIGHT" in words.stdout
    assert "no leak" not in words.stdout
    text = page.read_text(encoding="utf-8")
    assert text.startswith("<!DOCTYPE html>") and text.count("<svg") >= 6
    data = json.loads(run("review", str(LOGBOOK), "--show", "json", "--hold-at", "stop").stdout)
    assert len(data["runs"]) == 60 and data["edition"] == 1
    assert all("predicted_bar" in one["pressures"]["start"] for one in data["runs"])


@pytest.mark.parametrize(
    ("text", "says"),
    [
        pytest.param("kind: method\n", "is no logbook", id="another kind"),
        pytest.param("hello\n", "is no logbook", id="no document"),
        pytest.param("kind: logbook\nentries: [", "line 2", id="not valid YAML"),
    ],
)
def test_what_is_no_logbook_is_refused(text: str, says: str, tmp_path: Path) -> None:
    file = tmp_path / "x.yaml"
    file.write_text(text, encoding="utf-8")
    done = run("review", str(file))
    assert done.status == 2 and says in done.stderr
    assert run("review", str(tmp_path / "gone.yaml")).status == 2


def test_broken_readings_are_told_and_the_others_reviewed(tmp_path: Path) -> None:
    file = tmp_path / "log.yaml"
    file.write_text(
        "kind: logbook\nentries:\n  - {date: 2026-09-01, start_pressure: 217}\n"
        "  - {start_pressure: 217 bar}\n  - {date: 2026-09-02, method: none, instrument: none}\n",
        encoding="utf-8",
    )
    done = run("review", str(file))
    assert done.status == 2 and "Traceback" not in done.stderr
    assert "1 entry without a day" in done.stdout


@pytest.mark.parametrize(
    ("date", "says"),
    [
        ("2026-09-02 25:30", "is not a time of that day"),
        ("2026-09-31 08:30", "is not a day of the calendar"),
        ("2026-09-024", "is not a day of the calendar"),
    ],
)
def test_wrong_part_of_a_moment_is_named(date: str, says: str, tmp_path: Path) -> None:
    file = tmp_path / "log.yaml"
    file.write_text(f'kind: logbook\nentries:\n  - {{date: "{date}"}}\n', encoding="utf-8")
    done = run("review", str(file))
    assert done.status == 2 and says in " ".join(done.stdout.split())
