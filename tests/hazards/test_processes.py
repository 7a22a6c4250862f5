"""What may befall a process: interrupts, full disks, closed pipes, odd environments, failing rules."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.hazards.hostile_lab import ROOT
from tests.hazards.watched import no_rights_of_root
from tests.reports.scratch_lab import EXAMPLES

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="signals and devices of POSIX")
FLAWED = "flawed/terpenoids-hot-and-low.yaml"
SOUND = "sound/flame-retardant-isomers.yaml"
LONG = int(os.environ.get("METHODLINT_HAZARDS", "0"))
PYTHON = (sys.executable, "-m", "methodlint")


@pytest.fixture
def lab(tmp_path: Path) -> Path:
    """A copy of the examples that may be written to."""
    shutil.copytree(EXAMPLES, tmp_path / "lab")
    return tmp_path / "lab"


def environment(**changes: str) -> dict[str, str]:
    return {"PATH": os.environ["PATH"], "PYTHONPATH": str(ROOT), "CI": "1", "HOME": "/nonexistent",
            **changes}  # fmt: skip


def run(
    lab: Path, *arguments: str, program: tuple[str, ...] = PYTHON, **changes: str
) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [*program, *arguments], cwd=lab, env=environment(**changes), capture_output=True,
        timeout=120, check=False,
    )  # fmt: skip


def files(folder: Path) -> dict[str, bytes]:
    return {
        str(f.relative_to(folder)): f.read_bytes() for f in folder.rglob("*") if f.is_file()
    }  # fmt: skip


# Interrupts ----------------------------------------------------------------------------------

# Stops at a named moment until the interrupt has come; the signal itself is a real one.
_AT_A_MOMENT = """
import sys, time
from methodlint import cli
import methodlint.commands.output as output, methodlint.many.check_many as many, os
def wait(*_, **__):
    print("now", file=sys.stderr, flush=True)
    time.sleep(60)
