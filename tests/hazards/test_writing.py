"""Files are written whole or not at all, and nothing is replaced that somebody else wrote."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from methodlint.documents.text.writing import NotWritten, WouldOverwrite, write_files
from methodlint.reports.formats import FORMATS
from tests.command import run
from tests.hazards.hostile_lab import ROOT
from tests.reports.scratch_lab import EXAMPLES

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="links and devices of POSIX")
SOUND = "sound/flame-retardant-isomers.yaml"
METHOD = "methods/triazole-enantiomers.yaml"


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The example lab with reports of every format beside it; no test changes either."""
    folder = tmp_path_factory.mktemp("writing")
    shutil.copytree(EXAMPLES, folder / "lab", ignore=shutil.ignore_patterns("transferred"))
    wanted = [f"--write={name}=../out.{name}" for name in FORMATS]
    assert run("check", SOUND, *wanted, cwd=folder / "lab").status == 0
    return folder


@pytest.fixture
def lab(shared: Path, tmp_path: Path) -> Path:
    """The same, to be changed."""
    shutil.copytree(shared, tmp_path / "all")
    return tmp_path / "all" / "lab"


def files(folder: Path) -> dict[str, bytes]:
    return {
        str(file.relative_to(folder)): file.read_bytes()
        for file in folder.rglob("*") if file.is_file() and not file.is_fifo()
    }  # fmt: skip


def refused(lab: Path, target: str, said: str) -> None:
    """The report is not written there, in one line, and nothing is changed or left."""
    before = files(lab.parent)
    done = run("check", SOUND, "--write", f"json={target}", cwd=lab)
    assert (done.status, done.out) == (2, b"")
    assert said in done.stderr
    assert done.stderr.count("\n") == 1
    assert files(lab.parent) == before


# What may be replaced -------------------------------------------------------------------------


@pytest.mark.parametrize("name", FORMATS)
def test_a_report_of_any_format_may_be_replaced(lab: Path, name: str) -> None:
    target = lab.parent / f"out.{name}"
    done = run("check", METHOD, "--write", f"{name}=../{target.name}", cwd=lab)
    assert done.status == 0, done.stderr
    assert b"triazole" in target.read_bytes() or name == "annotations"


@pytest.mark.parametrize("name", ["words", "markdown", "annotations"])
def test_a_report_to_which_somebody_added_lines_is_kept(lab: Path, name: str) -> None:
    target = lab.parent / f"out.{name}"
    target.write_bytes(target.read_bytes() + b"Bench A was down that day.\n")
    refused(lab, f"../{target.name}", "did not write, or that was edited since")


def test_an_empty_file_may_be_replaced(lab: Path) -> None:
    """Such as `mktemp` makes."""
    (lab.parent / "empty").touch()
    assert run("check", SOUND, "--write", "json=../empty", cwd=lab).status == 0
    assert (lab.parent / "empty").read_bytes().startswith(b"{")


@pytest.mark.parametrize(
    "text",
    ["kind: method\ntitle: mine\n", "Notes of Tuesday\n", "{}", '{"tool": {"name": "another"}}',
     "<!DOCTYPE html><html><head><title>methodlint</title></head></html>",
     "# as written by methodlint 0.2.0, and then by me\n", "written by methodlint 0.1.0\nand by me\n",
     '<?xml version="1.0"?>\n<testsuites name="own"/>\n', "a,b\n1,2\n",
     'text: \'"tool": {"name": "methodlint"}\'\n'],
)  # fmt: skip
def test_what_others_wrote_is_kept(lab: Path, text: str) -> None:
    (lab.parent / "mine").write_text(text, encoding="utf-8")
    refused(lab, "../mine", "this tool did not write")


@pytest.mark.parametrize(
    "card", ["columns/diol-3um.yaml", "lab.yaml", "sound/overnight-samples.csv"]
)
def test_a_card_that_was_not_read_is_kept(lab: Path, card: str) -> None:
    before = files(lab)
    done = run("check", SOUND, "--write", f"json={card}", cwd=lab)
    assert done.status == 2
    assert files(lab) == before


# Links ----------------------------------------------------------------------------------------


