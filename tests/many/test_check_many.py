"""One report whoever does the work, and a worker that ends costs its own batch only."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from concurrent.futures import Executor, ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from methodlint.checking.check import check
from methodlint.checking.report import Report
from methodlint.checking.targets import NothingToCheck
from methodlint.many import check_many as module
from methodlint.many.check_many import check_many, processes, usual_workers
from methodlint.many.part import judge_part
from methodlint.reports.formats import FORMATS, WITH_ARRAYS, written
from methodlint.reports.prepared import Prepared
from tests.benchmarks.lab_folder import lab_of_methods, method_text
from tests.command import ROOT

EXAMPLES = Path(__file__).resolve().parents[2] / "example_methods"
PLAIN = tuple(name for name in FORMATS if name not in WITH_ARRAYS)


@pytest.fixture(scope="module", autouse=True)
def batches_of_32() -> Iterator[None]:
    """Batches small enough that the forty methods are two of them."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(module, "BATCH", 32)
        yield


@pytest.fixture(scope="module")
def methods(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Forty methods in a lab folder, one of which dies of a missing column."""
    folder = lab_of_methods(tmp_path_factory.mktemp("lab") / "lab", 40)
    lost = method_text(3, "faulty").replace("column: silica-3um", "column: never-written")
    (folder / "screening-00003.yaml").write_text(lost, encoding="utf-8")
    return folder


def said(report: Report, formats: tuple[str, ...] = PLAIN) -> list[str]:
    """What a report says in every format that needs no arrays, and its exit status."""
    prepared = Prepared(report, notes=True)
    return [*(written(name, prepared) for name in formats), str(prepared.exit_status)]


@pytest.fixture(scope="module")
def whole(methods: Path) -> Report:
    """The report of the methods by no worker; no test changes it."""
    return check_many([methods])


@pytest.fixture(scope="module")
def alone(whole: Report) -> list[str]:
    return said(whole)


@pytest.mark.long
def test_a_folder_judged_in_batches_reads_as_if_judged_at_once(monkeypatch: Any) -> None:
    # The examples hold sequences, transferred methods, deviations and unreadable files.
    monkeypatch.setattr(module, "BATCH", 8)
    assert said(check_many([EXAMPLES])) == said(check(EXAMPLES))


def test_threads_give_the_same_bytes(methods: Path, alone: list[str]) -> None:
    with ThreadPoolExecutor(2) as executor:
        assert said(check_many([methods], executor)) == alone


def test_processes_give_the_same_bytes(methods: Path, alone: list[str]) -> None:
    with processes(2) as executor:
        assert said(check_many([methods], executor)) == alone


@contextmanager
def cluster_of_two() -> Iterator[Executor]:
    """The executor of a real cluster on this machine; the extra `dask` brings it along."""
    distributed = pytest.importorskip("distributed", reason="extra `dask` is not installed")
    import dask

    patient = {
        "distributed.comm.timeouts.connect": "120s",
        "distributed.scheduler.allowed-failures": 0,
    }
    with (
        dask.config.set(patient),
        distributed.LocalCluster(
            n_workers=2, threads_per_worker=1, dashboard_address=None, memory_limit=None,
            silence_logs=50,
        ) as cluster,
        distributed.Client(cluster, timeout="120s") as client,
    ):  # fmt: skip
        yield client.get_executor()


@pytest.mark.second_reader
def test_a_cluster_gives_the_same_bytes(methods: Path, alone: list[str]) -> None:
    with cluster_of_two() as executor:
        assert said(check_many([methods], executor)) == alone


def _deadly_for_the_second_batch(settings: Any, files: Any) -> Any:
    if any("screening-00035" in name for name, _ in files):
        os.kill(os.getpid(), signal.SIGKILL)
    return judge_part(settings, files)


def _first_batch_alone(report: Report, whole: Report) -> None:
    """The second batch is not checked, the first as if nothing had happened."""
    lost = {item.at.document.name for item in report.not_checked if "worker" in item.missing[0]}
    assert lost == {f"screening-{number:05d}" for number in range(32, 40)}
    assert report.exit_status() == 2

    def of_the_first_batch(found: Report) -> list[str]:
        return [
            f"{item.at.document.path} {item.rule} {item.message} {item.remedy}"
            for item in found.findings
            if item.at.document.name not in lost
        ]

    assert of_the_first_batch(report) == of_the_first_batch(whole)
    assert any("screening-00001" in line for line in of_the_first_batch(report))


needs_kill = pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="this system has no SIGKILL")


@needs_kill
def test_a_worker_that_ends_costs_its_batch_only(
    methods: Path, whole: Report, monkeypatch: Any
) -> None:
    monkeypatch.setattr(module, "judge_part", _deadly_for_the_second_batch)
    with processes(2) as executor:
        _first_batch_alone(check_many([methods], executor), whole)


@needs_kill
@pytest.mark.second_reader
def test_a_worker_of_a_cluster_that_ends_costs_its_batch_only(
    methods: Path, whole: Report, monkeypatch: Any
) -> None:
    monkeypatch.setattr(module, "judge_part", _deadly_for_the_second_batch)
    with cluster_of_two() as executor:
        _first_batch_alone(check_many([methods], executor), whole)


class _Counting(Executor):
    """Runs at once and counts what has been handed to it."""

    def __init__(self) -> None:
        self.tasks: list[tuple[Any, ...]] = []
        self.inner = ThreadPoolExecutor(1)

    def submit(self, function: Any, /, *arguments: Any, **options: Any) -> Any:
        self.tasks.append(arguments)
        return self.inner.submit(function, *arguments, **options)


def test_workers_get_paths_and_settings_and_nothing_else(methods: Path) -> None:
    executor = _Counting()
    check_many([methods], executor)
    assert len(executor.tasks) == 2
    for _, files in executor.tasks:
        assert all(isinstance(name, str) and isinstance(asked, bool) for name, asked in files)


def test_batches_in_flight_are_bounded(methods: Path, monkeypatch: Any) -> None:
    monkeypatch.setattr(module, "BATCH", 4)
    monkeypatch.setattr(module, "IN_FLIGHT", 3)
    most = 0

    class Watched(_Counting):
        def submit(self, function: Any, /, *arguments: Any, **options: Any) -> Any:
            nonlocal most
            future = super().submit(function, *arguments, **options)
            self.open = [one for one in [*getattr(self, "open", []), future] if not one.done()]
            most = max(most, len(self.open))
            return future

    executor = Watched()
    check_many([methods], executor)
    assert len(executor.tasks) == 10
    assert most <= 3


def test_an_error_of_the_work_itself_is_not_taken_for_a_lost_worker(
    methods: Path, monkeypatch: Any
) -> None:
    def broken(settings: Any, files: Any) -> Any:
        raise ZeroDivisionError("planted")

    monkeypatch.setattr(module, "judge_part", broken)
    with ThreadPoolExecutor(1) as executor, pytest.raises(ZeroDivisionError, match="planted"):
        check_many([methods], executor)


def test_nothing_to_check_is_refused(tmp_path: Path) -> None:
    with pytest.raises(NothingToCheck):
        check_many([tmp_path])
    with pytest.raises(FileNotFoundError):
        check_many([tmp_path / "not-there"])


def test_the_report_keeps_no_arrays(whole: Report) -> None:
    assert whole.runs == []
    assert len(whole.plain_runs) == 40
    kept = json.loads(written("json", Prepared(whole)))
    assert len(kept["runs"]) == 40
    assert sum(run["figures"] is None for run in kept["runs"]) == 1


@pytest.mark.parametrize(
    ("documents", "cores", "workers"),
    [(1, 8, 1), (255, 8, 1), (256, 8, 2), (256, 1, 1), (1_000, 2, 2), (1_000, 16, 7), (0, 4, 1)],
)
def test_workers_are_started_where_they_pay(documents: int, cores: int, workers: int) -> None:
    assert usual_workers(documents, cores) == workers


@pytest.mark.second_reader
def test_the_example_on_a_cluster_ends_with_the_same_report() -> None:
    """A worker is killed on the way; its batches go to the other one."""
    pytest.importorskip("distributed", reason="extra `dask` is not installed")
    example = ROOT / "example_methods" / "check_on_a_cluster.py"
    done = subprocess.run(
        [sys.executable, str(example), "--methods", "400", "--after", "0.7"],
        capture_output=True, text=True, timeout=300, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert "killed" in done.stdout
    assert "the report of one process is the same" in done.stdout
