"""What may befall a process: interrupts, full disks, closed pipes, odd environments, failing rules."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from methodlint.judging import loader
from methodlint.judging.for_rules import Case, Finding
from tests.command import PYTHON, ROOT, Done, process, run
from tests.hazards.watched import no_rights_of_root
from tests.reports.scratch_lab import EXAMPLES

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="signals and devices of POSIX")
FLAWED = "flawed/terpenoids-hot-and-low.yaml"
SOUND = "sound/flame-retardant-isomers.yaml"
FORMATS = ("words", "json", "sarif", "junit", "markdown", "annotations", "html")


@pytest.fixture
def lab(tmp_path: Path) -> Path:
    """A copy of the examples that may be written to."""
    shutil.copytree(EXAMPLES, tmp_path / "lab")
    return tmp_path / "lab"


def environment(**changes: str) -> dict[str, str]:
    return {"PATH": os.environ["PATH"], "PYTHONPATH": str(ROOT), "CI": "1", "HOME": "/nonexistent",
            **changes}  # fmt: skip


def files(folder: Path) -> dict[str, bytes]:
    return {
        str(f.relative_to(folder)): f.read_bytes() for f in folder.rglob("*") if f.is_file()
    }  # fmt: skip


# Interrupts ----------------------------------------------------------------------------------

# Stops at a named moment until the interrupt has come; the signal itself is a real one.
_AT_A_MOMENT = """
import sys, time
from methodlint import cli
import methodlint.commands.check as command, methodlint.many.check_many as many
def wait(*_, **__):
    print("now", file=sys.stderr, flush=True)
    time.sleep(60)