def test_links_inside_the_judged_folder_are_not_followed(lab: Path) -> None:
    outside = lab.parent / "outside"
    outside.mkdir()
    (lab / "report.json").symlink_to(outside / "new.json")
    (lab / "old.json").symlink_to(lab.parent / "out.json")
    (lab / "folder").symlink_to(outside, target_is_directory=True)
    (lab / "sound" / "up").symlink_to(lab.parent, target_is_directory=True)
    for target in ("report.json", "old.json", "folder/new.json", "sound/up/out.json",
                   str(lab / "report.json"), "../lab/report.json"):  # fmt: skip
        refused(lab, target, "leads through the link")
    assert list(outside.iterdir()) == []


def test_links_outside_are_followed_and_kept(lab: Path) -> None:
    """The silent twin: a link of whoever runs the command, to a report or to nothing yet."""
    (lab.parent / "latest.json").symlink_to("out.json")
    (lab.parent / "next.json").symlink_to("new.json")
    for name in ("latest.json", "next.json"):
        assert run("check", METHOD, "--write", f"json=../{name}", cwd=lab).status == 0
        assert (lab.parent / name).is_symlink()
    assert b"triazole" in (lab.parent / "out.json").read_bytes()
    assert b"triazole" in (lab.parent / "new.json").read_bytes()


def test_a_lab_that_is_reached_through_a_link_is_written_to(lab: Path) -> None:
    (lab.parent / "door").symlink_to(lab, target_is_directory=True)
    done = run("check", f"door/{SOUND}", "--write", "json=door/out.json", cwd=lab.parent)
    assert done.status == 0, done.stderr
    assert (lab / "out.json").is_file()


# Pipes and devices ----------------------------------------------------------------------------


def test_a_pipe_outside_is_written_to_and_stays(lab: Path) -> None:
    pipe = lab.parent / "pipe"
    os.mkfifo(pipe)
    found: list[bytes] = []
    reader = threading.Thread(target=lambda: found.append(pipe.read_bytes()))
    reader.start()
    assert run("check", SOUND, "--write", f"json={pipe}", cwd=lab).status == 0
    reader.join(30)
    assert found[0].startswith(b"{")
    assert pipe.is_fifo()


def test_a_pipe_in_the_lab_is_refused_without_waiting(lab: Path) -> None:
    os.mkfifo(lab / "pipe")
    (lab.parent / "link").symlink_to(lab / "pipe")
    for target in ("pipe", "../link"):
        refused(lab, target, "pipe or device")


def test_a_device_is_written_to_in_place(lab: Path) -> None:
    assert run("check", SOUND, "--write", "json=/dev/null", cwd=lab).status == 0
    assert Path("/dev/null").is_char_device()


@pytest.mark.parametrize(
    ("name", "way"),
    [("/dev/stdout", "file"), *(pytest.param(*case, marks=pytest.mark.long) for case in (
        ("/dev/stdout", "pipe"), ("-", "file"), ("-", "pipe")))],
)  # fmt: skip
def test_standard_output(lab: Path, name: str, way: str) -> None:
    command = [sys.executable, "-m", "methodlint", "check", SOUND, "--write", f"junit={name}"]
    out = lab.parent / "stdout"
    with open(out, "wb") as stream:
        done = subprocess.run(
            command, cwd=lab, stdout=subprocess.PIPE if way == "pipe" else stream,
            stderr=subprocess.PIPE, check=False, timeout=120,
            env={"PATH": os.environ["PATH"], "PYTHONPATH": str(ROOT), "CI": "1"},
        )  # fmt: skip
    text = done.stdout if way == "pipe" else out.read_bytes()
    assert (done.returncode, done.stderr) == (0, b"")
    assert text.count(b"<?xml") == 1
    assert b"CLEAR TO RUN" in text


# Other commands -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "target", ["columns/diol-3um.yaml", "lab.yaml", SOUND, "instruments/bench-a.yaml"]
)
def test_a_transfer_never_replaces_a_card_or_document(lab: Path, target: str) -> None:
    before = files(lab)
    done = run("transfer", METHOD, "--to", "bench-b", "-o", target, cwd=lab)
    assert (done.status, done.out) == (2, b"")
    assert "document that this tool did not write" in done.stderr
    assert files(lab) == before


