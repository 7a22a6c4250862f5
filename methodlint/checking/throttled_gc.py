"""How often a check looks for objects that refer to each other and to nothing else.

What a check makes is mostly kept till its end, and hardly any of it is a cycle: looking as often
as an interpreter does by itself costs a quarter of a check of a long sequence.
"""

from __future__ import annotations

import atexit
import gc
import threading
from collections.abc import Iterator
from contextlib import contextmanager

__all__ = ["gc_throttled", "throttle_gc"]

_RARELY = 50_000, 20, 50

_lock = threading.Lock()
_asked_by = 0
_usual: tuple[int, int, int] | None = None
_ours: tuple[int, int, int] | None = None


def throttle_gc() -> None:
    """Look less often from now on, and not at the end: for a process of one's own."""
    gc.set_threshold(*_RARELY)
    # An interpreter that ends looks through everything; the system takes it all back anyway.
    atexit.unregister(gc.freeze)
    atexit.register(gc.freeze)


@contextmanager
def gc_throttled() -> Iterator[None]:
    """Look less often for as long as this lasts: for a process that is somebody else's.

    Nothing changes where it looks as rarely already, or not at all. Calls may overlap in any
    number of threads; the last one to end puts back what was there before the first.
    """
    global _asked_by, _usual, _ours
    with _lock:
        if not _asked_by:
            found = gc.get_threshold()
            _usual = found if 0 < found[0] < _RARELY[0] else None
            if _usual is not None:
                gc.set_threshold(*_RARELY)
                _ours = gc.get_threshold()
        _asked_by += 1
    try:
        yield
    finally:
        with _lock:
            _asked_by -= 1
            # Whoever has set something else meanwhile keeps it.
            if not _asked_by and _usual is not None and gc.get_threshold() == _ours:
                gc.set_threshold(*_usual)