if sys.argv[1] == "judging": many.judge_part = wait
if sys.argv[1] == "showing": command.show_answer = wait
del sys.argv[1]
cli.main()
"""


def _heed_interrupts() -> None:
    # Whatever a shell runs in the background inherits that interrupts are ignored.
    signal.signal(signal.SIGINT, signal.SIG_DFL)


@pytest.mark.long
@pytest.mark.parametrize("moment", ["judging", "showing"])
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


@pytest.mark.long
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
    [("schema", "method"), *(pytest.param(asked, marks=pytest.mark.long) for asked in (
        ("rules",), ("check", FLAWED, "--show", "json"), ("new", "method"), ("check", FLAWED),
        ("compare", SOUND, FLAWED)))],
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
    "arguments",
    [("check", FLAWED), *(pytest.param(asked, marks=pytest.mark.long) for asked in (
        ("rules",), ("check", FLAWED, "--show", "json"), ("schema", "method"), ("check", SOUND)))],
    ids=lambda a: " ".join(a),
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


@pytest.mark.parametrize(
    "closed",
    [
        ">&- 2>&- <&-",
        *(pytest.param(one, marks=pytest.mark.long) for one in (">&-", "2>&-", "<&-")),
    ],
)
def test_streams_that_are_not_there(lab: Path, closed: str) -> None:
    done = subprocess.run(["bash", "-c", f'"$@" {closed}', "bash", *PYTHON, "check", FLAWED], cwd=lab,
                          env=environment(), capture_output=True, timeout=120, check=False)  # fmt: skip
    assert done.returncode == 1
    assert b"Traceback" not in done.stderr + done.stdout


# Surroundings --------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def plain() -> Done:
    """What a check says in ordinary surroundings."""
    done = run("check", FLAWED, cwd=EXAMPLES)
    assert (done.status, done.err) == (1, b"")
    return done


SURROUNDINGS = (
    {"LC_ALL": "C", "LANG": ""}, {"LC_ALL": "no_SUCH.locale"}, {"PYTHONUTF8": "0", "LC_ALL": "POSIX"},
    {"TZ": "Nowhere/Land"}, {"TZ": "Pacific/Kiritimati"}, {"TERM": ""}, {"COLUMNS": "x"},
    {"PYTHONWARNINGS": "error"}, {"PYTHONOPTIMIZE": "2"}, {"HOME": ""}, {"XDG_CACHE_HOME": "/dev/null"},
    {"PYTHONDEVMODE": "1"},
)  # fmt: skip
ALL_OF_THEM = {name: value for changes in SURROUNDINGS for name, value in changes.items()}


@pytest.mark.parametrize(
    "changes",
    [ALL_OF_THEM, *(pytest.param(changes, marks=pytest.mark.long) for changes in SURROUNDINGS)],
    ids=[
        "all at once",
        *(" ".join(f"{name}={value}" for name, value in c.items()) for c in SURROUNDINGS),
    ],
)
def test_surroundings_change_nothing(plain: Done, changes: dict[str, str]) -> None:
    """No check of ours is an `assert`, nothing warns, and no setting of a machine is needed."""
    done = process("check", FLAWED, cwd=EXAMPLES, env=environment(**{"CI": "", **changes}))
    assert (done.status, done.err) == (1, b"")
    # Where a stream cannot hold a sign, it is written as an escape.
    assert done.out.isascii() or done.out == plain.out
    assert done.out.splitlines()[0] == plain.out.splitlines()[0]


@pytest.mark.long
def test_no_environment_at_all(plain: Done) -> None:
    done = subprocess.run(
        [sys.executable, "-c", "from methodlint.cli import main; main()", "check", FLAWED],
        cwd=EXAMPLES, env={"PYTHONPATH": str(ROOT)}, capture_output=True, timeout=120, check=False,
    )  # fmt: skip
    assert (done.returncode, done.stderr) == (1, b"")
    assert done.stdout.splitlines()[0] == plain.out.splitlines()[0]


@pytest.mark.long
@pytest.mark.parametrize("options", [("-OO",), ("-W", "error")])
def test_optimised_and_with_warnings_as_errors_it_says_the_same(options: tuple[str, ...]) -> None:
    for arguments in (("check", "flawed", "--show", "json"), ("check", "unreadable")):
        usual = run(*arguments, cwd=EXAMPLES)
        program = (sys.executable, *options, "-m", "methodlint")
        assert process(*arguments, cwd=EXAMPLES, program=program) == usual


@pytest.mark.long
def test_a_home_that_may_not_be_written(lab: Path, tmp_path: Path) -> None:
    home = tmp_path / "home"
    home.mkdir()
    home.chmod(0o500)
    done = subprocess.run([*PYTHON, "check", "flawed"], cwd=lab, capture_output=True, timeout=120,
                          env=environment(HOME=str(home), CI=""), check=False,
                          preexec_fn=no_rights_of_root)  # fmt: skip
    assert (done.returncode, done.stderr) == (1, b"")
    assert list(home.iterdir()) == []


@pytest.mark.long
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


@pytest.mark.parametrize(
    ("target", "seeds"),
    [(FLAWED, [1_000_003]), pytest.param("flawed", range(1, 5), marks=pytest.mark.long)],
)
def test_the_same_bytes_under_any_hash_seed(tmp_path: Path, target: str, seeds: range) -> None:
    """Every format at once: this process has a seed of its own, which is one to compare with."""
    said = []
    for number, seed in enumerate([None, *seeds]):
        folder = tmp_path / str(number)
        folder.mkdir()
        writes = [f"--write={name}={folder / name}" for name in FORMATS]
        if seed is None:
            done = run("check", target, *writes, cwd=EXAMPLES)
        else:
            seeded = {"PYTHONHASHSEED": str(seed)}
            done = process("check", target, *writes, cwd=EXAMPLES, env=seeded)
        assert (done.status, done.err) == (1, b"")
        said.append((done.out, files(folder)))
    assert set(said[0][1]) == set(FORMATS)
    assert all(other == said[0] for other in said[1:])


# Files ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "target",
    [SOUND, f"./flawed/../{SOUND}", "columns/../columns/diol-3um.yaml", "lab.yaml", "link.yaml",
     "instruments/bench-a.yaml"],
)  # fmt: skip
def test_a_report_never_replaces_what_was_read(lab: Path, target: str) -> None:
    (lab / "link.yaml").symlink_to(SOUND)
    before = files(lab)
    done = run("check", SOUND, "columns", "--write", f"json={target}", cwd=lab)
    assert done.status == 2
    link = b"leads through the link"
    assert (link if target == "link.yaml" else b"would overwrite") in done.err
    assert files(lab) == before


def test_a_report_never_replaces_the_table_of_a_sequence(lab: Path) -> None:
    before = files(lab)
    for target in ("sound/overnight-samples.csv", "sound/../sound/overnight-samples.csv"):
        done = run("check", "sound/overnight-table.yaml", "--write", f"json={target}", cwd=lab)
        assert (done.status, done.out) == (2, b"")
        assert b"would overwrite" in done.err
    assert files(lab) == before


def test_hard_links_to_what_was_read_keep_their_text(lab: Path) -> None:
    """It is a document by whatever name."""
    os.link(lab / SOUND, lab / "twin.json")
    text = (lab / SOUND).read_bytes()
    assert run("check", SOUND, "--write", "json=twin.json", cwd=lab).status == 2
    assert (lab / "twin.json").read_bytes() == text
    assert (lab / SOUND).read_bytes() == text


@pytest.mark.parametrize("arguments", [
    ("transfer", "methods/triazole-enantiomers.yaml", "--to", "bench-b", "-o",
     "methods/triazole-enantiomers.yaml"),
    ("new", "method", "-o", "methods/triazole-enantiomers.yaml"),
], ids=["transfer", "new"])  # fmt: skip
def test_no_command_writes_over_a_document(lab: Path, arguments: tuple[str, ...]) -> None:
    before = files(lab)
    done = run(*arguments, cwd=lab)
    assert done.status == 2
    assert files(lab) == before


# A rule that fails ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    "error", [ZeroDivisionError("by \x1b[2J zero"), RecursionError(), MemoryError(),
              AssertionError(), KeyError("x"), StopIteration()], ids=repr,
)  # fmt: skip
def test_a_rule_that_raises_is_one_error_and_the_others_run(
    error: Exception, plain: Done, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(case: Case) -> Iterator[Finding]:
        raise error
        yield

    rules = loader.built_in_rules()
    name = "pressure.low-limit-missing"
    broken = tuple(replace(rule, judge=fails) if rule.id == name else rule for rule in rules)
    assert broken != rules
    # Whoever imports the rules has done so for `plain`; the loader keeps the sound ones.
    for module in list(sys.modules.values()):
        honest = getattr(module, "built_in_rules", None) is loader.built_in_rules
        if honest and module is not loader:
            monkeypatch.setattr(module, "built_in_rules", lambda: broken)
    done = run("check", FLAWED, cwd=EXAMPLES)
    assert (done.status, done.err) == (3, b"")
    assert name in done.stdout
    assert name not in plain.stdout
    assert "phase.two-phase-at-outlet" in done.stdout
    assert "Traceback" not in done.stdout
    assert "\x1b" not in done.stdout


def test_an_error_of_this_tool_is_two_lines_and_status_3(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object, **__: object) -> None:
        raise ValueError("a\x1b[2Jb")

    monkeypatch.setattr("methodlint.commands.check.answer_of", broken)
    done = run("check", FLAWED, cwd=EXAMPLES)
    assert (done.status, done.out) == (3, b"")
    assert done.err.count(b"\n") == 2
    assert b"ValueError" in done.err
    assert b"\x1b" not in done.err
