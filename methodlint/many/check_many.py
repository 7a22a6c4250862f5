"""Check many documents, here or by the workers of an executor."""

from __future__ import annotations

import concurrent.futures
import datetime
import os
import sys
from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path as FilePath
from typing import TYPE_CHECKING, Any

from methodlint.checking.check import merged, require_options
from methodlint.checking.given import Given, refuse_unused, with_given
from methodlint.checking.report import Report
from methodlint.checking.targets import NOTHING, NothingToCheck, files_of, targets_of
from methodlint.checking.throttled_gc import gc_throttled
from methodlint.documents.arguments import require_date, require_flag, require_list, require_path
from methodlint.documents.kinds.sequence import Sequence as SequenceModel
from methodlint.documents.library import LabFolder, lab_root
from methodlint.documents.loading import Loaded
from methodlint.documents.text.limits import SEQUENCE
from methodlint.documents.text.opening import CannotOpen, bytes_of
from methodlint.judging.lab_rules import refuse_not_named
from methodlint.many.combine import combined
from methodlint.many.lost import lost_part
from methodlint.many.part import Asked, Settings, WorkerPart, folder_of, judge_part, ready

if TYPE_CHECKING:
    from concurrent.futures import Executor, Future

    from methodlint.many.interruptible_pool import InterruptiblePool

__all__ = ["check_many", "check_with_workers"]

BATCH = 64
"""Documents judged together: enough to fill a march, few enough to keep memory small."""

_WORTH_WORKERS, _WORTH_A_WORKER = 256, 128
IN_FLIGHT = 32
"""Batches handed to an executor and not yet answered."""