real = os.replace
if sys.argv[1] == "judging": many.judge_part = wait
if sys.argv[1] == "writing": os.replace = wait
if sys.argv[1] == "showing": cli.show_answer = wait
del sys.argv[1]
cli.main()
"""


def _heed_interrupts() -> None:
    # Whatever a shell runs in the background inherits that interrupts are ignored.
    signal.signal(signal.SIGINT, signal.SIG_DFL)


@pytest.mark.parametrize("moment", ["judging", "writing", "showing"])
def test_an_interrupt_is_status_130_and_leaves_no_files(lab: Path, moment: str) -> None:
    before = files(lab)
    process = subprocess.Popen(
        [sys.executable, "-c", _AT_A_MOMENT, moment, "check", SOUND, "--write", "json=out.json"],
        cwd=lab, env=environment(), stdout=subprocess.PIPE, stderr=subprocess.PIPE,
        preexec_fn=_heed_interrupts,
    )  # fmt: skip
    assert process.stderr is not None
    assert process.stderr.readline() == b"now\n"
    process.send_signal(signal.SIGINT)
    out, err = process.communicate(timeout=60)
    assert process.returncode == 130
    # The library for commands ends the line that the terminal's ^C stands on.
    assert (out, err.strip()) == (b"", b"")
    after = files(lab)
    # What was written before is whole; nothing else is there.
    assert after.pop("out.json", b"{}").rstrip().endswith(b"}")
    assert after == before


def test_an_interrupt_of_workers_ends_them_all(lab: Path) -> None:
    methods = lab / "methods"
    text = (methods / "triazole-enantiomers.yaml").read_text()
    for number in range(1500):
        (methods / f"copy-{number}.yaml").write_text(text)
    process = subprocess.Popen(
        [*PYTHON, "check", ".", "--workers", "2"], cwd=lab, env=environment(),
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, start_new_session=True,
        preexec_fn=_heed_interrupts,
    )  # fmt: skip
    time.sleep(3)
    # A terminal sends it to the whole group.
    os.killpg(process.pid, signal.SIGINT)
    out, err = process.communicate(timeout=60)
    assert process.returncode == 130
    assert out == b""
    assert b"Traceback" not in err
    assert _is_gone(process.pid)


def _is_gone(group: int) -> bool:
    # Python's own watcher of shared memory ends a moment after the others.
    until = time.monotonic() + 20
    while time.monotonic() < until:
        try:
            os.killpg(group, 0)
        except ProcessLookupError:
            return True
        time.sleep(0.1)
    return False


# Streams -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "arguments",
    [("rules",), ("check", FLAWED, "--show", "json"), ("schema", "method"), ("new", "method"),
     ("check", FLAWED), ("compare", SOUND, FLAWED)],
    ids=lambda a: " ".join(a),
)  # fmt: skip
def test_a_full_disk_is_status_2_in_one_line(lab: Path, arguments: tuple[str, ...]) -> None:
    if not Path("/dev/full").exists():
        pytest.skip("this system has no /dev/full")
    with open("/dev/full", "wb") as full:
        done = subprocess.run([*PYTHON, *arguments], cwd=lab, env=environment(), stdout=full,
                              stderr=subprocess.PIPE, timeout=120, check=False)  # fmt: skip
    assert done.returncode == 2
    assert done.stderr.count(b"\n") == 1
    assert b"No space left" in done.stderr


@pytest.mark.parametrize(
    "arguments", [("rules",), ("check", FLAWED, "--show", "json"), ("schema", "method"),
    ("check", FLAWED), ("check", SOUND)], ids=lambda a: " ".join(a),
)  # fmt: skip
def test_a_pipe_that_is_closed_at_once_is_silent(lab: Path, arguments: tuple[str, ...]) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    done = subprocess.run([*PYTHON, *arguments], cwd=lab, env=environment(), stdout=writing,
                          stderr=subprocess.PIPE, timeout=120, check=False)  # fmt: skip
    os.close(writing)
    assert done.stderr == b""
    # A check keeps its status: a fault is one whether its report is read or not.
    assert done.returncode == (1 if FLAWED in arguments else 0)


@pytest.mark.parametrize("closed", [">&-", "2>&-", "<&-", ">&- 2>&- <&-"])
def test_streams_that_are_not_there(lab: Path, closed: str) -> None:
    done = subprocess.run(["bash", "-c", f'"$@" {closed}', "bash", *PYTHON, "check", FLAWED], cwd=lab,
                          env=environment(), capture_output=True, timeout=120, check=False)  # fmt: skip
    assert done.returncode == 1
    assert b"Traceback" not in done.stderr + done.stdout


# Surroundings --------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def plain() -> bytes:
    """What a check says in ordinary surroundings."""
    done = subprocess.run([*PYTHON, "check", FLAWED], cwd=EXAMPLES, env=environment(),
                          capture_output=True, timeout=120, check=False)  # fmt: skip
    assert done.returncode == 1
    assert done.stderr == b""
    return done.stdout


@pytest.mark.parametrize(
    "changes",
    [{"LC_ALL": "C", "LANG": ""}, {"LC_ALL": "no_SUCH.locale"}, {"PYTHONUTF8": "0", "LC_ALL": "POSIX"},
     {"TZ": "Nowhere/Land"}, {"TZ": "Pacific/Kiritimati"}, {"TERM": ""}, {"COLUMNS": "x"},
     {"PYTHONWARNINGS": "error"}, {"PYTHONOPTIMIZE": "2"}, {"HOME": ""}, {"XDG_CACHE_HOME": "/dev/null"},
     {"PYTHONDEVMODE": "1"}],
    ids=str,
)  # fmt: skip
def test_surroundings_change_nothing(plain: bytes, changes: dict[str, str]) -> None:
    done = run(EXAMPLES, "check", FLAWED, **{"CI": "", **changes})
    assert (done.returncode, done.stderr) == (1, b"")
    # Where a stream cannot hold a sign, it is written as an escape.
    assert done.stdout.isascii() or done.stdout == plain
    assert done.stdout.splitlines()[0] == plain.splitlines()[0]


def test_no_environment_at_all(plain: bytes) -> None:
    done = subprocess.run(
        [sys.executable, "-c", "from methodlint.cli import main; main()", "check", FLAWED],
        cwd=EXAMPLES, env={"PYTHONPATH": str(ROOT)}, capture_output=True, timeout=120, check=False,
    )  # fmt: skip
    assert (done.returncode, done.stderr) == (1, b"")
    assert done.stdout.splitlines()[0] == plain.splitlines()[0]


@pytest.mark.parametrize("options", [("-OO",), ("-W", "error")])
def test_optimised_and_with_warnings_as_errors_it_says_the_same(options: tuple[str, ...]) -> None:
    """No check of ours is an `assert`, and nothing warns."""
    for arguments in (
        ("check", "flawed" if LONG else FLAWED, "--show", "json"),
        ("check", "unreadable"),
    ):
        usual = run(EXAMPLES, *arguments)
        done = run(EXAMPLES, *arguments, program=(sys.executable, *options, "-m", "methodlint"))
        assert (done.returncode, done.stdout, done.stderr) == (
            usual.returncode, usual.stdout, usual.stderr
        )  # fmt: skip


def test_a_home_that_may_not_be_written(lab: Path, tmp_path: Path) -> None:
    home = tmp_path / "home"
    home.mkdir()
    home.chmod(0o500)
    done = subprocess.run([*PYTHON, "check", "flawed"], cwd=lab, capture_output=True, timeout=120,
                          env=environment(HOME=str(home), CI=""), check=False,
                          preexec_fn=no_rights_of_root)  # fmt: skip
    assert (done.returncode, done.stderr) == (1, b"")
    assert list(home.iterdir()) == []


def test_a_lab_that_may_not_be_written(lab: Path, tmp_path: Path) -> None:
    before = files(lab)
    for folder in [lab, *(f for f in lab.rglob("*") if f.is_dir())]:
        folder.chmod(0o500)
    done = subprocess.run([*PYTHON, "check", "flawed", "--write", "json=out.json"], cwd=lab,
                          env=environment(), capture_output=True, timeout=120, check=False,
                          preexec_fn=no_rights_of_root)  # fmt: skip
    for folder in [lab, *(f for f in lab.rglob("*") if f.is_dir())]:
        folder.chmod(0o700)
    assert done.returncode == 2
    assert done.stderr.count(b"\n") == 1
    assert b"cannot write out.json" in done.stderr
    assert files(lab) == before


@pytest.mark.parametrize("seed", range(48 if LONG else 3))
def test_the_same_bytes_under_random_hash_seeds(seed: int) -> None:
    """Words, JSON and every other format of one run: the first seed is the one compared with."""
    formats = ("words", "json", "sarif", "junit", "markdown", "annotations", "html")
    for name in formats if LONG else formats[seed::3]:
        said = {
            run(
                EXAMPLES,
                "check",
                "flawed" if LONG else FLAWED,
                "--show",
                name,
                PYTHONHASHSEED=number,
            ).stdout
            for number in ("0", str(1_000_003 * (seed + 1) % 2**32))
        }
        assert len(said) == 1, name


# Files ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "target",
    [SOUND, f"./flawed/../{SOUND}", "columns/../columns/diol-3um.yaml", "lab.yaml", "link.yaml",
     "instruments/bench-a.yaml"],
)  # fmt: skip
def test_a_report_never_replaces_what_was_read(lab: Path, target: str) -> None:
    (lab / "link.yaml").symlink_to(SOUND)
    before = files(lab)
    done = run(lab, "check", "sound", "columns", "--write", f"json={target}")
    assert done.returncode == 2
    assert b"would overwrite" in done.stderr
    assert files(lab) == before


def test_a_report_never_replaces_the_table_of_a_sequence(lab: Path) -> None:
    before = files(lab)
    for target in ("sound/overnight-samples.csv", "sound/../sound/overnight-samples.csv"):
        done = run(lab, "check", "sound/overnight-table.yaml", "--write", f"json={target}")
        assert (done.returncode, done.stdout) == (2, b"")
        assert b"would overwrite" in done.stderr
    assert files(lab) == before


def test_hard_links_to_what_was_read_keep_their_text(lab: Path) -> None:
    """A new file takes the name; the document under its other name is not touched."""
    os.link(lab / SOUND, lab / "twin.json")
    text = (lab / SOUND).read_bytes()
    run(lab, "check", SOUND, "--write", "json=twin.json")
    assert (lab / SOUND).read_bytes() == text


@pytest.mark.parametrize("arguments", [
    ("transfer", "methods/triazole-enantiomers.yaml", "--to", "bench-b", "-o",
     "methods/triazole-enantiomers.yaml"),
    ("new", "method", "-o", "methods/triazole-enantiomers.yaml"),
], ids=["transfer", "new"])  # fmt: skip
def test_no_command_writes_over_a_document(lab: Path, arguments: tuple[str, ...]) -> None:
    before = files(lab)
    done = run(lab, *arguments)
    assert done.returncode == 2
    assert files(lab) == before


# A rule that fails ---------------------------------------------------------------------------

_FAILING = """
import sys, methodlint.judging.loader as loader
from dataclasses import replace
def fails(case):
    raise {what}
    yield
