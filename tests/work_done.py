"""How much work something is, counted in calls: the same on every machine, busy or not."""

from __future__ import annotations

import sys
from collections.abc import Callable
from typing import Any


def calls_of(work: Callable[[], object]) -> int:
    """Number of functions, ours and those of C, that `work` calls.

    What is loaded or remembered at first use counts too: do a small part of the work before.
    """
    count = 0

    def note(_frame: Any, event: str, _argument: Any) -> None:
        nonlocal count
        count += event in ("call", "c_call")

    before = sys.getprofile()
    sys.setprofile(note)
    try:
        work()
    finally:
        sys.setprofile(before)
    return count