@gc_throttled()
def check_many(
    paths: Iterable[str | FilePath],
    executor: Any = None,
    *,
    as_of: datetime.date | None = None,
    given: Sequence[Given] = (),
    changed: bool = False,
    allow_rules: Sequence[str | FilePath] = (),
    shown_from: FilePath | None = None,
    not_before: datetime.date | None = None,
    remedies: bool = True,
) -> Report:
    """Check many documents or folders of documents.

    The report is the same, byte for byte in every format, whoever does the work.

    Parameters
    ----------
    paths
        Files or folders; see `methodlint.check`.
    executor
        Anything with the `submit` of `concurrent.futures.Executor`: threads, processes, or
        workers on other machines that see the same files under the same paths; also a client of
        Dask, or another that gives such an executor (`get_executor`). None works here.
    as_of, given, changed, allow_rules, shown_from, not_before, remedies
        See `methodlint.check`.

    Returns
    -------
    Report
        Without the arrays that `methodlint.check` keeps: `runs` and `batches` are empty. The
        documents of a batch whose worker ended are *not checked*; the others are not concerned.

    Raises
    ------
    FileNotFoundError
        If a path does not exist, unless `changed`.
    NothingToCheck
        If there is no document of this tool among the files, unless `changed`.
    RulesNotNamed
        If a folder is allowed that no lab's document names.
    GivenWrong
        If a figure does not validate, or is for a kind of document that takes no part.
    TypeError
        If an argument has another type, such as one path where a list is wanted.
    """
    paths = require_list("paths", paths, (str, os.PathLike), "paths")
    require_options(as_of, given, changed, allow_rules)
    require_date("not_before", not_before)
    require_flag("remedies", remedies)
    if shown_from is not None:
        require_path("shown_from", shown_from)
    if executor is not None and callable(getattr(executor, "get_executor", None)):
        executor = executor.get_executor()
    if executor is not None and not callable(getattr(executor, "submit", None)):
        raise TypeError("executor: something with a method submit is expected")
    call = os.urandom(8).hex()
    here = shown_from or FilePath.cwd()
    work: list[tuple[Settings, Sequence[Asked]]] = []
    lots: list[tuple[Settings, int]] = []
    by_root = _by_root(paths, changed=changed, within=shown_from)
    if executor is not None:
        from methodlint.many.interruptible_pool import InterruptiblePool

        if isinstance(executor, InterruptiblePool):
            # They start while the files are looked through.
            executor.begin(ready, sum(-(-len(files) // BATCH) for files in by_root.values()))
    allowed = [FilePath(folder) for folder in allow_rules]
    if allowed:
        labs = [(LabFolder(root, here).lab, root) for root in by_root]
        refuse_not_named(allowed, labs, changed=changed)
    may = tuple(str(folder.resolve()) for folder in allowed)
    for root, files in by_root.items():
        settings = Settings(
            call,
            str(root),
            str(here),
            as_of,
            tuple(given),
            may,
            not_before=not_before,
            remedies=remedies,
        )
        settings, batches = _batched(settings, files)
        work += [(settings, batch) for batch in batches]
        lots.append((settings, len(batches)))
    parts = _done_here(work) if executor is None else _done_by(executor, work)
    reports: list[Report] = []
    for settings, count in lots:
        own = [part for part in parts[:count] if part is not None]
        del parts[:count]
        if any(part.documents for part in own):
            reports.append(combined(settings, own))
    if not reports and not changed:
        raise NothingToCheck(NOTHING)
    report = merged(reports) if reports else Report(documents={})
    if not report.unusable:
        refuse_unused(given, report.documents.values())
    return report


def usual_workers(documents: int, cores: int) -> int:
    """Processes that pay for so many documents: each takes half a second to start."""
    return max(1, min(cores, documents // _WORTH_A_WORKER)) if documents >= _WORTH_WORKERS else 1


def _cores() -> int:
    """Cores that this process may use."""
    allowed = getattr(os, "sched_getaffinity", None)
    return len(allowed(0)) if allowed is not None else os.cpu_count() or 1


def check_with_workers(
    paths: Sequence[str | FilePath], workers: int | None, **options: Any
) -> Report:
    """Check with this many processes, None for the usual number; options as for `check_many`."""
    if workers is None:
        workers = 1
        # What a change concerns is seldom many documents.
        if not options.get("changed") and any(os.path.isdir(path) for path in paths):
            workers = usual_workers(len(files_of(paths)), _cores())
    # If it is to ignore its environment, Python cannot be told to leave out the working folder.
    unsafe = sys.flags.ignore_environment and not sys.flags.safe_path
    if workers == 1 or unsafe:
        return check_many(paths, None, **options)
    with processes(workers) as executor:
        try:
            return check_many(paths, executor, **options)
        except BaseException:
            executor.end()
            raise


def _by_root(
    paths: Iterable[str | FilePath], *, changed: bool, within: FilePath | None
) -> dict[FilePath, list[Asked]]:
    files: dict[FilePath, list[Asked]] = {}
    if changed:
        for folder, documents in targets_of(paths, changed=True, within=within):
            named = {str(folder.shown_from / document.path): True for document in documents}
            files[folder.root] = list(named.items())
        return files
    roots: dict[FilePath, FilePath] = {}
    for file, asked_for in files_of(paths):
        if file.parent not in roots:
            roots[file.parent] = lab_root(file, within)
        files.setdefault(roots[file.parent], []).append((str(file), asked_for))
    return files


def _batched(settings: Settings, files: list[Asked]) -> tuple[Settings, list[Sequence[Asked]]]:
    """Cut files into batches, sequences apart: the dates of documents follow from theirs."""
    if len(files) <= BATCH:
        return settings, [files]
    sequences, others = [], []
    begins = settings.begins
    folder = folder_of(settings)
    for asked in files:
        document = _sequence(folder, asked, settings)
        if document is None:
            others.append(asked)
            continue
        sequences.append(asked)
        starts = document.model.begins if isinstance(document.model, SequenceModel) else None
        if starts is not None:
            begins = max(begins, starts.date()) if begins is not None else starts.date()
    few = max(1, BATCH // 8)
    batches: list[Sequence[Asked]] = [
        sequences[first : first + few] for first in range(0, len(sequences), few)
    ]
    batches += [others[first : first + BATCH] for first in range(0, len(others), BATCH)]
    return replace(settings, begins=begins), batches


def _sequence(folder: LabFolder, asked: Asked, settings: Settings) -> Loaded | None:
    """Load a document if it is a sequence; most files need no look beyond their bytes."""
    file = FilePath(asked[0])
    if folder.leaves(file):
        return None
    try:
        data = bytes_of(asked[0], SEQUENCE.size + 1)
    except CannotOpen:
        return None
    # The word may hide behind an escape.
    if b"sequence" not in data and b"\\" not in data:
        return None
    document = folder.open(file)
    del folder.reads[file], folder.documents[file]
    if document is None or document.kind != "sequence":
        return None
    return with_given(folder, settings.given).changed(document) if settings.given else document


# Doing the work ------------------------------------------------------------------------------


def _done_here(work: Sequence[tuple[Settings, Sequence[Asked]]]) -> list[WorkerPart | None]:
    return [judge_part(settings, files) for settings, files in work]


def _done_by(
    executor: Executor, work: Sequence[tuple[Settings, Sequence[Asked]]]
) -> list[WorkerPart | None]:
    """Hand batches to an executor, a bounded number at a time."""
    parts: list[WorkerPart | None] = [None] * len(work)
    waiting = list(range(len(work) - 1, -1, -1))
    flying: dict[Future[WorkerPart], int] = {}
    fallen: list[int] = []
    try:
        while waiting or flying:
            while waiting and len(flying) < IN_FLIGHT:
                number = waiting.pop()
                try:
                    flying[executor.submit(judge_part, *work[number])] = number
                except concurrent.futures.BrokenExecutor:
                    fallen.append(number)
            done, _ = concurrent.futures.wait(
                flying, return_when=concurrent.futures.FIRST_COMPLETED
            )
            for future in done:
                number = flying.pop(future)
                try:
                    parts[number] = future.result()
                except Exception as error:
                    if not _worker_ended(error):
                        raise
                    fallen.append(number)
    except Exception:
        # Not after an interrupt: workers are ending too, and a pool of processes that finds its
        # futures cancelled then complains from a thread of its own.
        for future in flying:
            future.cancel()
        raise
    for number in sorted(fallen):
        # One batch may have taken the workers of its neighbours along: each on its own now.
        parts[number] = _alone(*work[number])
    return parts


def _worker_ended(error: Exception) -> bool:
    """Whether a worker ended, rather than the work in it failed."""
    ended = (concurrent.futures.BrokenExecutor, concurrent.futures.CancelledError)
    return isinstance(error, ended) or type(error).__name__ == "KilledWorker"


def _alone(settings: Settings, files: Sequence[Asked]) -> WorkerPart:
    try:
        with processes(1) as executor:
            part: WorkerPart = executor.submit(judge_part, settings, files).result()
            return part
    except concurrent.futures.BrokenExecutor:
        return lost_part(settings, files)


def processes(workers: int) -> InterruptiblePool:
    """Workers in processes of their own, started afresh; an interrupt ends them without a word."""
    # Imported late: most checks need one process only.
    import multiprocessing

    from methodlint.many.interruptible_pool import InterruptiblePool, begin_worker

    context = multiprocessing.get_context("spawn")
    return InterruptiblePool(workers, mp_context=context, initializer=begin_worker)