found = loader.built_in_rules()
broken = tuple(replace(r, judge=fails) if r.id == "pressure.low-limit-missing" else r for r in found)
import methodlint.judging.check as check, methodlint.many.part as part
for module in list(sys.modules.values()):
    if getattr(module, "built_in_rules", None) is loader.built_in_rules and module is not loader:
        module.built_in_rules = lambda: broken
from methodlint.cli import main
main()
"""


@pytest.mark.parametrize(
    "what", ["ZeroDivisionError('by \\x1b[2J zero')", "RecursionError()", "MemoryError()",
             "AssertionError()", "KeyError('x')", "StopIteration()"]
)  # fmt: skip
def test_a_rule_that_raises_is_one_error_and_the_others_run(what: str, plain: bytes) -> None:
    program = (sys.executable, "-c", _FAILING.format(what=what))
    done = run(EXAMPLES, "check", FLAWED, program=program)
    assert (done.returncode, done.stderr) == (3, b"")
    assert b"pressure.low-limit-missing" in done.stdout
    assert b"phase.two-phase-at-outlet" in done.stdout
    assert b"Traceback" not in done.stdout
    assert b"\x1b" not in done.stdout


_BROKEN = """
from methodlint import cli
def broken(*_, **__): raise ValueError("a\\x1b[2Jb")
cli.answer_of = broken
cli.main()
"""


def test_an_error_of_this_tool_is_two_lines_and_status_3() -> None:
    program = (sys.executable, "-c", _BROKEN)
    done = run(EXAMPLES, "check", FLAWED, program=program)
    assert (done.returncode, done.stdout) == (3, b"")
    assert done.stderr.count(b"\n") == 2
    assert b"ValueError" in done.stderr
    assert b"\x1b" not in done.stderr
