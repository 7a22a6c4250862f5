"""Times of programs and of calls, always of two things turn and turn about.

What else the machine does meets both alike; what is told is the median of several turns, and the
median of the ratios of each turn. Nothing of the package is imported here.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class Turn:
    """One run of one thing.

    Attributes
    ----------
    wall
        From start to end [s].
    processor
        User and system time of the process and its children [s].
    memory
        Largest resident memory of one process [bytes]; 0 for a call.
    """

    wall: float
    processor: float
    memory: int = 0


@dataclass(frozen=True)
class Program:
    """A command that is run as a process of its own, its output thrown away.

    Attributes
    ----------
    first
        Done before every run and not timed.
    statuses
        Exit statuses that mean that it did its work.
    """

    command: Sequence[str | Path]
    folder: Path
    extra: Mapping[str, str] | None = None
    first: Callable[[], object] | None = None
    statuses: tuple[int, ...] = (0, 1)

    def __call__(self) -> Turn:
        """Run it once."""
        if self.first is not None:
            self.first()
        begin = time.perf_counter()
        return self.ended(self.started(), begin)

    def started(self) -> subprocess.Popen[bytes]:
        """The process, begun."""
        return subprocess.Popen(
            [str(word) for word in self.command],
            cwd=self.folder,
            env=environment(self.extra),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )

    def ended(self, process: subprocess.Popen[bytes], begin: float) -> Turn:
        """Wait for a process that was begun at a time [s]."""
        _, status, used = os.wait4(process.pid, 0)
        wall = time.perf_counter() - begin
        process.returncode = os.waitstatus_to_exitcode(status)
        if process.returncode not in self.statuses:
            raise RuntimeError(f"{self.command} ended with {process.returncode}")
        unit = 1 if sys.platform == "darwin" else 1024
        return Turn(wall, used.ru_utime + used.ru_stime, used.ru_maxrss * unit)


@dataclass(frozen=True)
class SideBySide:
    """A command twice at the same time: processes that share nothing but the machine."""

    program: Program

    def __call__(self) -> Turn:
        """Run both; the time from the first start to the last end."""
        begin = time.perf_counter()
        both = [self.program.started(), self.program.started()]
        turns = [self.program.ended(process, begin) for process in both]
        return Turn(
            max(turn.wall for turn in turns),
            sum(turn.processor for turn in turns),
            max(turn.memory for turn in turns),
        )


@dataclass(frozen=True)
class Call:
    """A function that is called in this process."""

    function: Callable[[], object]

    def __call__(self) -> Turn:
        """Call it once."""
        begin, processor = time.perf_counter(), time.process_time()
        self.function()
        return Turn(time.perf_counter() - begin, time.process_time() - processor)


@dataclass(frozen=True)
class Compared:
    """Medians of two things that took turns; each ratio is that of the first over the second."""

    turns: list[tuple[Turn, ...]]

    def wall(self, which: int = 0) -> float:
        """Median time from start to end of one of both [s]."""
        return statistics.median(turn[which].wall for turn in self.turns)

    def processor(self, which: int = 0) -> float:
        """Median processor time of one of both [s]."""
        return statistics.median(turn[which].processor for turn in self.turns)

    def memory(self, which: int = 0) -> int:
        """Largest resident memory of any turn [bytes]."""
        return max(turn[which].memory for turn in self.turns)

    @property
    def ratio(self) -> float:
        """Median over the turns of the ratio of times from start to end."""
        return statistics.median(turn[0].wall / turn[1].wall for turn in self.turns)

    @property
    def processor_ratio(self) -> float:
        """Median over the turns of the ratio of processor times."""
        return statistics.median(turn[0].processor / turn[1].processor for turn in self.turns)


def in_turn(*things: Callable[[], Turn], times: int, unseen: int = 1) -> Compared:
    """Let things take turns.

    Parameters
    ----------
    times
        Number of turns that count.
    unseen
        Number of turns before them that do not: files and bytecode come into the system's memory.
    """
    turns = [tuple(thing() for thing in things) for _ in range(times + unseen)]
    return Compared(turns[unseen:])


def environment(extra: Mapping[str, str] | None = None) -> dict[str, str]:
    """The environment of every program: bytecode is written, nothing else is remembered."""
    inherited = {k: v for k, v in os.environ.items() if not k.startswith(("PYTHON", "XDG_CACHE"))}
    return {**inherited, "CI": "true", "NO_COLOR": "1", **(extra or {})}


def on_one_core(command: Sequence[str | Path]) -> list[str | Path]:
    """The command held to one core, where the system can do that."""
    if not hasattr(os, "sched_getaffinity"):
        return list(command)
    core = max(os.sched_getaffinity(0))
    held = (
        f"import os, sys; os.sched_setaffinity(0, {{{core}}}); os.execv(sys.argv[1], sys.argv[1:])"
    )
    return [sys.executable, "-I", "-S", "-c", held, *command]
