"""Many documents on one screen: rows by verdict, then findings document by document."""

from __future__ import annotations

from pathlib import Path

import pytest

from methodlint.reports.lines import plain_line
from methodlint.reports.overview import overview_rows, row_verdict
from methodlint.reports.overview_lines import overview_lines
from tests.command import ROOT, run
from tests.reports.scratch_lab import example_report

SOUND, FLAWED = "example_methods/sound", "example_methods/flawed"


@pytest.fixture(autouse=True)
def _at_the_root(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)


def verdicts(folder: str) -> dict[str, str]:
    report = example_report(folder)
    return {Path(r.path).stem: row_verdict(report, r) for r in overview_rows(report)}


def test_every_document_of_a_sound_folder_has_a_row_and_is_clear() -> None:
    names = {file.stem for file in (ROOT / SOUND).glob("*.yaml")}
    assert verdicts("sound") == dict.fromkeys(names, "clear to run")


def test_the_row_of_a_flawed_document_is_held_and_its_findings_stand_under_its_name() -> None:
    names = {file.stem for file in (ROOT / FLAWED).glob("*.yaml")}
    found = verdicts("flawed")
    assert set(found) == names
    assert "clear to run" not in found.values()
    text = run("check", FLAWED).stdout
    heads = [row for row in text.splitlines() if row.startswith(f"{FLAWED}/")]
    assert {Path(head.split("  ")[0]).stem for head in heads} == names


def test_what_cannot_be_read_has_a_row_too() -> None:
    names = {file.stem for file in (ROOT / "example_methods/unreadable").glob("*.yaml")}
    assert verdicts("unreadable") == dict.fromkeys(names, "do not run")


def test_the_first_screen_of_a_sound_folder_has_at_most_40_lines() -> None:
    text = run("check", SOUND).stdout
    assert len(text.splitlines()) <= 40
    assert "BENCH CARD" not in text
    assert "--cards" in text


def test_cards_come_for_a_sequence_named_alone_or_on_request() -> None:
    assert run("check", f"{SOUND}/triazole-day-batch.yaml").stdout.count("BENCH CARD") == 1
    sequences = sum("kind: sequence" in f.read_text() for f in (ROOT / SOUND).glob("*.yaml"))
    text = run("check", SOUND, "--cards").stdout
    assert text.count("BENCH CARD") == sequences
    assert text.count("\nCALENDAR\n") == 1


@pytest.mark.parametrize("width", [40, 50, 80, 160])
def test_no_line_is_wider_than_the_terminal(width: int) -> None:
    for folder in ("sound", "flawed", "unreadable"):
        lines = list(map(plain_line, overview_lines(example_report(folder), width)))
        assert max(map(len, lines)) <= width
        assert any("17 min" in line for line in lines) or folder == "unreadable"


def test_the_terminal_is_used_as_wide_as_it_is() -> None:
    wide, narrow = (
        max(map(len, run("check", FLAWED, env={"COLUMNS": str(columns)}).stdout.splitlines()))
        for columns in (150, 60)
    )
    assert 130 < wide <= 150
    assert narrow < 75


def test_two_methods_that_share_a_finding_are_both_held(tmp_path: Path) -> None:
    """A finding of a card is said once, of every method that uses it."""
    lone = "kind: method\noven_temperature: 60 degC\noutlet_pressure: 65 bar\nflow: 2 mL/min\n"
    lone += "mobile_phase: {modifier: {liquid: 2-propanol}, modifier_share: 25 % v/v}\n"
    for name in ("first", "second"):
        (tmp_path / f"{name}.yaml").write_text(lone + "run_length: 5 min\n", encoding="utf-8")
    text = run("check", str(tmp_path), env={"COLUMNS": "80"}).stdout
    held = text.split("DO NOT RUN\n")[1].split("bar/limit")[0]
    assert "first" in held
    assert "second" in held