def test_a_transfer_is_replaced_until_somebody_edits_it(lab: Path) -> None:
    arguments = ("transfer", METHOD, "--to", "bench-b", "-o", "moved/b.yaml")
    assert run(*arguments, cwd=lab).status in (0, 1)
    written = files(lab / "moved")
    assert len(written) == 5
    assert run(*arguments, "--keep", "duration", cwd=lab).status in (0, 1)
    assert run(*arguments, cwd=lab).status in (0, 1)
    assert files(lab / "moved") == written
    for name in ("b.yaml", "b-verify-target.yaml"):
        edited = lab / "moved" / name
        edited.write_text(edited.read_text() + "# our note\n", encoding="utf-8")
        before = files(lab)
        done = run(*arguments, cwd=lab)
        assert done.status == 2
        assert "edited since" in done.stderr
        assert files(lab) == before
        edited.write_bytes(written[name])


def test_a_transfer_on_standard_output_is_the_method_alone(lab: Path) -> None:
    before = files(lab)
    done = run("transfer", METHOD, "--to", "bench-b", "-o", "-", cwd=lab)
    assert done.out.startswith(b"kind: method\n")
    assert done.stderr == ""
    assert files(lab) == before


def test_a_starter_on_standard_output(tmp_path: Path) -> None:
    assert b"\nkind: room\n" in run("new", "room", "-o", "-", cwd=tmp_path).out
    assert list(tmp_path.iterdir()) == []


# Whole or not at all --------------------------------------------------------------------------


def test_all_files_of_one_call_are_written_or_none(tmp_path: Path) -> None:
    (tmp_path / "theirs").write_text("x", encoding="utf-8")
    texts = {str(tmp_path / name): "new" for name in ("a", "theirs", "b")}
    with pytest.raises(WouldOverwrite):
        write_files(texts)
    assert sorted(file.name for file in tmp_path.iterdir()) == ["theirs"]
    with pytest.raises(NotWritten, match="there is no folder"):
        write_files({str(tmp_path / "a"): "new", str(tmp_path / "none" / "b"): "new"})
    assert sorted(file.name for file in tmp_path.iterdir()) == ["theirs"]


@pytest.mark.parametrize("name", ["", "a\0b", "x" * 5_000, "/", "."])
def test_names_that_are_none(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(NotWritten):
        write_files({name: "x"})
    assert list(tmp_path.iterdir()) == []


_AT_A_MOMENT = """
import os, sys, time
from methodlint.documents.text import writing
def wait(*_):
    print("now", file=sys.stderr, flush=True)
    time.sleep(60)
real = os.replace
moment = sys.argv.pop(1)
if moment == "replacing":
    os.replace = wait
else:
    writing._write_new = lambda file, text, old=writing._write_new: (old(file, text[:5]), wait())
from methodlint.cli import main
main()
"""


@pytest.mark.parametrize(
    ("number", "moment"),
    [(signal.SIGINT, "replacing"), *(pytest.param(*case, marks=pytest.mark.long) for case in (
        (signal.SIGINT, "writing"), (signal.SIGTERM, "writing"), (signal.SIGTERM, "replacing"),
        (signal.SIGHUP, "writing"), (signal.SIGHUP, "replacing")))],
)  # fmt: skip
def test_an_interrupted_write_leaves_nothing(
    lab: Path, number: signal.Signals, moment: str
) -> None:
    before = files(lab.parent)
    process = subprocess.Popen(
        [sys.executable, "-c", _AT_A_MOMENT, moment, "check", SOUND, "--write", "json=../out.json"],
        cwd=lab, stdout=subprocess.PIPE, stderr=subprocess.PIPE, preexec_fn=_heed_signals,
        env={"PATH": os.environ["PATH"], "PYTHONPATH": str(ROOT), "CI": "1"},
    )  # fmt: skip
    assert process.stderr is not None
    assert process.stderr.readline() == b"now\n"
    process.send_signal(number)
    out, err = process.communicate(timeout=60)
    assert (process.returncode, out, err.strip()) == (128 + number, b"", b"")
    assert files(lab.parent) == before


def _heed_signals() -> None:
    for number in (signal.SIGINT, signal.SIGHUP, signal.SIGTERM):
        signal.signal(number, signal.SIG_DFL)
