"""The command line as users meet it: statuses, streams, refusals."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

import methodlint
from tests.command import ROOT, process, run

SOUND = "example_methods/sound/flame-retardant-isomers.yaml"
SEQUENCE = "example_methods/sound/overnight-table.yaml"
FLAWED = "example_methods/flawed/terpenoids-hot-and-low.yaml"


def test_a_sound_method_is_clear_and_status_0() -> None:
    done = run("check", SOUND)
    assert done.stdout.splitlines()[0] == "CLEAR TO RUN"
    assert done.status == 0
    assert done.stderr == ""


def test_a_flawed_method_is_held_with_status_1() -> None:
    done = run("check", FLAWED)
    assert done.stdout.splitlines()[0] == "DO NOT RUN"
    assert done.status == 1
    assert "phase.two-phase-at-outlet" in done.stdout


def test_a_long_report_ends_with_its_verdict() -> None:
    lines = run("check", "example_methods/sound", "--cards").stdout.splitlines()
    assert lines[-2:] == lines[:2]
    assert lines[0] == "CLEAR TO RUN"


def test_an_unreadable_folder_is_status_2() -> None:
    done = run("check", "example_methods/unreadable")
    assert done.status == 2
    assert done.stdout
    assert "Traceback" not in done.stdout + done.stderr


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("check", "no-such-file.yaml"), "no file or folder"),
        (("check",), "no PATHS"),
        (("chek", SOUND), "No such command"),
        (("check", SOUND, "--as-of", "yesterday"), "is not a date"),
        (("check", SOUND, "--given", "12.5 kg"), "is not PATH=VALUE"),
        (("check", SOUND, "--given", "method.flow=2"), "method.flow"),
        (("check", "LICENSE"), ""),
        (("why", "pressure.column-rating-exceded"), "did you mean pressure.column-rating-exceeded"),
        (("check", SOUND, "--write", f"json={SOUND}"), "would overwrite a document"),
        (("check", SOUND, "--write", "json=/no/such/folder/out.json"), "cannot write"),
    ],
)
def test_what_cannot_be_done_is_one_line_and_status_2(
    arguments: tuple[str, ...], said: str
) -> None:
    done = run(*arguments)
    assert done.status == 2
    assert said in done.stderr + done.stdout
    assert "Traceback" not in done.stderr


def test_json_is_the_only_thing_on_stdout() -> None:
    done = run("check", FLAWED, "--show", "json")
    data = json.loads(done.stdout)
    assert data["verdict"] == "do not run"
    assert list(data) == sorted(data)
    finding = next(f for f in data["findings"] if f["rule"] == "phase.two-phase-at-outlet")
    assert finding["path"] == FLAWED
    assert finding["line"] > 1
    assert finding["found"]["unit"] == finding["limit"]["unit"] == "bar"


def test_a_given_figure_is_used_and_printed_as_typed() -> None:
    done = run("check", SOUND, "--given", "method.outlet_pressure=200 bar")
    assert "given for this run: method.outlet_pressure = 200 bar" in done.stdout


def test_a_report_is_written_beside_what_is_shown(tmp_path: Path) -> None:
    file = tmp_path / "report.json"
    done = run("check", SOUND, "--write", f"json={file}")
    assert done.status == 0
    assert json.loads(file.read_text(encoding="utf-8"))["verdict"] == "clear to run"
    assert [path.name for path in tmp_path.iterdir()] == ["report.json"]


def test_a_page_has_the_card_and_the_drawings(tmp_path: Path) -> None:
    file, shown = tmp_path / "card.html", run("check", SEQUENCE, "--show", "html")
    run("check", SEQUENCE, "--write", f"html={file}", "--workers", "2")
    assert file.read_text(encoding="utf-8") == shown.stdout
    assert "The sequence over time" in shown.stdout


def test_pipes_get_no_escapes_and_ascii_streams_survive() -> None:
    done = run("check", FLAWED, env={"PYTHONIOENCODING": "ascii"})
    assert "\x1b" not in done.stdout
    assert done.status == 1


def test_forced_colour_colours_and_no_colour_wins() -> None:
    assert "\x1b[" in run("check", FLAWED, env={"FORCE_COLOR": "1"}).stdout
    assert "\x1b[" not in run("check", FLAWED, env={"FORCE_COLOR": "1", "NO_COLOR": "1"}).stdout


def test_a_closed_pipe_is_silent() -> None:
    script = f"{sys.executable} -m methodlint rules | head -n 1"
    done = subprocess.run(
        ["bash", "-c", script], capture_output=True, text=True, cwd=ROOT, check=False
    )
    assert done.stderr == ""
    assert done.stdout.count("\n") == 1


def test_a_full_disk_is_status_2() -> None:
    if not Path("/dev/full").exists():
        pytest.skip("this system has no /dev/full")
    script = f"{sys.executable} -m methodlint check {SOUND} > /dev/full"
    done = subprocess.run(
        ["bash", "-c", script], capture_output=True, text=True, cwd=ROOT, check=False
    )
    assert done.returncode == 2
    assert "Traceback" not in done.stderr


def test_it_runs_without_home_and_without_a_locale() -> None:
    done = process("check", SOUND, env={"HOME": "/nonexistent", "LC_ALL": "C", "CI": None})
    assert done.status == 0


def test_it_runs_from_another_folder(tmp_path: Path) -> None:
    done = run("check", str(ROOT / SOUND), cwd=tmp_path)
    assert done.status == 0


def test_why_shows_the_page_and_where_it_fires() -> None:
    done = run("why", "phase.two-phase-at-outlet", FLAWED)
    assert done.status == 0
    assert "\nReason\n" in done.stdout
    assert "In these documents" in done.stdout
    assert "fault" in done.stdout.partition("In these documents")[2]


def test_rules_lists_every_rule() -> None:
    from methodlint.judging.loader import built_in_rules

    done = run("rules")
    for rule in built_in_rules():
        assert f"{rule.id}  (" in done.stdout


@pytest.mark.parametrize("arguments", [("--help",), ("check", "--help"), ("--version",)])
def test_help_and_version(arguments: tuple[str, ...]) -> None:
    done = run(*arguments)
    assert done.status == 0
    assert done.stdout


def test_a_table_by_itself_is_no_document(tmp_path: Path) -> None:
    (tmp_path / "samples.csv").write_text("sample,well\na,A1\n", encoding="utf-8")
    done = run("check", "samples.csv", cwd=tmp_path)
    assert done.status == 2
    assert done.stderr == (
        "methodlint: samples.csv is a table: check the sequence that names it, or the table with "
        "--dependents\n"
    )


@pytest.mark.parametrize(
    ("typed", "hint"),
    [
        ("two-phase-at-outlet", "did you mean phase.two-phase-at-outlet?"),
        ("supply.cyl", "did you mean supply.cylinder-runs-out?"),
        ("house.settling", "a rule of your own needs --allow-rules FOLDER"),
        ("zzz", "`methodlint rules` lists them"),
    ],
)
def test_a_rule_that_is_not_there_is_told_what_may_be_meant(typed: str, hint: str) -> None:
    done = run("why", typed)
    assert done.status == 2
    assert hint in done.stderr


def test_a_report_into_a_folder_that_is_not_there_says_so(tmp_path: Path) -> None:
    done = run("check", SOUND, "--write", f"json={tmp_path}/none/report.json")
    assert done.status == 2
    assert f"there is no folder {tmp_path}/none; make it first" in done.stderr


@pytest.mark.parametrize(
    "arguments",
    [("check", ""), ("check", "a.yaml", "--given", ""), ("compare", "", "b"), ("rules", "")],
)
def test_an_empty_argument_is_refused(arguments: tuple[str, ...]) -> None:
    """A variable of a script that is not set must not judge the working folder, or nothing."""
    done = run(*arguments)
    assert done.status == 2
    assert f"argument {arguments.index('') + 1} is empty" in done.stderr
    assert done.out == b""


def test_an_empty_path_is_refused_from_python() -> None:
    with pytest.raises(FileNotFoundError, match="empty"):
        methodlint.check("")
