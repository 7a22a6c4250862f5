"""Workers run nothing of the working folder and end with the process that started them."""

from __future__ import annotations

import contextlib
import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from methodlint.many.check_many import BATCH
from tests.benchmarks.lab_folder import lab_of_methods
from tests.command import run
from tests.hazards.hostile_lab import CODE, ROOT
from tests.hazards.watched import COMMAND

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="signals and devices of POSIX")
SAFE_PYTHON = (sys.executable, "-P", "-m", "methodlint")
# More than one batch: there is work for two workers.
METHODS = BATCH + 6


@pytest.fixture(scope="module")
def lab(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A lab folder that is worth two workers."""
    folder = tmp_path_factory.mktemp("workers") / "lab"
    lab_of_methods(folder, METHODS)
    return folder


def environment(**changes: str) -> dict[str, str]:
    return {"PATH": os.environ["PATH"], "CI": "1", "HOME": "/nonexistent", **changes}


@pytest.fixture
def shadowed(lab: Path, tmp_path: Path) -> Iterator[Path]:
    """The lab with a module of every name of the standard library and of our libraries in it."""
    trace = tmp_path / "trace.txt"
    others = ("numpy", "pydantic", "pydantic_core", "ruamel", "click", "rich", "methodlint",
              "openpyxl", "typing_extensions", "annotated_types")  # fmt: skip
    written = [lab / f"{name}.py" for name in sorted({*sys.stdlib_module_names, *others})]
    for file in written:
        file.write_text(CODE.format(trace=str(trace)), encoding="utf-8")
    yield trace
    for file in written:
        file.unlink()


@pytest.mark.parametrize(
    "program",
    [
        pytest.param((str(COMMAND),), id="command"),
        pytest.param(SAFE_PYTHON, id="python -P", marks=pytest.mark.long),
    ],
)
def test_workers_import_nothing_from_the_working_folder(
    lab: Path, shadowed: Path, program: tuple[str, ...]
) -> None:
    done = subprocess.run(
        [*program, "check", "methods", "--show", "json", "--workers", "2"], cwd=lab,
        env=environment(), capture_output=True, timeout=240, check=False,
    )  # fmt: skip
    assert not shadowed.exists(), shadowed.read_text()
    assert done.stderr == b""
    alone = run("check", "methods", "--show", "json", cwd=lab)
    assert (done.returncode, done.stdout) == (alone.status, alone.out)


def test_the_trace_tells_of_a_python_that_looks_in_the_working_folder(
    lab: Path, shadowed: Path
) -> None:
    """The test above is worth something: plain `python -c` does run what lies there."""
    subprocess.run([sys.executable, "-c", "import pickle"], cwd=lab, env=environment(),
                   capture_output=True, timeout=60, check=False)  # fmt: skip
    assert shadowed.exists()


def test_a_python_that_ignores_its_environment_judges_by_one_process(
    lab: Path, shadowed: Path
) -> None:
    """It cannot be told by a variable to leave out the working folder."""
    script = (
        "import sys; sys.path[:0] = []; sys.path.remove('')\n"
        f"sys.path.insert(0, {str(ROOT)!r})\n"
        "from methodlint.cli import main\n"
        "main(['check', 'methods', '--workers', '2', '--show', 'json'])"
    )
    done = subprocess.run([sys.executable, "-E", "-c", script], cwd=lab, env=environment(),
                          capture_output=True, timeout=240, check=False)  # fmt: skip
    assert not shadowed.exists(), shadowed.read_text()
    assert done.returncode in (0, 1), done.stderr


def group_of(leader: int) -> list[int]:
    """Processes of a group, as the system lists them."""
    found = []
    for name in os.listdir("/proc"):
        with contextlib.suppress(OSError, IndexError, ValueError):
            fields = Path("/proc", name, "stat").read_text().rpartition(")")[2].split()
            if int(fields[2]) == leader and fields[0] != "Z":
                found.append(int(name))
    return found


@pytest.mark.long
@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="needs a list of processes")
@pytest.mark.parametrize("moment", ["starting", "judging"])
@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP, signal.SIGKILL, signal.SIGINT])
def test_workers_end_with_their_parent(tmp_path: Path, number: signal.Signals, moment: str) -> None:
    """Only the parent gets the signal; standard output is closed by all of them soon after."""
    lab_of_methods(tmp_path / "lab", 1_500)
    process = subprocess.Popen(
        [str(COMMAND), "check", "methods", "--workers", "2"], cwd=tmp_path / "lab",
        env=environment(), stdout=subprocess.PIPE, stderr=subprocess.PIPE, start_new_session=True,
        preexec_fn=_heed_signals,
    )  # fmt: skip
    until = time.monotonic() + 60
    while len(group_of(process.pid)) < 4 and time.monotonic() < until:
        time.sleep(0.02)
    assert len(group_of(process.pid)) == 4, "parent, two workers, and who clears up after them"
    if moment == "judging":
        time.sleep(2.5)
    process.send_signal(number)
    out, err = process.communicate(timeout=30)
    assert out == b""
    until = time.monotonic() + 20
    while group_of(process.pid) and time.monotonic() < until:
        time.sleep(0.05)
    assert group_of(process.pid) == []
    expected = -number if number == signal.SIGKILL else 128 + number
    assert process.returncode == expected
    if number != signal.SIGKILL and moment == "judging":
        assert err.strip() == b""
    else:  # a worker that is just starting may say itself that its parent is gone
        assert b"methodlint" not in err


def _heed_signals() -> None:
    # Whatever a shell runs in the background inherits that interrupts are ignored.
    for number in (signal.SIGINT, signal.SIGHUP, signal.SIGTERM):
        signal.signal(number, signal.SIG_DFL)


_SLOW_IMPORT = """
import sys, time
class Slow:
    def find_spec(self, name, path=None, target=None):
        if name == {name!r}:
            print("now", file=sys.stderr, flush=True)
            time.sleep(60)
sys.meta_path.insert(0, Slow())
"""


@pytest.mark.parametrize(
    "name", ["methodlint.cli", "click", "methodlint.commands.compare", "numpy"]
)
@pytest.mark.parametrize("program", [(str(COMMAND),), SAFE_PYTHON], ids=["command", "python -P"])
def test_an_interrupt_while_importing_is_status_130(
    lab: Path, tmp_path: Path, program: tuple[str, ...], name: str
) -> None:
    (tmp_path / "sitecustomize.py").write_text(_SLOW_IMPORT.format(name=name))
    process = subprocess.Popen(
        [*program, "check", "methods"], cwd=lab, env=environment(PYTHONPATH=str(tmp_path)),
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, preexec_fn=_heed_signals,
    )  # fmt: skip
    assert process.stderr is not None
    assert process.stderr.readline() == b"now\n"
    process.send_signal(signal.SIGINT)
    out, err = process.communicate(timeout=60)
    assert (process.returncode, out, err.strip()) == (130, b"", b"")
