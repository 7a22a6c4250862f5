"""Worker processes that end with this one, without a word, and import nothing from the working folder."""

from __future__ import annotations

import multiprocessing
import os
import signal
import threading
from collections.abc import Callable, Iterator
from concurrent.futures import BrokenExecutor, Future, ProcessPoolExecutor
from contextlib import contextmanager, suppress
from typing import Any

from methodlint.checking.throttled_gc import throttle_gc

_PATIENCE = 5.0
"""How long the end of the workers is waited for [s]."""


class InterruptiblePool(ProcessPoolExecutor):
    """Workers that take no interrupt while they start; `begin_worker` begins each of them."""

    def __init__(self, workers: int, **options: Any) -> None:
        # Its queues start the process that clears up after workers that were killed.
        with _no_interrupt(), _safe_path():
            super().__init__(workers, **options)
        self.workers = workers

    def submit(self, *work: Any, **options: Any) -> Future[Any]:
        """Hand over work; a worker may be started for it."""
        with _no_interrupt(), _safe_path():
            return super().submit(*work, **options)

    def begin(self, ready: Callable[[], None], wanted: int) -> None:
        """Start up to this many workers and let them make ready, before there is work."""
        with suppress(BrokenExecutor):
            for _ in range(min(wanted, self.workers)):
                self.submit(ready)

    def end(self) -> None:
        """End the workers in the midst of what they do."""
        # Afterwards the pool no longer knows its processes.
        processes = list((getattr(self, "_processes", None) or {}).values())
        manager = getattr(self, "_executor_manager_thread", None)
        self.shutdown(wait=False, cancel_futures=True)
        for process in processes:
            process.terminate()
        if manager is not None:
            # The end of Python writes to the pipe that this thread is about to close.
            manager.join(_PATIENCE)


def begin_worker() -> None:
    """Make a process of its own ready for batches."""
    end_at_interrupt()
    _end_with_parent()
    throttle_gc()


def end_at_interrupt() -> None:
    """Let an interrupt end this process at once, as it ends programs that know of none."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    if hasattr(signal, "pthread_sigmask"):
        signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT})


def _end_with_parent() -> None:
    """End this process when the one that started it has ended, by whatever signal.

    A worker waits for work at a pipe whose writing end it holds itself: it would wait for ever.
    """
    parent = multiprocessing.parent_process()
    if parent is None:
        return

    def watch() -> None:
        parent.join()
        os._exit(1)

    threading.Thread(target=watch, daemon=True).start()


@contextmanager
def _safe_path() -> Iterator[None]:
    """Keep the working folder off the path of a Python that is started meanwhile.

    Workers begin by `python -c`, which looks there for every module, the standard library's too.
    """
    before = os.environ.get("PYTHONSAFEPATH")
    os.environ["PYTHONSAFEPATH"] = "1"
    try:
        yield
    finally:
        if before is None:
            del os.environ["PYTHONSAFEPATH"]
        else:
            os.environ["PYTHONSAFEPATH"] = before


@contextmanager
def _no_interrupt() -> Iterator[None]:
    """Hold interrupts back; a process that is started meanwhile holds them back too."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
