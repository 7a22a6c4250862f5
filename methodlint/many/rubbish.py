"""How often a check looks for objects that refer to each other and to nothing else."""

from __future__ import annotations

import gc

__all__ = ["look_for_rubbish_rarely"]


def look_for_rubbish_rarely() -> None:
    """Look less often than an interpreter does by itself.

    What a check makes is mostly kept till the end, and hardly any of it is a cycle: looking often
    costs a tenth of a check and more.
    """
    gc.set_threshold(50_000, 20, 50)
