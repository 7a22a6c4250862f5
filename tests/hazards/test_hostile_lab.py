"""A lab folder that wishes us ill is checked by real processes that are watched from inside."""

from __future__ import annotations

import json
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests import command
from tests.hazards.hostile_lab import CODE, PATHS, SECRET, Hostile, bombs, build
from tests.hazards.watched import PYTHON, SAFE_PYTHON, Done, run

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="its folders hold no such things")
METHOD = "methods/triazole-enantiomers.yaml"
REPORT = "transferred/triazole-enantiomers-b-transfer.json"


def _opened_up(folder: Path) -> None:
    for locked in (folder / "lab" / "methods").glob("locked*"):
        locked.chmod(0o700)


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Hostile]:
    folder = tmp_path_factory.mktemp("hostile")
    yield build(folder)
    _opened_up(folder)


@pytest.fixture(scope="module")
def whole(made: Hostile) -> Done:
    """The whole lab, judged once with a cache."""
    return run(made, made.home.parent / "log", "check", ".", "--show", "json")


@pytest.fixture(scope="module")
def report(whole: Done) -> dict[str, Any]:
    read: dict[str, Any] = json.loads(whole.out)
    return read


def innocent(done: Done, made: Hostile, *statuses: int, told: tuple[str, ...] = ()) -> None:
    assert done.watched
    assert list(done.trespasses(made, may_write=[made.home])) == []
    assert not made.trace.exists()
    assert done.status in statuses, (told, done.err)
    assert "Traceback" not in done.out + done.err
    assert SECRET not in done.out + done.err
    assert "root:x:0" not in done.out + done.err
    assert all(c.isprintable() or c == "\n" for c in done.out + done.err)


@pytest.mark.long
def test_the_hook_tells_what_a_hostile_program_does(made: Hostile, tmp_path: Path) -> None:
    """The watch is worth something: each kind of trespass is seen."""
    script = tmp_path / "bad.py"
    script.write_text(
        "import os, socket, subprocess, methodlint\n"
        "open('methods/outside-file.yaml').close()\n"
        "os.listdir('methods/outside-folder')\n"
        "subprocess.run(['true'])\n"
        "socket.socket()\n"
        "open('written', 'w').close()\n"
        "exec(compile('1', os.path.abspath('numpy.py'), 'exec'))\n"
        "os.remove('written')\n"
    )
    done = run(made, tmp_path / "log", str(script), program=(sys.executable, "-P"))
    told = "\n".join(done.trespasses(made))
    assert done.status == 0, done.err
    for word in ("opened outside: ['open'", "opened outside: ['os.listdir'", "subprocess.Popen",
                 "socket.", "opened for writing", "ran or imported", "changed: ['os.remove'"):  # fmt: skip
        assert word in told


def test_the_whole_lab_is_judged_and_nothing_of_it_acts(
    made: Hostile, whole: Done, report: dict[str, Any]
) -> None:
    innocent(whole, made, 2)
    assert whole.err == ""
    assert report["errors"] == []
    # What is sound in it is judged all the same.
    judged = {Path(run["path"]).stem: run for run in report["runs"]}
    assert judged["triazole-enantiomers"]["figures"]


def findings_at(report: dict[str, Any], name: str) -> list[dict[str, str]]:
    return [f for f in report["findings"] if name in (f["path"] or "")]


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("outside-file", "leaves the lab folder"), ("outside-relative", "leaves the lab folder"),
        ("passwd", "leaves the lab folder"), ("zero", "leaves the lab folder"),
        ("memory", "leaves the lab folder"), ("loop", "circle"), ("fro", "circle"),
        ("pipe", "no regular file"), ("listening", ""), ("nowhere", "no such file"),
        ("locked", "may not be read"),
    ],
)  # fmt: skip
def test_each_thing_that_is_no_document_is_one_finding(
    report: dict[str, Any], name: str, said: str
) -> None:
    (finding,) = findings_at(report, f"methods/{name}.yaml")
    assert finding["rule"] == "document.unreadable"
    assert said in finding["message"]


@pytest.mark.parametrize("name", bombs())
def test_each_bomb_is_told_in_few_findings(report: dict[str, Any], name: str) -> None:
    found = findings_at(report, f"methods/{name}.yaml")
    assert 1 <= len(found) <= 110


def test_names_that_lead_elsewhere_are_refused_and_not_looked_up(report: dict[str, Any]) -> None:
    for number in range(len(PATHS)):
        found = findings_at(report, f"methods/reference-{number}.yaml")
        assert {f["rule"] for f in found} & {
            "document.reference-unresolved", "document.unreadable", "document.shape-wrong",
            "document.too-large",
        }, number  # fmt: skip


def test_rules_of_the_lab_are_told_of_and_not_run(report: dict[str, Any]) -> None:
    rule = "document.rule-folder-unusable"
    (told,) = [n for n in report["not_checked"] if n["rule"] == rule]
    assert told["missing"] == ["--allow-rules our-rules"]
    outside = [f["message"] for f in report["findings"] if f["rule"] == rule]
    assert any("../outside" in message for message in outside)


