"""Worker processes that an interrupt of the whole group ends without a word of theirs."""

from __future__ import annotations

import signal
from collections.abc import Callable, Iterator
from concurrent.futures import BrokenExecutor, Future, ProcessPoolExecutor
from contextlib import contextmanager, suppress
from typing import Any

from methodlint.judging.rubbish import look_for_rubbish_rarely


class QuietWorkers(ProcessPoolExecutor):
    """Workers that take no interrupt while they start; `begin_worker` begins each of them."""

    def __init__(self, workers: int, **options: Any) -> None:
        super().__init__(workers, **options)
        self.workers = workers

    def submit(self, *work: Any, **options: Any) -> Future[Any]:
        """Hand over work; a worker may be started for it."""
        with _no_interrupt():
            return super().submit(*work, **options)

    def begin(self, ready: Callable[[], None], wanted: int) -> None:
        """Start up to this many workers and let them make ready, before there is work."""
        with suppress(BrokenExecutor):
            for _ in range(min(wanted, self.workers)):
                self.submit(ready)

    def end(self) -> None:
        """End the workers in the midst of what they do."""
        for process in list((getattr(self, "_processes", None) or {}).values()):
            process.terminate()


def begin_worker() -> None:
    """Make a process of its own ready for batches."""
    end_at_interrupt()
    look_for_rubbish_rarely()


def end_at_interrupt() -> None:
    """Let an interrupt end this process at once, as it ends programs that know of none."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    if hasattr(signal, "pthread_sigmask"):
        signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT})


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