@pytest.mark.long
def test_nothing_is_read_through_links_to_remember_a_report(made: Hostile, tmp_path: Path) -> None:
    """A folder without linked folders is remembered; hashing it opens no more than a check."""
    lab = tmp_path / "lab"
    (lab / "columns").mkdir(parents=True)
    for name in ("lab.yaml", "columns/amylose-3um.yaml", "instruments/bench-a.yaml", METHOD):
        (lab / name).parent.mkdir(exist_ok=True)
        shutil.copy(made.lab / name, lab / name)
    (lab / "columns" / "secret.yaml").symlink_to(made.outside / "secret.yaml")
    (lab / "methods" / "zero.yaml").symlink_to("/dev/zero")
    here = Hostile(lab, made.outside, made.trace, made.home)
    first = run(here, tmp_path / "log", "check", ".")
    innocent(first, here, 2)
    assert list((made.home / ".cache" / "methodlint").iterdir())
    again = run(here, tmp_path / "log", "check", ".")
    innocent(again, here, 2)
    assert (again.status, again.out) == (first.status, first.out)
    assert len(again.events) < len(first.events) / 2


COMMANDS = [
    (("check", METHOD), (0, 1)),
    (("check", "methods/passwd.yaml"), (2,)),
    (("check", "columns/secret.yaml", "--dependents"), (0, 1, 2)),
    (("check", METHOD, "--against", "methods/pipe.yaml"), (2,)),
    (("check", METHOD, "--against", "methods/brackets.yaml"), (2,)),
    (("check", "x" * 5_000), (2,)),
    (("check", "no\nsuch\x1b[2Jfile"), (2,)),
    (("check", METHOD, "--allow-rules", "columns"), (2,)),
    (("compare", METHOD, "methods/brackets.yaml"), (2,)),
    (("compare", METHOD, "methods/outside-file.yaml"), (2,)),
    (("transfer", METHOD, "--to", "../../outside/secret"), (2,)),
    (("transfer", METHOD, "--to", "bench-b", "--column", "secret"), (2,)),
    (("transfer", "methods/aliases.yaml", "--to", "bench-b"), (2,)),
    (("transfer", METHOD, "--to", "bench-b"), (0, 1)),
    (("new", "column"), (0,)),
    (("new", "column", "-o", METHOD), (2,)),
    (("schema", "method"), (0,)),
    (("schema", "report"), (0,)),
    (("rules",), (0,)),
    (("why", "phase.two-phase-at-outlet"), (0,)),
    (("why", "phase.two-phase-at-outlet", "methods/aliases.yaml"), (0, 2)),
    (("why", "../../our-rules/house/settles_too_short"), (2,)),
    (("--help",), (0,)),
    (("--version",), (0,)),
]
"""Arguments, with the statuses that are right."""

_ALL = """
import contextlib, io, json, sys
from methodlint.cli import main
said = []
for arguments in json.loads(sys.argv[1]):
    streams = [io.TextIOWrapper(io.BytesIO(), "utf-8", write_through=True) for _ in range(2)]
    sys.argv = ["methodlint", *arguments]
    status = 0
    with contextlib.redirect_stdout(streams[0]), contextlib.redirect_stderr(streams[1]):
        try:
            main()
        except SystemExit as ended:
            status = ended.code or 0
    said.append([status, *(stream.buffer.getvalue().decode() for stream in streams)])
print(json.dumps(said))
"""


@pytest.mark.long
def test_no_command_is_led_astray(made: Hostile, tmp_path: Path) -> None:
    """All of them one after the other in one process that is watched."""
    asked = json.dumps([arguments for arguments, _ in COMMANDS])
    done = run(made, tmp_path / "log", "-c", _ALL, asked, program=(sys.executable, "-P"))
    assert done.status == 0, done.err
    for (arguments, statuses), said in zip(COMMANDS, json.loads(done.out), strict=True):
        innocent(Done(*said, done.events), made, *statuses, told=arguments)


@pytest.mark.long
@pytest.mark.parametrize("program", [PYTHON, SAFE_PYTHON], ids=["python -m", "python -P -m"])
def test_python_itself_runs_nothing_of_the_folder(tmp_path: Path, program: tuple[str, ...]) -> None:
    """`-m` puts the working folder first; we take it away before anything else is imported.

    A folder named like this tool is found by Python before a line of ours is read: against that
    there is `-P`, or the command itself.
    """
    made = build(tmp_path, ours="-P" in program)
    innocent(run(made, tmp_path / "log", "check", METHOD, program=program), made, 0, 1)
    _opened_up(tmp_path)


def test_try_rules_runs_code_because_that_is_what_it_is_for(tmp_path: Path) -> None:
    trace, rule = tmp_path / "trace.txt", tmp_path / "our-rules" / "house" / "settles_too_short.py"
    rule.parent.mkdir(parents=True)
    rule.write_text(CODE.format(trace=str(trace)))
    done = command.run("try-rules", "our-rules", cwd=tmp_path)
    assert done.status in (1, 2)
    assert "Traceback" not in done.stdout + done.stderr
    assert [Path(line).resolve() for line in trace.read_text().splitlines()] == [rule.resolve()]
